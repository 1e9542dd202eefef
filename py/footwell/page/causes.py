"""Proven causes: what proves them, and why they came about, as stress against rating."""

from __future__ import annotations

from footwell.circuit.circuit import AS_DRAWN
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.conclude import Conclusion
from footwell.diagnosis.damage import Stress, damage_modes
from footwell.diagnosis.hypotheses import history_stresses
from footwell.diagnosis.overloads import overloads_behind
from footwell.diagnosis.proof import Proven
from footwell.faults.miswiring import slip_named
from footwell.messages import CauseView
from footwell.page import words as say
from footwell.page.suspect_view import item_words


def causes_view(case: Case, conclusion: Conclusion) -> list[CauseView]:
    """One entry for each proven fault, and one for wiring that was found wrong."""
    return [*_wiring(case, conclusion), *(_cause(case, conclusion, p) for p in conclusion.proven)]


def _wiring(case: Case, conclusion: Conclusion) -> list[CauseView]:
    """Connectors found wired wrongly: the slip, and what became of the parts that it overloaded."""
    drawn = case.circuit_for(AS_DRAWN)
    found: list[CauseView] = []
    for half, ways in dict.fromkeys(pair for e in case.epochs for pair in e.arrangement):
        connector = drawn.connectors[half[0]]
        slip = slip_named(drawn, half, dict(ways))
        reasons, unsure = _aftermath(case, conclusion)
        found.append(
            CauseView(
                title=f"{_capital(connector.name)} was wired wrongly{f': {slip}' if slip else ''}",
                proof=[f"Seen in {connector.name}, {connector.half_a}, way by way."],
                reasons=reasons or ["It had been wired by hand before this job."],
                open_questions=unsure,
            )
        )
    return found


UNHURT = 0.03
"""Share of a damage below which the part counts as unhurt."""


def _aftermath(case: Case, conclusion: Conclusion) -> tuple[list[str], list[str]]:
    """Of each part that the wiring overloaded: hurt, unhurt, or not known."""
    known: list[str] = []
    unsure: list[str] = []
    proven = {p.fault for p in conclusion.proven}
    for stress in history_stresses(case):
        modes = damage_modes(case.now, stress)
        name = say.short_named(case.now, stress.element)
        load = f"{name} carried {say.amps(stress.amps)}, rated {say.amps(stress.rating)},"
        left = sum(w.share for w in conclusion.belief.suspects if set(modes) & set(w.faults))
        if proven & set(modes):
            known.append(
                f"{name} was blown by it." if stress.blown else f"{load} and was hurt by it."
            )
        elif modes and left < UNHURT:
            held = f"{name} held." if stress.blown else f"{load} and came through unhurt."
            known.append(held)
        elif modes:
            unsure.append(f"Whether {name} was hurt is not established.")
    return known, unsure


def _cause(case: Case, conclusion: Conclusion, one: Proven) -> CauseView:
    reasons = _reasons(case, conclusion, one.fault)
    return CauseView(
        title=_capital(say.fault_title(case.now, one.fault)),
        proof=_proof(case, one),
        reasons=reasons,
        open_questions=[] if reasons else ["Why it failed was not established."],
    )


def _wired_wrongly(stress: Stress) -> str:
    """What the wrong wiring did to a part."""
    if stress.blown:
        return "The wrong wiring blew it."
    load = f"{say.amps(stress.amps)} against a rating of {say.amps(stress.rating)}"
    return f"Wired wrongly it carried {load}{' until the fuse opened' if stress.brief else ''}."


def _proof(case: Case, one: Proven) -> list[str]:
    """The reading at the faulty place, or plainly that there is none."""
    if one.by is None:
        cured = "It works since this was mended. " if one.mended else ""
        return [f"{cured}Nothing was measured at the place itself; all else was ruled out."]
    return [
        item_words(case.now, e)
        for e in case.evidence
        if isinstance(e, Taken) and e.number == one.by
    ]


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _reasons(case: Case, conclusion: Conclusion, fault: Fault) -> list[str]:
    """Stress that a proven overload or wrong wiring put on the failed part; else what was ruled out."""
    lines = [_wired_wrongly(s) for s in history_stresses(case) if s.element == fault.element]
    proven = {p.fault for p in conclusion.proven}
    ruled_out: list[str] = []
    for suspect, stress in overloads_behind(case, fault):
        if any(p.element == suspect.element and p.mode == suspect.mode for p in proven):
            if suspect in proven:
                hurt = say.short_named(case.now, stress.element)
                lines.append(
                    f"{_capital(say.fault_title(case.now, suspect))}: {hurt}"
                    f" then carries {say.amps(stress.amps)} with less cooling air, {stress.ratio:.1f} times"
                    " what it stands."
                )
        else:
            ruled_out.append(say.fault_title(case.now, Fault(suspect.element, suspect.mode)))
    if not lines and ruled_out:
        lines.append(
            f"Ruled out as the cause behind it: {say.joined(list(dict.fromkeys(ruled_out)))}."
        )
    return lines
