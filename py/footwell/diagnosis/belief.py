"""Belief: odds of every suspect after the evidence, and what is left to mend if it is true."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Hypothesis, Taken
from footwell.diagnosis.complaint import noticed
from footwell.diagnosis.course import Course, Track, standing
from footwell.diagnosis.hypotheses import hypotheses, repair_of
from footwell.diagnosis.likelihood import any_log, joint_log, log_chance, shares
from footwell.diagnosis.multiple import Scored, beside, several
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

POORLY = 0.05
"""Odds of a pair that would explain every piece of evidence as well as any suspect explains it, against
those of the best single suspect, from which single faults explain the evidence poorly."""


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
    wayside = Wayside()
    alive = _followed(case, every, wayside=wayside)
    alive += _several(case, every, alive, wayside)
    none = math.log(NONE_ODDS) + sum(any_log(e) for e in case.evidence)
    return _normalised(case, alive, none)


Followed = list[tuple[Hypothesis, float, Track]]
"""Suspects with their log weight and the memory of their way."""


@dataclass
class Wayside:
    """What is seen on the way through the evidence: suspects that `fell`, the first first, and how well
    the best of all suspects explains each piece (`fits`, log chance)."""

    fell: list[Hypothesis] = field(default_factory=list)
    fits: list[float] = field(default_factory=list)


def _followed(
    case: Case,
    suspects: Iterable[Hypothesis],
    best: float = -math.inf,
    wayside: Wayside | None = None,
) -> Followed:
    """Log weight of each suspect; hopeless ones are dropped on the way."""
    aside = wayside or Wayside()
    alive: Followed = [(h, math.log(h.odds), Track()) for h in suspects]
    for item in case.evidence:
        chances = [log_chance(case, h, item, track) for h, _, track in alive]
        aside.fits.append(max(chances, default=0.0))
        alive = [(h, w + said, t) for (h, w, t), said in zip(alive, chances, strict=True)]
        alive = _above(alive, best, HOPELESS + ON_THE_WAY, aside)
    for _, _, track in alive:
        track.reach(case, len(case.epochs) - 1)
    alive = [(h, math.log(h.odds) + joint_log(track), track) for h, _, track in alive]
    return _above(alive, best, HOPELESS, aside)


def _above(rows: Followed, best: float, nats: float, aside: Wayside) -> Followed:
    """The suspects at most so many nats below the best; the others fall, the worst first."""
    floor = max([best, *(weight for _, weight, _ in rows)]) - nats
    under = [(round(weight, 9), h.faults, h) for h, weight, _ in rows if weight <= floor]
    aside.fell += [h for _, _, h in sorted(under, key=lambda row: row[:2])]
    return [row for row in rows if row[1] > floor]


def _several(
    case: Case, every: Sequence[Hypothesis], alive: Followed, wayside: Wayside
) -> Followed:
    """Suspects of several faults: all kinds where single ones explain the evidence poorly, else what may
    hide beside the leading ones, once something has been measured."""
    best = max((w for _, w, _ in alive), default=-math.inf)
    known = {h.faults for h in every}
    tracks: dict[tuple[Fault, ...], Track] = {}

    def follow(suspects: list[Hypothesis]) -> list[Scored]:
        rows = _followed(case, [h for h in suspects if h.faults not in known], best)
        tracks.update((h.faults, track) for h, _, track in rows)
        return [(h, w) for h, w, _ in rows]

    def shows(fault: Fault) -> bool:
        return noticed(case.now, fault, case.engine)

    singles = [(h, w) for h, w, _ in alive]
    found: list[Scored] = []
    if _poorly(case, every, best, wayside):
        found = several(every, singles, wayside.fell, follow, shows)
    elif any(isinstance(e, Taken) for e in case.evidence):
        found = beside(every, singles, follow, shows)
    return [(h, w, tracks[h.faults]) for h, w in found]


def _poorly(case: Case, every: Sequence[Hypothesis], best: float, wayside: Wayside) -> bool:
    """Whether there is a piece of evidence that no single fault explains better than chance, or a pair of
    usual faults, each explaining its share of the evidence, would rival the best single one."""
    odds = [math.log(h.odds) for h in every if len(h.faults) == 1]
    if not odds or not wayside.fits:
        return False
    chances = zip(case.evidence, wayside.fits, strict=True)
    if any(isinstance(item, Taken) and fit < any_log(item) for item, fit in chances):
        return True
    return 2.0 * sum(odds) / len(odds) + sum(wayside.fits) > best + math.log(POORLY)


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
