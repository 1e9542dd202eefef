"""Whether what loads were seen to do is a complaint."""

from __future__ import annotations

from footwell.checks import sights
from footwell.checks.outlook import activities
from footwell.checks.predict import seen_as
from footwell.diagnosis.case import Case, Sighting

ODD_BELOW = 0.2
"""Chance of a word when all is well below which it counts as a complaint."""


def complains(case: Case, epoch: int) -> bool:
    """Whether some load was last seen in an epoch to do what it hardly does when all is well."""
    told = [e for e in case.evidence if isinstance(e, Sighting) and e.epoch == epoch]
    last = {(e.setup, e.load): e for e in told}
    return any(_when_well(case, e) < ODD_BELOW for e in last.values())


def _when_well(case: Case, seen: Sighting) -> float:
    share = activities(case.now, seen.setup, ()).get(seen.load, 0.0)
    slip = sights.SLIP[seen.told_by]
    return sights.chances(seen_as(case.now, seen.load), share, share, slip).get(seen.word, 0.0)
