"""The evidence of a small case as a Bayesian network, solved by pyAgrum; one sitting, no repairs.

One node holds the suspects, one each the pieces of evidence, and one each the slips of the hand. Numbers
are one piece of evidence, for they share tolerances: jointly normal but for those that are slips. What a
check reads under a suspect is Footwell's own prediction; how evidence is weighed is said here afresh.
"""

from __future__ import annotations

import math
import warnings
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations, product

import numpy

from footwell.checks import sights
from footwell.checks.check import CLAMP, OHMS
from footwell.checks.outlook import outlook
from footwell.checks.predict import Reading, expected, seen_as
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import NONE_LEAST, Belief
from footwell.diagnosis.case import Case, Sighting, Taken
from footwell.reference.sight_words import WORDS

with warnings.catch_warnings():
    # SWIG's classes lack a module's name: a warning that, made an error, ends the process here.
    warnings.simplefilter("ignore")
    import pyagrum

Faults = tuple[Fault, ...]
Row = tuple[float, ...]
SLIP = 0.02
"""Share of readings that are slips."""
UNLIKE_ODDS, ASTRAY = 0.01, 0.3
"""Odds of a vehicle that is not like its sheet at one place, and the share of numbers led astray by it."""
NO_SLIPS = 1e-40
"""Share that leaves slips no say beside numbers that a suspect foretells."""


@dataclass(frozen=True)
class Table:
    """Chances of a piece of evidence: `rows[suspect][slips]` are those of the outcomes, the one seen
    first. Slips count up as in `patterns`; none of these comes last and knows no slips. `numbers` are led
    astray where a vehicle is not like its sheet."""

    slips: int
    rows: tuple[tuple[Row, ...], ...]
    numbers: bool = False


def patterns(slips: int) -> list[tuple[int, ...]]:
    """Every way in which so many readings are slips (1) or not (0), the first without any."""
    return list(product((0, 1), repeat=slips))


@dataclass(frozen=True)
class Posteriors:
    """Share of every suspect, of each beside a sheet that its vehicle is not like, and of anything else."""

    suspects: list[float]
    unlike: list[float]
    anything: float

    def kept(self, own: Sequence[float]) -> list[float]:
        """Shares among the suspects that have a share of their `own`, none of these last."""
        kept = [x if mine else 0.0 for x, mine in zip(self.suspects, own, strict=True)]
        none = self.anything + sum(x for x, mine in zip(self.unlike, own, strict=True) if mine)
        return [x / (sum(kept) + none) for x in [*kept, none]]


def posteriors(
    odds: Sequence[float], tables: Sequence[Table], slip: float = SLIP, astray: float = ASTRAY
) -> Posteriors:
    """The shares by the network. Odds of anything else come last."""
    count = len(odds) - 1
    odds = [*odds[:-1], *(UNLIKE_ODDS * x for x in odds[:-1]), odds[-1]]
    net = pyagrum.BayesNet()
    net.add(pyagrum.LabelizedVariable("suspect", "", len(odds)))
    net.cpt("suspect").fillWith([x / sum(odds) for x in odds])
    for n, table in enumerate(tables):
        net.add(pyagrum.LabelizedVariable(f"seen{n}", "", len(table.rows[0][0])))
        net.addArc("suspect", f"seen{n}")
        parents = [f"slip{n}.{k}" for k in range(table.slips)]
        for parent in parents:
            net.add(pyagrum.LabelizedVariable(parent, "", 2))
            net.addArc("suspect", parent)
            net.addArc(parent, f"seen{n}")
            for s in range(len(odds)):
                share = astray if table.numbers and count <= s < 2 * count else slip
                net.cpt(parent)[{"suspect": s}] = [1.0 - share, share]
        for s, row in enumerate([*table.rows[:-1], *table.rows]):
            for slipped, chances in zip(patterns(table.slips), row, strict=True):
                given = {"suspect": s, **dict(zip(parents, slipped, strict=True))}
                net.cpt(f"seen{n}")[given] = list(chances)
    solver = pyagrum.LazyPropagation(net)
    solver.setEvidence({f"seen{n}": 0 for n in range(len(tables))})
    solver.makeInference()
    found = [float(x) for x in solver.posterior("suspect").tolist()]
    return Posteriors(found[:count], found[count:-1], found[-1])


def floored(shares: Sequence[float]) -> list[float]:
    """The shares where none of these, the last, keeps its least."""
    none = max(shares[-1], NONE_LEAST)
    return [x * (1.0 - none) / sum(shares[:-1]) for x in shares[:-1]] + [none]


def tables_of(case: Case, suspects: Sequence[Faults]) -> list[Table]:
    """The tables of all evidence of a case; all numbers together are the last."""
    seen = [_sight(case, e, suspects) for e in case.evidence if isinstance(e, Sighting)]
    taken = [e for e in case.evidence if isinstance(e, Taken)]
    seen += [_word(case, e, suspects) for e in taken if e.value is None]
    numbers = numbers_of(case)
    return [*seen, _numbers(case, numbers, suspects)] if numbers else seen


def numbers_of(case: Case) -> list[Taken]:
    return [e for e in case.evidence if isinstance(e, Taken) and e.value is not None]


def _sight(case: Case, item: Sighting, suspects: Sequence[Faults]) -> Table:
    kind, told = seen_as(case.now, item.load), sights.SLIP[item.told_by]
    usual = outlook(case.now, item.setup, ()).activity[item.load]
    rows = []
    for faults in suspects:
        now = outlook(case.now, item.setup, faults)
        assert not now.blown
        chances = sights.chances(kind, now.activity[item.load], usual, told)
        rows.append((_first(item.word, chances),))
    return Table(0, (*rows, (_even(0.33, len(WORDS[kind])),)))


def _word(case: Case, item: Taken, suspects: Sequence[Faults]) -> Table:
    said = [expected(case.now, item.check, faults) for faults in suspects]
    count = len(said[0])
    slipped = _even(1.0 / count, count)
    rows = [(_first(item.word, words), slipped) for words in said]
    return Table(1, (*rows, (_even(0.5, count),) * 2))


def _first(word: str, chances: dict[str, float]) -> Row:
    return (chances[word], *(x for other, x in chances.items() if other != word))


def _even(seen: float, outcomes: int) -> Row:
    """The chance of what was seen; the other outcomes share the rest."""
    return (seen, *[(1.0 - seen) / (outcomes - 1)] * (outcomes - 1))


def _numbers(case: Case, items: Sequence[Taken], suspects: Sequence[Faults]) -> Table:
    """What was seen is a small box about the numbers: a chance in proportion to their joint density."""
    strays = [math.log(anywhere(item)) for item in items]
    logs = [
        [_log(case, items, faults, slipped, strays) for slipped in patterns(len(items))]
        for faults in suspects
    ]
    logs.append([sum(strays)] * len(logs[0]))
    box = -max(x for row in logs for x in row) - 1.0
    chances = [[math.exp(x + box) for x in row] for row in logs]
    return Table(
        len(items), tuple(tuple((x, 1.0 - x) for x in row) for row in chances), numbers=True
    )


def _log(
    case: Case,
    items: Sequence[Taken],
    faults: Faults,
    slipped: Sequence[int],
    strays: Sequence[float],
) -> float:
    sound = [item for item, slip in zip(items, slipped, strict=True) if not slip]
    stray = sum(x for x, slip in zip(strays, slipped, strict=True) if slip)
    return stray + joint_log(case, sound, faults)


def joint_log(case: Case, items: Sequence[Taken], faults: Faults) -> float:
    """Log of the joint normal density of some numbers under a suspect. Over range is certain or cannot
    be."""
    rows = [(item.value, _predicted(case, item, faults)) for item in items]
    if any(math.isinf(value) != math.isinf(r.mean) for value, r in rows):
        return -math.inf
    rows = [row for row in rows if math.isfinite(row[0])]
    keys = sorted({key for _, r in rows for key in r.leans})
    leans = numpy.array([[r.leans.get(key, 0.0) for key in keys] for _, r in rows])
    spread = numpy.diag([r.instrument_sigma**2 for _, r in rows])
    if keys:
        spread = spread + leans @ leans.T
    miss = numpy.array([value - r.mean for value, r in rows])
    _, log_size = numpy.linalg.slogdet(2.0 * math.pi * spread)
    return float(-0.5 * (miss @ numpy.linalg.solve(spread, miss) + log_size)) if rows else 0.0


def _predicted(case: Case, item: Taken, faults: Faults) -> Reading:
    said = expected(case.now, item.check, faults)
    assert isinstance(said, Reading)
    return said


def anywhere(item: Taken) -> float:
    """Density of a number (1/V, 1/A, 1/Ω; for over range its chance) where anything may be wrong."""
    assert item.value is not None
    if item.check.instrument == OHMS:
        return 0.3 if math.isinf(item.value) else 0.5 / max(abs(item.value), 1.0)
    return 1.0 / 40.0 if item.check.instrument == CLAMP else 1.0 / 32.0


def share_a_tolerance(case: Case, faults: Faults) -> bool:
    """Whether two numbers of a case lean on the same tolerance under a suspect."""
    every = [_predicted(case, item, faults).leans for item in numbers_of(case)]
    return any(a[k] and b.get(k) for a, b in combinations(every, 2) for k in a)


def believed(belief: Belief) -> dict[Faults, float]:
    """Footwell's share of every set of faults."""
    found: dict[Faults, float] = {}
    for w in belief.suspects:
        found[w.hypothesis.faults] = found.get(w.hypothesis.faults, 0.0) + w.share
    return found


def altered(table: Table, suspect: int, factor: float) -> Table:
    """The table with the chance of what was seen changed for one suspect."""
    rows = list(table.rows)
    rows[suspect] = tuple(_scaled(row, factor) for row in rows[suspect])
    return replace(table, rows=tuple(rows))


def _scaled(row: Row, factor: float) -> Row:
    left = (1.0 - row[0] * factor) / (1.0 - row[0])
    return (row[0] * factor, *(x * left for x in row[1:]))
