"""Two faults apart that together look like one: each of two lamps broken by itself, as if their fuse were.

Neither explains the complaint alone, so no single suspect leads to such a pair; and though a pair is rare,
there may be many of them, so that together they rival the one fault that explains it all.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations

from footwell.diagnosis.case import Case, Hypothesis, Sighting
from footwell.diagnosis.complaint import chance_of, odd_sightings

EXPLAINED = 0.5
"""Chance of what was seen under a fault from which the fault explains it."""

Explained = frozenset[int]


def apart(case: Case, singles: Sequence[Hypothesis]) -> list[Hypothesis]:
    """Every two of the single suspects that explain between them all that loads were last seen to do wrong,
    where neither explains it alone."""
    odd = odd_sightings(case)
    whole = frozenset(range(len(odd)))
    by_part: dict[Explained, list[Hypothesis]] = {}
    for h in singles if len(odd) > 1 else ():
        part = _explained(case, h, odd)
        if part and part != whole:
            by_part.setdefault(part, []).append(h)
    return [
        pair
        for a, b in combinations(by_part, 2)
        if a | b == whole
        for pair in _pairs(by_part[a], by_part[b])
    ]


def _explained(case: Case, h: Hypothesis, odd: Sequence[Sighting]) -> Explained:
    return frozenset(n for n, seen in enumerate(odd) if _chance(case, h, seen) >= EXPLAINED)


def _chance(case: Case, h: Hypothesis, seen: Sighting) -> float:
    """Chance of a word under a single fault."""
    return chance_of(case.circuit(seen.epoch, None), seen, case.standing(h, seen.epoch))


def _pairs(first: Iterable[Hypothesis], second: Sequence[Hypothesis]) -> Iterable[Hypothesis]:
    for a in first:
        for b in second:
            if a.faults[0].element != b.faults[0].element:
                faults = tuple(sorted((*a.faults, *b.faults)))
                repairs = tuple(sorted((*a.repairs, *b.repairs)))
                yield Hypothesis(faults, a.odds * b.odds, repairs)
