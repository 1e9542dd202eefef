"""Suspects of two and three faults, found from those with fewer.

A pair is a single suspect that explains something, its first, beside another fault, its second. While
single faults explain the evidence, only a second that people would notice counts: what nobody can
notice is no part of a complaint. Sizes of a high resistance stand
for each other: the best size of a first carries the odds of all, and a second comes in a few sizes.
"""

from __future__ import annotations

import math
from bisect import bisect
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from itertools import combinations, permutations

from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Hypothesis

MOST_FIRSTS = 22
"""Single suspects that pairs start from where single faults explain the evidence poorly."""
LEADING, LEADING_SHARE = 3, 0.25
"""How many they are otherwise, and the share of all singles that each must have."""
SECOND_SIZES = 3

Scored = tuple[Hypothesis, float]
"""A suspect with the log of its weight."""

Key = tuple[str, str]

Near = Callable[[str], AbstractSet[str]]
"""The elements that lie beside an element."""


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

    def seconds(self, counts: Callable[[Fault], bool], apt: Fits | None = None) -> list[Hypothesis]:
        """Every mode in a few of the sizes that count, which share their odds; commonest first. Where `apt`
        tells how well each explains its share of the evidence, the best size is one of them."""
        found: list[Hypothesis] = []
        for every in self.sizes.values():
            rows = [h for h in every if counts(h.faults[0])]
            few = _spread(rows)
            if apt:
                best = max(rows, key=lambda h: (round(apt[h.faults], 9), h.faults))
                few = [h for h in rows if h in few or h == best]
            odds = sum(h.odds for h in rows) / max(len(few), 1)
            found += [Hypothesis(h.faults, odds, h.repairs) for h in few]
        return sorted(found, key=lambda h: (-round(h.odds, 12), h.faults))

    @property
    def largest(self) -> float:
        """The greatest size (Ω) of a poor joint; 0 where there is none."""
        joints = (rows for key, rows in self.sizes.items() if is_joint(key))
        return max((h.faults[0].size for rows in joints for h in rows), default=0.0)

    def joints_in(self, sizes: Sequence[float]) -> list[Hypothesis]:
        """Every two poor joints at different elements that have these two sizes, either way round, with the
        odds of such a pair in its best sizes."""
        rows = [
            ({h.faults[0].size: h for h in rows}, sum(h.odds for h in rows))
            for key, rows in self.sizes.items()
            if is_joint(key)
        ]
        found: list[Hypothesis] = []
        for (a, first), (b, second) in combinations(rows, 2):
            for one, other in dict.fromkeys(permutations(sizes, 2)):
                if (
                    one in a
                    and other in b
                    and a[one].faults[0].element != b[other].faults[0].element
                ):
                    faults = tuple(sorted((*a[one].faults, *b[other].faults)))
                    acts = tuple(sorted((*a[one].repairs, *b[other].repairs)))
                    found.append(Hypothesis(faults, first * second / SECOND_SIZES, acts))
        return found

    def whole(self, h: Hypothesis) -> Hypothesis:
        """A single suspect with the odds of all its sizes; others as they are."""
        rows = self.sizes.get(_key(h), ()) if len(h.faults) == 1 else ()
        return Hypothesis(h.faults, sum(r.odds for r in rows) or h.odds, h.repairs, h.slip)

    def resized(self, h: Hypothesis) -> list[Hypothesis]:
        """The suspect with one of its faults in each other size."""
        found: list[Hypothesis] = []
        for n, fault in enumerate(h.faults):
            for other in self.sizes.get((fault.element, fault.mode), []):
                if other.faults[0].size != fault.size:
                    faults = tuple(sorted((*h.faults[:n], other.faults[0], *h.faults[n + 1 :])))
                    found.append(Hypothesis(faults, h.odds, h.repairs))
        return found

    def moved(self, h: Hypothesis, near: Near) -> list[Hypothesis]:
        """The suspect with one of its poor joints at each element near it that may have one of that size."""
        held = {f.element for f in h.faults}
        found: list[Hypothesis] = []
        for n, fault in enumerate(h.faults):
            own = self._of_size((fault.element, fault.mode), fault.size)
            if own is None or not is_joint((fault.element, fault.mode)):
                continue
            beside = near(fault.element) - held
            for key in (k for k in self.sizes if k[0] in beside and is_joint(k)):
                other = self._of_size(key, fault.size)
                if other is not None:
                    faults = tuple(sorted((*h.faults[:n], *other.faults, *h.faults[n + 1 :])))
                    acts = [*h.repairs]
                    acts.remove(own.repairs[0])
                    odds = h.odds * other.odds / own.odds
                    found.append(Hypothesis(faults, odds, tuple(sorted((*acts, *other.repairs)))))
        return found

    def _of_size(self, key: Key, size: float) -> Hypothesis | None:
        return next((h for h in self.sizes.get(key, ()) if h.faults[0].size == size), None)


def top(rows: Iterable[Scored], most: int) -> list[Hypothesis]:
    """The best of the rows, best first, up to `most`. Where the cut would fall among equals all of them
    are left out, so that no name decides; unless all are equal."""
    ranked = [(-round(w, 9), h) for h, w in rows]
    if len(ranked) > most:
        first_out = sorted(weight for weight, _ in ranked)[most]
        ranked = [row for row in ranked if row[0] < first_out] or ranked
    ranked.sort(key=lambda row: (row[0], row[1].faults))
    return [h for _, h in ranked[:most]]


def is_joint(key: Key) -> bool:
    """Whether a fault's mode is a poor joint, at the part or at one of its branches."""
    return key[1].split(":")[0] == "high_resistance"


def _key(h: Hypothesis) -> Key:
    return h.faults[0].element, h.faults[0].mode


def modes_of(faults: Iterable[Fault]) -> tuple[Key, ...]:
    return tuple((f.element, f.mode) for f in faults)


def _spread(rows: list[Hypothesis]) -> list[Hypothesis]:
    """The middles of equal parts of a list."""
    if len(rows) <= SECOND_SIZES:
        return rows
    return [rows[int(len(rows) * (n + 0.5) / SECOND_SIZES)] for n in range(SECOND_SIZES)]


def firsts(alive: Sequence[Scored], fallen: Sequence[Hypothesis]) -> list[Hypothesis]:
    """The best size of every single suspect with the odds of all its sizes, best first; then those that
    the evidence has thrown out, the last first: with another fault beside it, one may be true."""
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
    kept = {_key(h): h for h in top(rows, MOST_FIRSTS)}
    for h in reversed(fallen):
        if len(h.faults) == 1 and h.slip is None and len(kept) < MOST_FIRSTS:
            kept.setdefault(_key(h), h)
    return list(kept.values())


def leading(alive: Sequence[Scored]) -> list[Hypothesis]:
    """The few single suspects that hold most of the odds, each with the odds of all its sizes."""
    top = max((w for _, w in alive), default=0.0)
    total = sum(math.exp(w - top) for _, w in alive)
    odds = {h.faults: w - math.log(h.odds) for h, w in alive}
    found = firsts(alive, ())[:LEADING]
    shares = [h.odds * math.exp(odds[h.faults] - top) / total for h in found]
    return [h for h, share in zip(found, shares, strict=True) if share >= LEADING_SHARE]


def joined(
    first: Sequence[Hypothesis],
    second: Sequence[Hypothesis],
    most: int,
    fits: Fits | None = None,
    since: Fits | None = None,
) -> list[Hypothesis]:
    """Each first beside each second at other elements, every set of faults once, up to `most` by their
    odds. What is met from either side, each a first and the other its second, has its odds shared out
    between the two. Seconds come commonest first.

    With `fits` half of them go by their odds and how well the better of their firsts explains the evidence:
    else a rare first that explains all but the last reading has no place among commoner ones that explain
    nothing. `since` tells how well each second alone explains what came after the last repair, when its first
    may be mended; else a rare second has no place beside a first that is sure.
    """
    after: dict[tuple[Fault, ...], float] = {}
    rows: dict[tuple[Fault, ...], Hypothesis] = {}
    sides: dict[tuple[Key, ...], set[tuple[Fault, ...]]] = {}
    for a in first:
        held = [f.element for f in a.faults]
        own = modes_of(a.faults)
        for b in second:
            fault = b.faults[0]
            if fault.element not in held:
                # Faults are in the order of their elements: this is done ten thousand times a look.
                at = bisect(held, fault.element)
                faults = (*a.faults[:at], fault, *a.faults[at:])
                sides.setdefault((*own[:at], _key(b), *own[at:]), set()).add(a.faults)
                odds = a.odds * b.odds + (rows[faults].odds if faults in rows else 0.0)
                rows[faults] = Hypothesis(faults, odds, (*a.repairs, *b.repairs))
                if since:
                    after[faults] = max(after.get(faults, -math.inf), since[b.faults])
    return [
        replace(h, repairs=tuple(sorted(h.repairs)))
        for h in _chosen(rows.values(), sides, most, fits, after)
    ]


def _chosen(
    met: Collection[Hypothesis],
    sides: Mapping[tuple[Key, ...], Collection[tuple[Fault, ...]]],
    most: int,
    fits: Fits | None,
    after: Fits,
) -> list[Hypothesis]:
    """The sets to be looked at, of those met from their sides."""
    modes = {h.faults: modes_of(h.faults) for h in met}
    rows = [replace(h, odds=h.odds / len(sides[modes[h.faults]])) for h in met]
    if not fits:
        return top([(h, math.log(h.odds)) for h in rows], most)
    least = min(fits.values())
    best = {key: max(fits.get(a, least) for a in firsts) for key, firsts in sides.items()}
    weights = (best[modes[h.faults]] + after.get(h.faults, 0.0) for h in rows)
    apt = top([(h, math.log(h.odds) + w) for h, w in zip(rows, weights, strict=True)], most // 2)
    chosen = {h.faults for h in apt}
    others = [(h, math.log(h.odds)) for h in rows if h.faults not in chosen]
    return apt + top(others, most - len(apt))


Fits = Mapping[tuple[Fault, ...], float]
"""How well sets of faults explain the evidence: log chance of it under each."""
