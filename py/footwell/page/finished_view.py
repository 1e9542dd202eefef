"""The last screen: that all is mended, or why no step follows."""

from __future__ import annotations

from footwell.diagnosis.belief import Belief
from footwell.diagnosis.case import Case
from footwell.diagnosis.complaint import complains
from footwell.diagnosis.conclude import Conclusion
from footwell.diagnosis.elimination import MOST_IN_VAIN, in_vain
from footwell.diagnosis.unlike import astray, unlike
from footwell.messages import CauseView, FinishedStep
from footwell.page import words as say
from footwell.page.suspect_view import item_words

MOST_ASTRAY = 3
"""Readings that fit nothing, as many as are told."""


def finished_view(case: Case, conclusion: Conclusion, causes: list[CauseView]) -> FinishedStep:
    """What stands on the last screen: mended, or why no step follows."""
    if conclusion.step.solved and untouched(case):
        return FinishedStep(
            solved=False,
            title="Nothing shows wrong",
            lines=[
                "Every position does what it should, and nothing was mended.",
                "If the trouble comes and goes, measure while it is there.",
                "If it was another trouble, try every position again and say what you see.",
            ],
        )
    if conclusion.step.solved:
        mended = [say.short_named(case.now, e) for e in sorted(case.epochs[-1].mended)]
        cured = f"It works since {say.joined_all(mended)} {'were' if mended[1:] else 'was'} mended."
        lines = [c.title + "." for c in causes] or [cured]
        return FinishedStep(
            solved=True,
            title="Mended and proven",
            lines=[*lines, "Put back what was opened, then print the report."],
        )
    if not complains(case, len(case.epochs) - 1):
        return FinishedStep(
            solved=False,
            title="It works again, but not all is proven",
            lines=[
                "Every position does what it should. What else the readings hint at shows nowhere,"
                " and nothing at hand can prove it: renew nothing for it.",
                "If the trouble comes back, try every position again: what was measured is kept.",
            ],
        )
    if unlike(case, conclusion.belief):
        return _unlike(case, conclusion.belief)
    renewed = in_vain(case, conclusion.belief)
    if len(renewed) >= MOST_IN_VAIN:
        names = [say.short_named(case.now, e) for e in renewed]
        return FinishedStep(
            solved=False,
            title="Renew nothing more on trial",
            lines=[
                f"The trouble stayed though {say.joined_all(names)} were renewed: they were sound.",
                "Compare the circuit with its sheet, wire by wire: something here may be wired otherwise.",
                "Add a tool, open a place that was skipped, or measure at a place of your choice.",
            ],
        )
    return FinishedStep(
        solved=False,
        title="No further check helps from here",
        lines=[
            "What is left cannot be told apart with the tools at hand.",
            "Add a tool, open a place that was skipped, or measure at a place of your choice.",
        ],
    )


def untouched(case: Case) -> bool:
    """Whether nothing was mended, and no wiring put right."""
    return not any(e.mended or e.arrangement for e in case.epochs)


def _unlike(case: Case, belief: Belief) -> FinishedStep:
    """The end where readings fit no fault of the sheet: which, and what to do."""
    latest = {item.check.id: item for item in astray(case, belief)}
    rows = [item_words(case.now, item) for item in latest.values()]
    return FinishedStep(
        solved=False,
        title="Something here is not on this sheet",
        lines=[
            "No fault on the sheet explains what was read. Nothing is proven: renew nothing for it.",
            *(f"Fits nothing: {row}." for row in rows[-MOST_ASTRAY:]),
            "Compare the wires there with the maker's diagram, and change the sheet where it differs.",
        ],
    )
