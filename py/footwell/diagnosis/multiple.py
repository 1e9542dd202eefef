"""Suspects of two and three faults, found from those with fewer.

They are looked at where single faults explain the evidence poorly. A pair is a single suspect that
explains something, its first, beside any other fault, its second. Sizes of a high resistance stand for
each other: the best size of a first carries the odds of all, and a second comes in a few sizes. The
best pairs are then tried in every size, and extended by a third fault.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from footwell.diagnosis.case import Hypothesis

MOST_FIRSTS = 14
"""Single suspects that pairs start from."""
SECOND_SIZES = 3
MOST_PAIRS = 900
MOST_TRIPLES = 500
EXTENDED = 8
"""Pairs that triples start from, and that are tried in every size."""

Scored = tuple[Hypothesis, float]
"""A suspect with the log of its weight."""

Key = tuple[str, str]


@dataclass(frozen=True)
class Singles:
    """All single faults before the evidence, by element and mode, each with its sizes in rising order."""

    sizes: dict[Key, list[Hypothesis]]

    @classmethod
    def of(cls, every: Iterable[Hypothesis]) -> Singles:
        found: dict[Key, list[Hypothesis]] = {}
        for h in every:
            if len(h.faults) == 1 and h.slip is None:
                found.setdefault(_key(h), []).append(h)
        return cls({key: sorted(rows, key=lambda h: h.faults) for key, rows in found.items()})

    def seconds(self) -> list[Hypothesis]:
        """Every mode in a few sizes spread over its own, which share its odds; commonest first."""
        found: list[Hypothesis] = []
        for rows in self.sizes.values():
            few = _spread(rows)
            odds = sum(h.odds for h in rows) / len(few)
            found += [Hypothesis(h.faults, odds, h.repairs) for h in few]
        return sorted(found, key=lambda h: (-round(h.odds, 12), h.faults))

    def resized(self, h: Hypothesis) -> list[Hypothesis]:
        """The suspect with one of its faults in each other size."""
        found: list[Hypothesis] = []
        for n, fault in enumerate(h.faults):
            for other in self.sizes.get((fault.element, fault.mode), []):
                if other.faults[0].size != fault.size:
                    faults = tuple(sorted((*h.faults[:n], other.faults[0], *h.faults[n + 1 :])))
                    found.append(Hypothesis(faults, h.odds, h.repairs))
        return found


def _key(h: Hypothesis) -> Key:
    return h.faults[0].element, h.faults[0].mode


def _spread(rows: list[Hypothesis]) -> list[Hypothesis]:
    """The middles of equal parts of a list."""
    if len(rows) <= SECOND_SIZES:
        return rows
    return [rows[int(len(rows) * (n + 0.5) / SECOND_SIZES)] for n in range(SECOND_SIZES)]


def firsts(alive: Sequence[Scored]) -> list[Hypothesis]:
    """The best size of every single suspect with the odds of all its sizes; best first."""
    grouped: dict[Key, list[Scored]] = {}
    for h, w in alive:
        if len(h.faults) == 1 and h.slip is None:
            grouped.setdefault(_key(h), []).append((h, w))
    rows: list[Scored] = []
    for group in grouped.values():
        best, weight = max(group, key=lambda row: (round(row[1], 9), row[0].faults))
        all_sizes = sum(math.exp(w - weight) for _, w in group)
        whole = Hypothesis(best.faults, best.odds * all_sizes, best.repairs)
        rows.append((whole, weight + math.log(all_sizes)))
    rows.sort(key=lambda row: (-round(row[1], 9), row[0].faults))
    return [h for h, _ in rows[:MOST_FIRSTS]]


def joined(
    first: Sequence[Hypothesis], second: Sequence[Hypothesis], most: int
) -> list[Hypothesis]:
    """Each first beside each second at other elements, every set of faults once, up to `most` by their
    odds. Seconds come commonest first."""
    found: dict[tuple[object, ...], Hypothesis] = {}
    for a in first:
        held = {f.element for f in a.faults}
        for b in second:
            if b.faults[0].element not in held:
                faults = tuple(sorted((*a.faults, *b.faults)))
                key = tuple((f.element, f.mode) for f in faults) + tuple(f.size for f in b.faults)
                repairs = tuple(sorted((*a.repairs, *b.repairs)))
                found.setdefault(key, Hypothesis(faults, a.odds * b.odds, repairs))
    rows = sorted(found.values(), key=lambda h: (-round(math.log(h.odds), 9), h.faults))
    return rows[:most]


Follow = Callable[[list[Hypothesis]], list[Scored]]
"""Weighs suspects by the evidence; hopeless ones are left out."""


def several(every: Sequence[Hypothesis], alive: Sequence[Scored], follow: Follow) -> list[Scored]:
    """Suspects of two and three faults with their weights; `every` are all suspects before the
    evidence, `alive` those that are left of them."""
    singles = Singles.of(every)
    seconds = singles.seconds()
    pairs = follow(joined(firsts(alive) or seconds[:MOST_FIRSTS], seconds, MOST_PAIRS))
    pairs += _new(follow, pairs, (r for h in _best(pairs) for r in singles.resized(h)))
    triples = follow(joined(_best(pairs), seconds, MOST_TRIPLES))
    triples += _new(follow, triples, (r for h in _best(triples) for r in singles.resized(h)))
    return [*pairs, *triples]


def _best(rows: Sequence[Scored]) -> list[Hypothesis]:
    ranked = sorted(rows, key=lambda row: (-round(row[1], 9), row[0].faults))
    kept: dict[tuple[Key, ...], Hypothesis] = {}
    for h, _ in ranked:
        kept.setdefault(tuple((f.element, f.mode) for f in h.faults), h)
    return list(kept.values())[:EXTENDED]


def _new(follow: Follow, known: Sequence[Scored], rows: Iterable[Hypothesis]) -> list[Scored]:
    seen = {h.faults for h, _ in known}
    fresh = {h.faults: h for h in rows if h.faults not in seen}
    return follow(list(fresh.values()))
