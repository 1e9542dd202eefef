"""Belief: odds of every suspect after the evidence.

Numbers under one suspect are jointly normal: readings lean on shared tolerances (the battery is low in
all of them), so each reading is judged given those before it. A small share of readings is a human slip
(wrong pin, poor contact) and has no say. Words are judged by how often people say them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footwell.checks import sights
from footwell.checks.check import CLAMP, OHMS, Check
from footwell.checks.outlook import activities
from footwell.checks.predict import Nuisance, Reading, expected, seen_as
from footwell.diagnosis.case import Case, Evidence, Hypothesis, Sighting, Taken
from footwell.diagnosis.hypotheses import hypotheses, pairs
from footwell.faults.suspects import Repair

SLIP_SHARE = 0.02
"""Share of readings taken at the wrong pin or with a poor contact (common practice, no source)."""

NONE_ODDS = 2e-4
"""Odds of a fault that is not on the sheet, against a sound vehicle."""

NONE_LEAST = 0.01
"""What "none of these" keeps until a confirming check."""

HOPELESS = 15.0
"""A suspect this many nats below the best is not followed further (e^-15 is about 3e-7)."""

PAIRS_OPEN_AT = 0.15
"""Share of "none of these" and of unlikely singles at which pairs are looked at."""

MOST_VOLTS = 32.0
MOST_AMPS = 40.0
"""Span over which a stray reading may lie."""

MOST_PAIR_FIRSTS = 14
MOST_PAIR_SECONDS = 60


@dataclass(frozen=True, slots=True)
class Weighed:
    """A suspect with its share of all that is possible, and what is left to mend if it is true."""

    hypothesis: Hypothesis
    share: float
    left: tuple[Repair, ...]


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


@dataclass(slots=True)
class _Track:
    """Readings taken so far under one suspect: how the next one leans on them."""

    residuals: list[float]
    leans: list[dict[tuple[Nuisance, int], float]]
    factor: list[list[float]]


def believe(case: Case) -> Belief:
    """Odds of all suspects, in a fixed order of falling share (ties by the faults' names)."""
    singles = _followed(case, hypotheses(case))
    none = math.log(NONE_ODDS) + sum(_any_log(e) for e in case.evidence)
    if _pairs_wanted(case, singles, none):
        singles += _followed(case, _screened_pairs(case, singles), best=max(s for _, s in singles))
    return _normalised(case, singles, none)


def _followed(
    case: Case, suspects: Iterable[Hypothesis], best: float = -math.inf
) -> list[tuple[Hypothesis, float]]:
    """Log weight of each suspect; hopeless ones are dropped on the way."""
    alive = [(h, math.log(h.odds), _Track([], [], [])) for h in suspects]
    for item in case.evidence:
        alive = [
            (h, weight + _log_chance(case, h, item, track), track) for h, weight, track in alive
        ]
        floor = max([best, *(weight for _, weight, _ in alive)]) - HOPELESS
        alive = [row for row in alive if row[1] > floor]
    return [(h, weight) for h, weight, _ in alive]


def _pairs_wanted(case: Case, singles: list[tuple[Hypothesis, float]], none: float) -> bool:
    if not case.evidence or not singles:
        return bool(case.evidence)
    top = max(weight for _, weight in singles)
    total = sum(math.exp(weight - top) for _, weight in singles)
    return math.exp(none - top) / (total + math.exp(none - top)) > PAIRS_OPEN_AT * NONE_LEAST * 10


def _screened_pairs(case: Case, singles: list[tuple[Hypothesis, float]]) -> list[Hypothesis]:
    """Pairs of the best single suspects with the commonest others."""
    ones = [h for h in hypotheses(case) if len(h.faults) == 1 and h.slip is None]
    ranked = sorted(
        ((h, w) for h, w in singles if len(h.faults) == 1 and h.slip is None),
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


def _normalised(case: Case, alive: list[tuple[Hypothesis, float]], none: float) -> Belief:
    top = max([none, *(weight for _, weight in alive)])
    total = math.exp(none - top) + sum(math.exp(weight - top) for _, weight in alive)
    share_none = math.exp(none - top) / total
    kept_none = max(share_none, NONE_LEAST)
    scale = (1.0 - kept_none) / (1.0 - share_none) if share_none < 1.0 else 0.0
    rows = [Weighed(h, scale * math.exp(w - top) / total, case.left_to_mend(h)) for h, w in alive]
    rows.sort(key=lambda w: (-round(w.share, 12), w.hypothesis.faults, w.hypothesis.repairs))
    return Belief(tuple(w for w in rows if w.share > 1e-9), kept_none)


def _any_log(item: Evidence) -> float:
    """Log chance of a piece of evidence when anything may be wrong."""
    if isinstance(item, Sighting):
        return math.log(0.33)
    if item.value is None:
        return math.log(0.5)
    return math.log(_anywhere(item.check, item.value))


def _anywhere(check: Check, value: float) -> float:
    """Density of a reading that nothing predicts: even over what the instrument may show there."""
    if check.instrument == OHMS:
        return 0.3 if math.isinf(value) else 0.5 / max(abs(value), 1.0)
    return 1.0 / (MOST_AMPS if check.instrument == CLAMP else MOST_VOLTS)


def _log_chance(case: Case, h: Hypothesis, item: Evidence, track: _Track) -> float:
    circuit = case.circuit(item.epoch, h.slip)
    faults = case.standing(h, item.epoch)
    if isinstance(item, Sighting):
        now = activities(circuit, item.setup, faults).get(item.load, 0.0)
        usual = activities(case.now, item.setup, ()).get(item.load, 0.0)
        chances = sights.chances(seen_as(circuit, item.load), now, usual, sights.SLIP[item.told_by])
        return math.log(chances.get(item.word, 0.01))
    predicted = expected(circuit, item.check, faults)
    if not isinstance(predicted, Reading):
        return math.log(
            (1.0 - SLIP_SHARE) * predicted.get(item.word, 0.001) + SLIP_SHARE / len(predicted)
        )
    if item.value is None:
        return math.log(0.5)
    return _number_log(predicted, item, track)


def _number_log(predicted: Reading, item: Taken, track: _Track) -> float:
    """Log density of a reading given those before it, with the chance of a slip mixed in."""
    assert item.value is not None
    stray = SLIP_SHARE * _anywhere(item.check, item.value)
    if math.isinf(predicted.mean) or math.isinf(item.value):
        same = math.isinf(predicted.mean) and math.isinf(item.value)
        return math.log((1.0 - SLIP_SHARE) + stray if same else stray)
    leans = {(key, item.sitting): x for key, x in predicted.leans.items()}
    row, variance, pull = _conditioned(track, leans, predicted.instrument_sigma)
    miss = item.value - predicted.mean
    z = miss - pull
    fit = (
        (1.0 - SLIP_SHARE) * math.exp(-0.5 * z * z / variance) / math.sqrt(2.0 * math.pi * variance)
    )
    if fit > stray:
        track.residuals.append(miss)
        track.leans.append(leans)
        track.factor.append([*row, math.sqrt(variance)])
    return math.log(fit + stray)


def _conditioned(
    track: _Track, leans: dict[tuple[Nuisance, int], float], instrument_sigma: float
) -> tuple[list[float], float, float]:
    """One more row of the Cholesky factor: the row, the variance left, and the mean's shift."""
    row: list[float] = []
    whitened: list[float] = []
    for n, (earlier, factor) in enumerate(zip(track.leans, track.factor, strict=True)):
        shared = sum(x * earlier[key] for key, x in leans.items() if key in earlier)
        value = shared - sum(a * b for a, b in zip(row, factor, strict=False))
        row.append(value / factor[-1])
        settled = track.residuals[n] - sum(a * b for a, b in zip(whitened, factor, strict=False))
        whitened.append(settled / factor[-1])
    own = sum(x * x for x in leans.values()) + instrument_sigma**2
    variance = max(own - sum(x * x for x in row), instrument_sigma**2)
    return row, variance, sum(a * b for a, b in zip(row, whitened, strict=True))


def entropy(shares: Sequence[float]) -> float:
    """Uncertainty in bits of shares that need not sum to one.

    >>> entropy([1.0, 1.0])
    1.0
    """
    total = sum(shares)
    return -sum(s / total * math.log2(s / total) for s in shares if s > 0.0) if total > 0.0 else 0.0
