"""Proven causes: what proves them, and why they came about, as stress against rating."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from footwell.circuit.circuit import ENDS
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.conclude import Conclusion
from footwell.diagnosis.damage import Stress, damage_modes
from footwell.diagnosis.hypotheses import history_stresses
from footwell.diagnosis.overloads import overloading, overloads_behind
from footwell.diagnosis.proof import PROVEN_FROM, Proven
from footwell.faults.miswiring import slip_named
from footwell.messages import CauseView
from footwell.page import words as say
from footwell.page.ends_view import run_told
from footwell.page.suspect_view import item_words, mode_shares, modes_told, repair_told

NOT_ESTABLISHED = "Why it failed was not established."


def causes_view(case: Case, conclusion: Conclusion) -> list[CauseView]:
    """One entry for each proven fault, one for wiring that was found wrong and, once all is well, one for
    each part that only its repair has shown to be at fault."""
    return [
        *_wiring(case, conclusion),
        *(_cause(case, conclusion, p) for p in conclusion.proven),
        *(_cured(case, conclusion) if conclusion.step.solved else ()),
    ]


def _cured(case: Case, conclusion: Conclusion) -> Iterator[CauseView]:
    """Parts mended on trial: the complaint is gone, and no reading tells what of each was wrong."""
    known = {p.fault.element for p in conclusion.proven}
    for element in sorted(case.epochs[-1].mended - known):
        shares = mode_shares(conclusion.belief.suspects, element)
        if sum(shares.values()) >= PROVEN_FROM:
            yield CauseView(
                title=modes_told(case.now, element, shares),
                proof=["It works since this was mended. No reading tells what of it was wrong."],
                reasons=[],
                open_questions=[NOT_ESTABLISHED],
            )


def _wiring(case: Case, conclusion: Conclusion) -> list[CauseView]:
    """Connectors found wired wrongly: the slip, and what became of the parts that it overloaded."""
    drawn = case.drawn
    found: list[CauseView] = []
    for half, ways in dict.fromkeys(pair for e in case.epochs for pair in e.arrangement):
        if half[1] == ENDS:
            found.append(_astray(case, conclusion, half[0], dict(ways)))
            continue
        connector = drawn.connectors[half[0]]
        slip = slip_named(drawn, half, dict(ways))
        reasons, unsure = _aftermath(case, conclusion)
        found.append(
            CauseView(
                title=f"{say.capital(connector.name)} was wired wrongly{f': {slip}' if slip else ''}",
                proof=[f"Seen in {connector.name}, {connector.half_a}, way by way."],
                reasons=reasons or ["It had been wired by hand before this job."],
                open_questions=unsure,
            )
        )
    return found


def _astray(case: Case, conclusion: Conclusion, wire: str, run: Mapping[str, str]) -> CauseView:
    """A wire found to run elsewhere, and what became of the parts that it overloaded."""
    drawn = case.drawn
    reasons, unsure = _aftermath(case, conclusion)
    return CauseView(
        title=f"{say.capital(say.short_named(drawn, wire))} was joined to the wrong place",
        proof=[f"Followed to both ends: {run_told(drawn, wire, run['start'], run['end'])}."],
        reasons=reasons,
        open_questions=unsure or ([] if reasons else [NOT_ESTABLISHED]),
    )


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
        title=repair_told(case.now, conclusion.belief, one.repair),
        proof=_proof(case, one),
        reasons=reasons,
        open_questions=[] if reasons else [NOT_ESTABLISHED],
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
        if one.mended:
            return ["It works since this was mended. Nothing was measured at the place itself."]
        measured = any(isinstance(e, Taken) for e in case.evidence)
        return [
            "Nothing was measured at the place itself; all else was ruled out."
            if measured
            else "Nothing was measured: what was seen fits nothing else."
        ]
    return [
        item_words(case.now, e)
        for e in case.evidence
        if isinstance(e, Taken) and e.number == one.by
    ]


def _reasons(case: Case, conclusion: Conclusion, fault: Fault) -> list[str]:
    """Stress that a proven overload or wrong wiring put on the failed part; else what was ruled out."""
    lines = [_wired_wrongly(s) for s in history_stresses(case) if s.element == fault.element]
    proven = [p.fault for p in conclusion.proven]
    lines += [_overloaded(case, *pair) for pair in overloading(case, fault, proven)]
    ruled_out = _ruled_out(case, fault, {(f.element, f.mode) for f in proven})
    if not lines and ruled_out:
        lines.append(f"Ruled out as the cause behind it: {say.joined_all(ruled_out)}.")
    return lines


def _overloaded(case: Case, suspect: Fault, stress: Stress) -> str:
    """What a proven overload did to a part."""
    cause, hurt = (
        say.capital(say.fault_title(case.now, suspect)),
        say.short_named(case.now, stress.element),
    )
    if stress.blown:
        return f"{cause}: that blows {hurt}."
    aired = case.now.elements[stress.element].kind.name == "resistor_pack"
    return (
        f"{cause}: {hurt} then carries {say.amps(stress.amps)}"
        f"{' with less cooling air' if aired else ''}, {stress.ratio:.1f} times what it stands."
    )


def _ruled_out(case: Case, fault: Fault, proven: set[tuple[str, str]]) -> list[str]:
    """Loads that could have overloaded the part and did not, each with all that it does not have."""
    found: dict[str, list[str]] = {}
    for suspect, _ in overloads_behind(case, fault):
        if (suspect.element, suspect.mode) not in proven:
            mode = case.now.elements[suspect.element].modes[suspect.mode].title
            modes = found.setdefault(suspect.element, [])
            modes += [mode] if mode not in modes else []
    return [f"{say.short_named(case.now, e)} {say.joined(modes)}" for e, modes in found.items()]
