"""Belief: odds of every suspect after the evidence, and what is left to mend if it is true."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial

from footwell.circuit.fault import Fault
from footwell.diagnosis.apart import apart
from footwell.diagnosis.case import Case, Hypothesis, Taken
from footwell.diagnosis.complaint import complains, noticed
from footwell.diagnosis.course import Course, Track, standing
from footwell.diagnosis.hypotheses import hypotheses, repair_of, untold
from footwell.diagnosis.likelihood import (
    Piece,
    any_log,
    astray_log,
    joint_log,
    log_chance,
    log_sum,
    shares,
    strayed,
)
from footwell.diagnosis.multiple import Key, Scored, modes_of, top
from footwell.diagnosis.nearby import nearby
from footwell.diagnosis.recall import Recall, Row, Standing, Told, recalled
from footwell.diagnosis.search import Asked, beside, several
from footwell.electrics.turns import NOTHING, Known
from footwell.faults.orders import MOST_WIRES
from footwell.faults.suspects import Repair

NONE_ODDS = 2e-4
"""Odds of a fault that is not on the sheet, against a sound vehicle."""

DIFFERS_ODDS = 0.01
"""Odds of a vehicle that at one place is wired otherwise than its sheet, or has another part (common
practice, no source)."""

NONE_LEAST = 0.01
"""What "none of these" keeps until a confirming check."""

HOPELESS = 15.0
"""A suspect this many nats below the best is not followed further (e^-15 is about 3e-7)."""

ON_THE_WAY = 8.0
"""Nats more before a suspect is dropped half way: later evidence may speak for it."""

SETS_ON_THE_WAY = 3.0
"""The same for sets of several faults: they are many, and tried anew at every look."""

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
    with recalled(case) as recall:
        singles = recall.standing_of(every)
        _weigh(case, recall, singles)
        alive, fell = _arrived(case, singles)
        reached = Reached(alive, fell, singles.fits)
        poorly = bool(_uncured(case)) or _poorly(recall.pieces, every, reached)
        alive = alive + _several(case, recall, every, reached, poorly)
        others = replace(reached, alive=alive)
        doubted = poorly and _wires_doubted(case)
        alive = alive + _untold(case, recall, every, others) if doubted else alive
    return _normalised(case, alive, _none(case, alive))


def _none(case: Case, alive: Sequence[Row]) -> float:
    """Log weight of a cause that is not on the sheet: anything may be, or the vehicle is not like its sheet
    at one place, and the suspects explain what that place leaves as it should be."""
    rows = [math.log(NONE_ODDS) + sum(any_log(e) for e in case.evidence)]
    rows += [math.log(DIFFERS_ODDS * h.odds) + astray_log(told.track) for h, _, told in alive]
    return log_sum(rows)


def _weigh(case: Case, recall: Recall, standing: Standing, rival: Rival | None = None) -> None:
    """Go on through the evidence; hopeless suspects are dropped on the way, beside each other and beside a
    rival."""
    for n in range(standing.pieces, len(recall.pieces)):
        piece = recall.pieces[n]
        chances = [told.of(case, h, n, piece) for h, _, told in standing.rows]
        standing.fits.append(max(chances, default=0.0))
        rows = [(h, w + said, t) for (h, w, t), said in zip(standing.rows, chances, strict=True)]
        best, more = (rival.after(n), SETS_ON_THE_WAY) if rival else (-math.inf, ON_THE_WAY)
        standing.rows, fell = _above(rows, best, HOPELESS + more)
        standing.fell += fell
        standing.pieces = n + 1


def _arrived(
    case: Case, standing: Standing, best: float = -math.inf
) -> tuple[list[Row], list[Hypothesis]]:
    """Those left at the end with the log weight of all evidence, and all that fell, the first first."""
    for _, _, told in standing.rows:
        told.track.reach(case, len(case.epochs) - 1)
    rows = [(h, math.log(h.odds) + joint_log(told.track), told) for h, _, told in standing.rows]
    left, fell = _above(rows, best, HOPELESS)
    return left, standing.fell + fell


def _above(rows: list[Row], best: float, nats: float) -> tuple[list[Row], list[Hypothesis]]:
    """The suspects at most so many nats below the best, and the others, the worst first."""
    floor = max([best, *(weight for _, weight, _ in rows)]) - nats
    under = [(round(weight, 9), h.faults, h) for h, weight, _ in rows if weight <= floor]
    if not under:
        return rows, []
    return [row for row in rows if row[1] > floor], [
        h for _, _, h in sorted(under, key=lambda row: row[:2])
    ]


@dataclass(frozen=True)
class Reached:
    """How far suspects get: those left, those that `fell`, the first first, and how well the best
    explains each piece of evidence (`fits`, log chance)."""

    alive: list[Row]
    fell: list[Hypothesis]
    fits: list[float]

    @property
    def best(self) -> float:
        """Log weight of the best of them at the end."""
        return max((w for _, w, _ in self.alive), default=-math.inf)


@dataclass(frozen=True)
class Rival:
    """What others have to come near: the `best` weight of single suspects at the end. Half way that is less
    what the rest of the evidence will add to whoever explains it: a reading that fits has a density of many
    nats, so that the end is no measure for the beginning."""

    best: float
    fits: list[float]

    def after(self, n: int) -> float:
        """The weight to come near after piece `n`."""
        return self.best - sum(self.fits[n + 1 :])


def _several(
    case: Case, recall: Recall, every: Sequence[Hypothesis], reached: Reached, poorly: bool
) -> list[Row]:
    """Suspects of several faults: all kinds where single ones explain the evidence `poorly`, else what may
    hide beside the leading ones, once something has been measured."""
    rival = Rival(reached.best, reached.fits)
    uncured = _uncured(case)
    # What did damage stands first in its pair, in a set that is sought names decide the order.
    known = {tuple(sorted(h.faults)) for h in every}
    every_told: dict[tuple[Fault, ...], Told] = {}

    def follow(suspects: list[Hypothesis]) -> list[Scored]:
        standing = recall.begun([h for h in suspects if tuple(sorted(h.faults)) not in known])
        _weigh(case, recall, standing, rival)
        rows, _ = _arrived(case, standing, rival.best)
        every_told.update((h.faults, told) for h, _, told in rows)
        return [(h, w) for h, w, _ in rows]

    def fits(suspects: Sequence[Hypothesis], until: int) -> dict[tuple[Fault, ...], float]:
        rows = recall.begun(suspects).rows
        return {h.faults: sum(_chances(case, recall, h, told, until)) for h, _, told in rows}

    def all_of_it(suspects: Sequence[Hypothesis]) -> dict[tuple[Fault, ...], float]:
        return fits(suspects, len(recall.pieces))

    def before(suspects: Sequence[Hypothesis]) -> dict[tuple[Fault, ...], float]:
        return fits(
            suspects, sum(p.items[0].epoch < max(uncured, default=0) for p in recall.pieces)
        )

    def share_of_it(suspects: Sequence[Hypothesis]) -> dict[tuple[Fault, ...], float]:
        rows = recall.begun(suspects).rows
        least = list(map(_least, recall.pieces))
        return {
            h.faults: sum(map(max, _chances(case, recall, h, told), least)) for h, _, told in rows
        }

    def strays(h: Hypothesis) -> bool:
        ((_, _, told),) = recall.begun([h]).rows
        return bool(strayed(recall.pieces, _chances(case, recall, h, told)))

    def shows(fault: Fault) -> bool:
        return noticed(case.now, fault, case.engine)

    singles = [(h, w) for h, w, _ in reached.alive]
    found: list[Scored] = []
    if poorly:
        asked = Asked(
            follow,
            shows,
            lambda fault: fault.element in case.epochs[-1].mended,
            partial(_since, case, recall.pieces, uncured),
            before,
            all_of_it,
            share_of_it,
            strays,
            partial(nearby, case.now),
        )
        found = several(every, singles, reached.fell, asked)
    elif any(isinstance(e, Taken) for e in case.evidence):
        found = beside(every, singles, follow, shows, partial(apart, case))
    return [(h, w, every_told[h.faults]) for h, w in found]


MANY_FAULTS, FEW_WIRES = 3, 4
"""Faults of the best set from which every order of the wires is tried, and the wires of which every order is
tried otherwise: 23 others."""

MOST_MENDED, MOST_LEFT = 2, 10
"""Sets of mended faults that slips are tried beside, and how many slips."""


def _wires_doubted(case: Case) -> bool:
    """Whether wires of which nobody speaks may be what is wrong now: the complaint is there, and no wires are
    known to sit wrongly, which are put right first."""
    return not case.epochs[-1].arrangement and complains(case, len(case.epochs) - 1)


def _untold(case: Case, recall: Recall, every: Sequence[Hypothesis], reached: Reached) -> list[Row]:
    """Wrong wiring of which nobody speaks, where single faults explain the evidence poorly, alone and beside
    what is mended: every order of many wires only where nothing less than three faults does. `reached` are
    all other suspects."""
    rows = sorted(reached.alive, key=lambda row: (-round(row[1], 9), row[0].faults))
    many = bool(rows) and len(rows[0][0].faults) >= MANY_FAULTS
    slips = untold(case, MOST_WIRES if many else FEW_WIRES)
    mended = _mended_part(case, every, [h for h, _, _ in rows])
    left = _best_since(case, recall.pieces, slips) if mended else []
    beside = [
        Hypothesis(h.faults, h.odds * s.odds, (*s.repairs, *h.repairs), s.slip)
        for h in mended
        for s in left
    ]
    rival = Rival(reached.best, reached.fits)
    begun = recall.begun([*slips, *beside]).rows
    followed = (_through(case, recall, row, rival) for row in begun)
    return _arrived(case, Standing([row for row in followed if row]), reached.best)[0]


def _through(case: Case, recall: Recall, row: Row, rival: Rival) -> Row | None:
    """One suspect through all the evidence, None where it falls far below a rival on the way: every slip has
    a circuit of its own, of which a phone's memory does not keep hundreds from one piece to the next."""
    h, weight, told = row
    for n, piece in enumerate(recall.pieces):
        weight += told.of(case, h, n, piece)
        if weight <= rival.after(n) - HOPELESS - SETS_ON_THE_WAY:
            return None
    return h, weight, told


def _best_since(
    case: Case, every: Sequence[Piece], suspects: Sequence[Hypothesis]
) -> list[Hypothesis]:
    """The suspects that, each as if it alone were left, best explain what came since the last repair that
    cured nothing."""
    start = max(_uncured(case), default=0)
    late = [p for p in every if p.items[0].epoch >= start]
    return top([(h, math.log(h.odds) + sum(_alone(case, h, late))) for h in suspects], MOST_LEFT)


def _mended_part(
    case: Case, every: Sequence[Hypothesis], best_first: Sequence[Hypothesis]
) -> list[Hypothesis]:
    """What the likeliest sets hold of faults that are mended by now, each in its best size, with the odds of
    these alone."""
    alone = {h.faults: h for h in every if len(h.faults) == 1 and h.slip is None}
    mended = case.epochs[-1].mended
    parts = (tuple(f for f in h.faults if f.element in mended) for h in best_first)
    best: dict[tuple[Key, ...], tuple[Fault, ...]] = {}
    for part in filter(None, parts):
        best.setdefault(modes_of(part), part)
    found: list[Hypothesis] = []
    for faults in [*best.values()][:MOST_MENDED]:
        each = [alone[(f,)] for f in faults]
        acts = tuple(act for h in each for act in h.repairs)
        found.append(Hypothesis(faults, math.prod(h.odds for h in each), acts))
    return found


def _chances(
    case: Case, recall: Recall, h: Hypothesis, told: Told, until: int | None = None
) -> list[float]:
    """Log chance of each piece of the evidence under a suspect, of all or the first so many."""
    return [told.of(case, h, n, piece) for n, piece in enumerate(recall.pieces[:until])]


def _since(
    case: Case, every: Sequence[Piece], uncured: Sequence[int], suspects: Sequence[Hypothesis]
) -> dict[tuple[Fault, ...], float]:
    """How well each suspect, as if it alone were left, explains its share of what came since each repair that
    has not cured the complaint: log chance, summed over these repairs. The last alone would not do: it may
    have been in vain, and what came before it still tells what is left."""
    late = [p for p in every if p.items[0].epoch >= min(uncured, default=len(case.epochs))]
    least = list(map(_least, late))
    starts = [sum(p.items[0].epoch < n for p in late) for n in uncured]
    found: dict[tuple[Fault, ...], float] = {}
    for h in suspects if late else ():
        said = list(map(max, _alone(case, h, late), least))
        found[h.faults] = sum(sum(said[start:]) for start in starts)
    return found


def _least(piece: Piece) -> float:
    """Log chance of a piece of evidence where anything may be."""
    return sum(any_log(e) for e in piece.items)


def _alone(case: Case, h: Hypothesis, late: Sequence[Piece]) -> list[float]:
    """Log chance of each piece of late evidence under a suspect, as if it alone were left."""
    track = Track()
    return [log_chance(case, h, piece, track) for piece in late]


def _uncured(case: Case) -> list[int]:
    """The epochs in which something was mended and the complaint there all the same. What is mended after
    the last of them cures nothing before the complaint is seen gone."""
    return [n for n, epoch in enumerate(case.epochs) if epoch.mended and complains(case, n)]


def _poorly(every_piece: Sequence[Piece], every: Sequence[Hypothesis], reached: Reached) -> bool:
    """Whether there is a reading that no single fault explains better than chance, or a pair of
    usual faults, each explaining its share of the evidence, would rival the best single one."""
    odds = [math.log(h.odds) for h in every if len(h.faults) == 1]
    if not odds or not reached.fits:
        return False
    for piece, fit in zip(every_piece, reached.fits, strict=True):
        if isinstance(piece.items[0], Taken) and fit < any_log(piece.items[0]):
            return True
    return 2.0 * sum(odds) / len(odds) + sum(reached.fits) > reached.best + math.log(POORLY)


def _normalised(case: Case, alive: list[Row], none: float) -> Belief:
    top = max([none, *(weight for _, weight, _ in alive)])
    total = math.exp(none - top) + sum(math.exp(weight - top) for _, weight, _ in alive)
    share_none = math.exp(none - top) / total
    kept_none = max(share_none, NONE_LEAST)
    scale = (1.0 - kept_none) / (1.0 - share_none) if share_none < 1.0 else 0.0
    rows = [
        _weighed(case, h, part * scale * math.exp(w - top) / total, course)
        for h, w, told in alive
        for course, part in shares(told.track)
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
