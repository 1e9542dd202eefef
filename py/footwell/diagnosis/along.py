"""Checks to take along: at the place and in the set-up of the next one, with something to tell beyond it."""

from __future__ import annotations

from collections.abc import Sequence

from footwell.checks.check import Check
from footwell.checks.minutes import minutes
from footwell.diagnosis.belief import Belief, Weighed
from footwell.diagnosis.case import Case
from footwell.diagnosis.choose import (
    DECISIVE,
    Cell,
    Choice,
    bits_left,
    cells,
    live_of,
    owners,
    panel_of,
)

MOST = 2


def along(case: Case, belief: Belief, first: Check, ranked: Sequence[Choice]) -> tuple[Choice, ...]:
    """Of the ranked checks those worth taking with the first: no further place to reach, nothing to switch
    or unplug. Bits are what each is expected to tell once the first is known; minutes the taking alone."""
    near = [c.check for c in ranked if c.check is not None and _here(first, c.check)]
    if not near:
        return ()
    live = live_of(belief)
    panel = panel_of(case, live)
    known = cells(panel, first, live)
    left = bits_left(known)
    found = [
        Choice(
            check,
            None,
            left - bits_left(_both(known, cells(panel, check, live))),
            minutes(case.now, check, first),
        )
        for check in near
    ]
    telling = (c for c in found if c.bits > DECISIVE)
    return tuple(sorted(telling, key=lambda c: (-c.worth, c.check.id if c.check else "")))[:MOST]


def _here(first: Check, check: Check) -> bool:
    return check != first and check.setup == first.setup and owners(check) <= owners(first)


def _both(first: Sequence[Cell], second: Sequence[Cell]) -> list[Cell]:
    """Outcomes of two checks together; under one suspect they are independent."""
    found: list[Cell] = []
    chances = [_chances(cell) for cell in second]
    for cell in map(_chances, first):
        for other in chances:
            both = [(w, x * other[key][1]) for key, (w, x) in cell.items() if key in other]
            if both:
                found.append(both)
    return found


def _chances(cell: Cell) -> dict[int, tuple[Weighed, float]]:
    """Each suspect of a cell once, by its identity: its chances in the cell summed."""
    found: dict[int, tuple[Weighed, float]] = {}
    for w, chance in cell:
        found[id(w)] = (w, found.get(id(w), (w, 0.0))[1] + chance)
    return found
