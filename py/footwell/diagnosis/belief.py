"""Belief: odds of every suspect after the evidence, and what is left to mend if it is true."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Hypothesis
from footwell.diagnosis.course import Course, Track, standing
from footwell.diagnosis.hypotheses import hypotheses, repair_of
from footwell.diagnosis.likelihood import any_log, joint_log, log_chance, shares
from footwell.diagnosis.multiple import Scored, several
from footwell.electrics.turns import NOTHING, Known
from footwell.faults.suspects import Repair

NONE_ODDS = 2e-4
"""Odds of a fault that is not on the sheet, against a sound vehicle."""

NONE_LEAST = 0.01
"""What "none of these" keeps until a confirming check."""

HOPELESS = 15.0
"""A suspect this many nats below the best is not followed further (e^-15 is about 3e-7)."""

ON_THE_WAY = 8.0
"""Nats more before a suspect is dropped half way: later evidence may speak for it."""

POORLY = 0.015
"""Share of "none of these" beside single faults from which these explain the evidence poorly."""


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
    every = hypotheses(case)
    alive = _followed(case, every)
    none = math.log(NONE_ODDS) + sum(any_log(e) for e in case.evidence)
    if case.evidence and _explain_poorly(alive, none):
        alive += _several(case, every, alive)
    return _normalised(case, alive, none)


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


def _several(case: Case, every: Sequence[Hypothesis], alive: Followed) -> Followed:
    """Suspects of several faults."""
    best = max((w for _, w, _ in alive), default=-math.inf)
    known = {h.faults for h in every}
    tracks: dict[tuple[Fault, ...], Track] = {}

    def follow(suspects: list[Hypothesis]) -> list[Scored]:
        rows = _followed(case, [h for h in suspects if h.faults not in known], best)
        tracks.update((h.faults, track) for h, _, track in rows)
        return [(h, w) for h, w, _ in rows]

    found = several(every, [(h, w) for h, w, _ in alive], follow)
    return [(h, w, tracks[h.faults]) for h, w in found]


def _explain_poorly(alive: Followed, none: float) -> bool:
    top = max([none, *(w for _, w, _ in alive)])
    total = math.exp(none - top) + sum(math.exp(w - top) for _, w, _ in alive)
    return math.exp(none - top) / total > POORLY


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
