"""A vehicle that is not like its sheet: readings that no fault explains, and when to say so."""

from __future__ import annotations

from footwell.checks.catalogue import catalogue
from footwell.checks.check import Check
from footwell.diagnosis.belief import Belief
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.course import Track
from footwell.diagnosis.likelihood import log_chance, pieces, strayed

UNLIKE_FROM = 0.5
"""Share of a cause that is not on the sheet from which nothing is renewed without proof."""

STOP_FROM = 0.9
"""Share from which a further check of this sheet's faults helps nobody."""

LEAST_ASTRAY = 2
"""Readings that must fit nothing: one alone is a slip."""


def unlike(case: Case, belief: Belief, share: float = UNLIKE_FROM) -> bool:
    """Whether the vehicle is not like its sheet, by so large a share and by what was measured."""
    return belief.none >= share and len(astray(case, belief)) >= LEAST_ASTRAY


def to_read_again(case: Case, belief: Belief) -> Check | None:
    """The latest check whose number fits nothing, where none has been made twice since the last repair:
    before the sheet is doubted one is read once more. Only a check that may be proposed."""
    numbers = [e.check.id for e in case.taken_now if e.value is not None]
    if len(set(numbers)) < len(numbers):
        return None
    odd = {e.check.id for e in astray(case, belief) if e in case.taken_now} - case.skipped
    proposed = {c.id: c for c in catalogue(case.now, case.tools, case.engine)}
    return next((proposed[n] for n in reversed(numbers) if n in odd and n in proposed), None)


def astray(case: Case, belief: Belief) -> tuple[Taken, ...]:
    """Readings that are to be put down to slips if the likeliest suspect is true; none where no suspect is
    left at all."""
    if not belief.suspects:
        return ()
    track, best, every = Track(), belief.suspects[0].hypothesis, pieces(case.evidence)
    return tuple(strayed(every, [log_chance(case, best, piece, track) for piece in every]))
