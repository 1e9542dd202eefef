"""Proven causes: what proves them, and why they came about, as stress against rating."""

from __future__ import annotations

from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.conclude import Conclusion, Proven, overloads_behind
from footwell.diagnosis.hypotheses import history_stresses
from footwell.messages import CauseView
from footwell.page import words as say
from footwell.page.suspect_view import item_words
from footwell.page.wiring_view import damage_words


def causes_view(case: Case, conclusion: Conclusion) -> list[CauseView]:
    """One entry for each proven fault, and one for wiring that was found wrong."""
    return [*_wiring(case), *(_cause(case, conclusion, p) for p in conclusion.proven)]


def _wiring(case: Case) -> list[CauseView]:
    found: list[CauseView] = []
    for half, ways in dict.fromkeys(pair for e in case.epochs for pair in e.arrangement):
        connector = case.now.connectors[half[0]]
        found.append(
            CauseView(
                title=f"{connector.name} was wired wrongly",
                proof=[f"Seen: {len(ways)} wires looked at in {connector.name}."],
                reasons=["The connector had been wired anew before this job."],
                open_questions=[],
            )
        )
    return found


def _cause(case: Case, conclusion: Conclusion, one: Proven) -> CauseView:
    reasons = _reasons(case, conclusion, one.fault)
    return CauseView(
        title=_capital(say.fault_title(case.now, one.fault)),
        proof=[
            item_words(case.now, e)
            for e in case.evidence
            if isinstance(e, Taken) and e.number == one.by
        ],
        reasons=reasons,
        open_questions=[] if reasons else ["Why it failed was not established."],
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _reasons(case: Case, conclusion: Conclusion, fault: Fault) -> list[str]:
    """Stress that a proven overload or wrong wiring put on the failed part; else what was ruled out."""
    lines = [
        damage_words(case.now, s) for s in history_stresses(case) if s.element == fault.element
    ]
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
