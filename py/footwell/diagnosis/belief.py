"""Belief: odds of every suspect after the evidence, and what is left to mend if it is true."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Hypothesis
from footwell.diagnosis.course import Course, Track, standing
from footwell.diagnosis.hypotheses import hypotheses, pairs, repair_of
from footwell.diagnosis.likelihood import any_log, joint_log, log_chance, shares
from footwell.electrics.turns import NOTHING, Known
from footwell.faults.suspects import Repair

NONE_ODDS = 2e-4
"""Odds of a fault that is not on the sheet, against a sound vehicle."""

NONE_LEAST = 0.01
"""What "none of these" keeps until a confirming check."""

HOPELESS = 15.0
"""A suspect this many nats below the best is not followed further (e^-15 is about 3e-7)."""

ON_THE_WAY = 5.0
"""Nats more before a suspect is dropped half way: later evidence may speak for it."""

PAIRS_OPEN_AT = 0.15
"""Share of "none of these" and of unlikely singles at which pairs are looked at."""

MOST_PAIR_FIRSTS = 14
MOST_PAIR_SECONDS = 60


@dataclass(frozen=True, slots=True)
class Weighed:
    """A suspect with its share of all that is possible. `faults` are all it holds, fuses it has blown
    with them, and `repairs` their acts; `now` are the faults still there, `left` the acts left."""

    hypothesis: Hypothesis
    share: float
    faults: tuple[Fault, ...]
    repairs: tuple[Repair, ...]
    now: tuple[Fault, ...]
    left: tuple[Repair, ...]
    known: Known = NOTHING
    """What the readings suppose of relays and fuses in doubt: the same suspect may stand here twice, once
    with a relay that holds and once with one that does not."""


def by_repair(rows: Iterable[Weighed]) -> dict[tuple[Repair, ...], float]:
    """Share of each set of repairs still to be done, falling; the empty set is "all is well now"."""
    found: dict[tuple[Repair, ...], float] = {}
    for w in rows:
        found[w.left] = found.get(w.left, 0.0) + w.share
    return dict(sorted(found.items(), key=lambda item: (-round(item[1], 9), item[0])))


@dataclass(frozen=True)
class Belief:
    """`suspects` by falling share; `none` is the share of a cause that is not on the sheet."""

    suspects: tuple[Weighed, ...]
    none: float


def believe(case: Case) -> Belief:
    """Odds of all suspects, in a fixed order of falling share (ties by the faults' names)."""
    singles = _followed(case, hypotheses(case))
    none = math.log(NONE_ODDS) + sum(any_log(e) for e in case.evidence)
    if _pairs_wanted(case, singles, none):
        singles += _followed(
            case, _screened_pairs(case, singles), best=max(w for _, w, _ in singles)
        )
    return _normalised(case, singles, none)


Followed = list[tuple[Hypothesis, float, Track]]
"""Suspects with their log weight and the memory of their way."""


def _followed(case: Case, suspects: Iterable[Hypothesis], best: float = -math.inf) -> Followed:
    """Log weight of each suspect; hopeless ones are dropped on the way."""
    alive: Followed = [(h, math.log(h.odds), Track()) for h in suspects]
    for item in case.evidence:
        alive = [(h, w + log_chance(case, h, item, track), track) for h, w, track in alive]
        floor = max([best, *(weight for _, weight, _ in alive)]) - HOPELESS
        alive = [row for row in alive if row[1] > floor - ON_THE_WAY]
    for _, _, track in alive:
        track.reach(case, len(case.epochs) - 1)
    alive = [(h, math.log(h.odds) + joint_log(track), track) for h, _, track in alive]
    floor = max([best, *(weight for _, weight, _ in alive)]) - HOPELESS
    return [row for row in alive if row[1] > floor]


def _pairs_wanted(case: Case, singles: Followed, none: float) -> bool:
    if not case.evidence or not singles:
        return bool(case.evidence)
    top = max(weight for _, weight, _ in singles)
    total = sum(math.exp(weight - top) for _, weight, _ in singles)
    return math.exp(none - top) / (total + math.exp(none - top)) > PAIRS_OPEN_AT * NONE_LEAST * 10


def _screened_pairs(case: Case, singles: Followed) -> list[Hypothesis]:
    """Pairs of the best single suspects with the commonest others."""
    ones = [h for h in hypotheses(case) if len(h.faults) == 1 and h.slip is None]
    ranked = sorted(
        ((h, w) for h, w, _ in singles if len(h.faults) == 1 and h.slip is None),
        key=lambda row: (-round(row[1], 9), row[0].faults),
    )
    fit = _one_per_mode([h for h, _ in ranked])[:MOST_PAIR_FIRSTS]
    common = _one_per_mode(sorted(ones, key=lambda h: (-round(h.odds, 12), h.faults)))[
        :MOST_PAIR_SECONDS
    ]
    return pairs(fit or common[:MOST_PAIR_FIRSTS], common)


def _one_per_mode(rows: list[Hypothesis]) -> list[Hypothesis]:
    """The first of every element and mode: sizes of one fault stand for each other in screening."""
    kept: dict[tuple[str, str], Hypothesis] = {}
    for h in rows:
        kept.setdefault((h.faults[0].element, h.faults[0].mode), h)
    return list(kept.values())


def _normalised(case: Case, alive: Followed, none: float) -> Belief:
    top = max([none, *(weight for _, weight, _ in alive)])
    total = math.exp(none - top) + sum(math.exp(weight - top) for _, weight, _ in alive)
    share_none = math.exp(none - top) / total
    kept_none = max(share_none, NONE_LEAST)
    scale = (1.0 - kept_none) / (1.0 - share_none) if share_none < 1.0 else 0.0
    rows = [
        _weighed(case, h, part * scale * math.exp(w - top) / total, course)
        for h, w, track in alive
        for course, part in shares(track)
    ]
    rows.sort(key=lambda w: (-round(w.share, 12), w.faults, w.repairs))
    return Belief(tuple(w for w in rows if w.share > 1e-9), kept_none)


def _weighed(case: Case, h: Hypothesis, share: float, course: Course) -> Weighed:
    """A suspect with the fuses it has blown: they are to be renewed as well."""
    renew = {f: repair_of(case.now, Fault(f, "open")) for f in sorted(course.ever_blown)}
    left = {*case.left_to_mend(h), *(renew[f] for f in course.blown)}
    return Weighed(
        h,
        share,
        tuple(sorted({*h.faults, *(Fault(f, "open") for f in course.ever_blown)})),
        tuple(sorted({*h.repairs, *renew.values()})),
        standing(case, h, course),
        tuple(sorted(left)),
        course.known,
    )


def entropy(shares: Sequence[float]) -> float:
    """Uncertainty in bits of shares that need not sum to one.

    >>> entropy([1.0, 1.0])
    1.0
    """
    total = sum(shares)
    return -sum(s / total * math.log2(s / total) for s in shares if s > 0.0) if total > 0.0 else 0.0
