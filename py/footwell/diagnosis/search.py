"""The search for sets of faults: which are weighed, where single faults explain the evidence and where not.

The best pairs are tried in every size, and extended by a third fault. Where a repair has not cured the
complaint, or the best set leaves a reading to be put down to a slip, two more are sought beside the faults
that most sets agree on.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Hypothesis
from footwell.diagnosis.multiple import (
    MOST_FIRSTS,
    Fits,
    Key,
    Near,
    Scored,
    Singles,
    firsts,
    is_joint,
    joined,
    leading,
    modes_of,
    top,
)

MOST_PAIRS, MOST_BESIDE = 900, 200
"""Pairs looked at where single faults explain the evidence poorly, and otherwise."""
MOST_MENDED = 300
"""Pairs, and triples, looked at of faults that are all mended."""
MOST_APART = 300
"""Pairs looked at of which neither fault explains the complaint alone."""
MOST_TRIPLES = 700
SUREST, SUREST_SHARE = 2, 0.25
"""Faults that two others are sought beside, and the share of all sets that each must be part of."""
CALLED_FOR = 1.0
"""Nats by which a fault that nobody notices must better the fit of a set."""
EXTENDED = 30
RESIZED = 8
ROUNDS = 2
MOVED = 3
"""Pairs that triples start from, sets that are tried in every size and how often, and those that are tried
with a poor joint elsewhere."""
MOST_ALIKE = 400
"""Pairs of poor joints that are tried in two given sizes."""

Follow = Callable[[list[Hypothesis]], list[Scored]]
"""Weighs suspects by the evidence; hopeless ones are left out."""


def beside(
    every: Sequence[Hypothesis],
    alive: Sequence[Scored],
    follow: Follow,
    noticed: Callable[[Fault], bool],
    apart: Callable[[Sequence[Hypothesis]], list[Hypothesis]],
) -> list[Scored]:
    """A second fault beside the leading suspects, and two `apart` that look like one, for honest odds: single
    faults explain the evidence, and only what people would notice counts. `every` are all suspects before
    the evidence, `alive` those that are left of them. A blown fuse leads also where it has no odds alone but
    with what may have blown it: it may have been a bad fuse, and another fault be there beside it."""
    singles = Singles.of(every)
    seconds = singles.seconds(noticed)
    first = {h.faults: h for h in (*_surest(alive, singles), *leading(alive))}
    pairs = {h.faults: h for h in joined(list(first.values()), seconds, MOST_BESIDE)}
    others = [h for h in apart(seconds) if h.faults not in pairs]
    return follow([*pairs.values(), *top([(h, math.log(h.odds)) for h in others], MOST_APART)])


@dataclass(frozen=True)
class Asked:
    """What a search for sets of faults asks of the evidence. `since` tells how well faults alone explain
    what came after a repair that has not cured the complaint, `before` how well sets explain what came
    before it, `all_of_it` how well sets explain everything, also hopeless ones, `share_of_it` how well faults
    do where others may explain what they do not; `strays` whether a reading is to be put down to a slip if a
    set is true; `near` which elements lie beside one."""

    follow: Follow
    noticed: Callable[[Fault], bool]
    mended: Callable[[Fault], bool]
    since: Callable[[Sequence[Hypothesis]], Fits]
    before: Callable[[Sequence[Hypothesis]], Fits]
    all_of_it: Callable[[Sequence[Hypothesis]], Fits]
    share_of_it: Callable[[Sequence[Hypothesis]], Fits]
    strays: Callable[[Hypothesis], bool]
    near: Near


def several(
    every: Sequence[Hypothesis],
    alive: Sequence[Scored],
    fallen: Sequence[Hypothesis],
    asked: Asked,
) -> list[Scored]:
    """Suspects of two and three faults with their weights, where single faults do not explain the
    evidence: every fault may be a second, and those that it has thrown out (`fallen`) a first."""
    singles = Singles.of(every)
    start = firsts(alive, [singles.whole(h) for h in fallen])
    every_size = [h for sizes in singles.sizes.values() for h in sizes]
    later = asked.since(every_size)
    # What is mended explains nothing of what came since: its size is told by what was before.
    mended = asked.share_of_it([h for h in every_size if asked.mended(h.faults[0])])
    seconds = singles.seconds(lambda _: True, later and {**later, **mended})
    own = [h for h in seconds if asked.mended(h.faults[0])]
    both = joined(own, own, MOST_MENDED)
    pairs = _pairs(both, joined(start, seconds, MOST_PAIRS, _fits(alive), later), asked)
    pairs += _in_other_sizes(asked.follow, singles, pairs)
    pairs += _moved(asked, singles, pairs)
    bases = [*pairs, *_damaged(alive), *_so_far(both, asked)]
    triples = _triples(singles, seconds, [*alive, *pairs], bases, later, asked)
    tried = {h.faults for h, _ in triples}
    triples += asked.follow([h for h in joined(both, own, MOST_MENDED) if h.faults not in tried])
    triples += _resized(asked.follow, singles, triples)
    triples += _moved(asked, singles, triples)
    return _called_for([*pairs, *triples], alive, asked.noticed)


def _pairs(
    mended: Sequence[Hypothesis], chosen: Sequence[Hypothesis], asked: Asked
) -> list[Scored]:
    """The pairs that were chosen, and those of two mended faults: these may be all there was, however little
    each explains of what came since."""
    known = {h.faults for h in mended}
    return asked.follow([*mended, *(h for h in chosen if h.faults not in known)])


def _damaged(alive: Sequence[Scored]) -> list[Scored]:
    """Faults with the damage they did."""
    return [(h, w) for h, w in alive if len(h.faults) == 2 and h.slip is None]


def _so_far(mended: Sequence[Hypothesis], asked: Asked) -> list[Scored]:
    """The pairs of two mended faults, by what came before the last repair that cured nothing: one that was
    all there was till then explains nothing of what a third has done since."""
    fits = asked.before(mended) if mended else {}
    return [(h, math.log(h.odds) + fits[h.faults]) for h in mended]


def _triples(
    singles: Singles,
    seconds: Sequence[Hypothesis],
    found: Sequence[Scored],
    bases: Sequence[Scored],
    later: Fits,
    asked: Asked,
) -> list[Scored]:
    """A third fault beside the best pairs (`bases`), and two beside the surest of all that is `found`."""
    chosen = joined(_best(bases, EXTENDED), seconds, MOST_TRIPLES, _fits(bases), later)
    triples = asked.follow(chosen)
    every = [*found, *triples]
    if asked.strays(_best(every, 1)[0]):
        tried = {h.faults for h in chosen}
        more = _two_beside(_surest(every, singles), seconds, asked.all_of_it)
        triples += asked.follow([h for h in more if h.faults not in tried])
    return triples


def _surest(rows: Sequence[Scored], singles: Singles) -> list[Hypothesis]:
    """The faults that most of the odds agree on, each alone, in the size of the best set."""
    best = max(w for _, w in rows)
    shares: dict[Key, float] = {}
    faults: dict[Key, Fault] = {}
    for h, w in sorted(rows, key=lambda row: (-round(row[1], 9), row[0].faults)):
        for key, fault in zip(modes_of(h.faults), h.faults, strict=True):
            shares[key] = shares.get(key, 0.0) + math.exp(w - best)
            faults.setdefault(key, fault)
    least = SUREST_SHARE * sum(math.exp(w - best) for _, w in rows)
    alone = [
        (singles.whole(h), math.log(shares[key]))
        for key, sizes in singles.sizes.items()
        for h in sizes
        if shares.get(key, 0.0) >= least and h.faults[0] == faults[key]
    ]
    return top(alone, SUREST)


def _two_beside(
    surest: Sequence[Hypothesis],
    seconds: Sequence[Hypothesis],
    all_of_it: Callable[[Sequence[Hypothesis]], Fits],
) -> list[Hypothesis]:
    """Two faults beside one that is sure, sought by all the evidence as any two are. Neither need explain a
    reading without the other, as where a weak supply is read through a branch that is broken: no pair that
    explains anything would lead to them."""
    found: list[Hypothesis] = []
    for one in surest:
        pairs = joined([one], seconds, len(seconds))
        fits = all_of_it(pairs)
        start = _best([(h, math.log(h.odds) + fits[h.faults]) for h in pairs], MOST_FIRSTS)
        found += joined(start, seconds, MOST_TRIPLES, fits)
    return list({h.faults: h for h in found}.values())


def _called_for(
    rows: Sequence[Scored], alive: Sequence[Scored], noticed: Callable[[Fault], bool]
) -> list[Scored]:
    """Without the sets that hold a fault which nobody notices and no reading calls for."""
    fit = _fits([*alive, *rows])

    def idle(h: Hypothesis, fault: Fault) -> bool:
        others = tuple(f for f in h.faults if f != fault)
        return not noticed(fault) and fit[h.faults] - fit.get(others, -math.inf) < CALLED_FOR

    return [(h, w) for h, w in rows if not any(idle(h, f) for f in h.faults)]


def _fits(rows: Iterable[Scored]) -> dict[tuple[Fault, ...], float]:
    return {h.faults: w - math.log(h.odds) for h, w in rows}


def _best(rows: Sequence[Scored], most: int) -> list[Hypothesis]:
    """The best sets, each in its best size."""
    kept: dict[tuple[Key, ...], Scored] = {}
    for h, w in sorted(rows, key=lambda row: (-round(row[1], 9), row[0].faults)):
        kept.setdefault(modes_of(h.faults), (h, w))
    return top(kept.values(), most)


def _in_other_sizes(follow: Follow, singles: Singles, pairs: Sequence[Scored]) -> list[Scored]:
    """The best pairs in every size, and two poor joints wherever they are. What stands between two goes by
    their ratio, and no single joint leaves it: so they are tried alike and great, and all in the sizes that
    fit best, for those in one stretch look the same from outside, and which of them were tried in every
    size is chance."""
    found = _in_sizes(follow, singles, pairs, [singles.largest] * 2)
    found += _resized(follow, singles, [*pairs, *found])
    joints = (h for h in _best([*pairs, *found], RESIZED) if _are_joints(h))
    best = next(joints, None)
    if best is not None:
        sizes = [f.size for f in best.faults]
        found += _in_sizes(follow, singles, [*pairs, *found], sizes)
    return found


def _in_sizes(
    follow: Follow, singles: Singles, rows: Sequence[Scored], sizes: Sequence[float]
) -> list[Scored]:
    """Two poor joints anywhere in two sizes."""
    seen = {h.faults for h, _ in rows}
    found = [(h, math.log(h.odds)) for h in singles.joints_in(sizes) if h.faults not in seen]
    return follow(top(found, MOST_ALIKE))


def _are_joints(h: Hypothesis) -> bool:
    return len(h.faults) == 2 and all(map(is_joint, modes_of(h.faults)))


def _resized(follow: Follow, singles: Singles, rows: Sequence[Scored]) -> list[Scored]:
    """The best sets in every other size of one of their faults; what is better then once more, so that two
    sizes that are off together are found as well."""
    tried = {h.faults for h, _ in rows}
    found: list[Scored] = []
    for _ in range(ROUNDS):
        other = {r.faults: r for h in _best([*rows, *found], RESIZED) for r in singles.resized(h)}
        fresh = [h for faults, h in other.items() if faults not in tried]
        tried.update(h.faults for h in fresh)
        found += follow(fresh)
    return found


def _moved(asked: Asked, singles: Singles, rows: Sequence[Scored]) -> list[Scored]:
    """The best sets with a poor joint elsewhere: what lies in one stretch looks the same from outside, and
    which of it was tried in the size that fits is chance."""
    seen = {h.faults for h, _ in rows}
    other = (m for h in _best(rows, MOVED) for m in singles.moved(h, asked.near))
    return asked.follow(list({h.faults: h for h in other if h.faults not in seen}.values()))
