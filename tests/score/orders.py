"""Other orders of measuring, for comparison: they choose the check, belief stays the same."""

from __future__ import annotations

import random

from family_jobs import METER, not_taken

from footwell.checks.catalogue import catalogue
from footwell.checks.check import Check
from footwell.diagnosis.belief import Belief
from footwell.diagnosis.case import Case


def _left(case: Case) -> list[Check]:
    return not_taken(case, catalogue(case.now, METER))


def fixed(case: Case, belief: Belief, chance: random.Random) -> Check | None:
    """From the load back to the supply."""
    return next(reversed(_left(case)), None)


def halves(case: Case, belief: Belief, chance: random.Random) -> Check | None:
    """The middle of what has not been read."""
    left = _left(case)
    return left[len(left) // 2] if left else None


def randomly(case: Case, belief: Belief, chance: random.Random) -> Check | None:
    left = _left(case)
    return chance.choice(left) if left else None
