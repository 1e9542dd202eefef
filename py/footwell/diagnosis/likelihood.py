"""How well a suspect foretells the evidence, piece by piece in the order it was taken.

Numbers under one suspect are jointly normal: readings lean on shared tolerances (the battery is low in
all of them), so each reading is judged given those before it. A small share of readings is a human slip
(wrong pin, poor contact) and has no say. Words are judged by how often people say them. A fuse that the
suspect's current opens stays open until somebody renews it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from footwell.checks import sights
from footwell.checks.check import CLAMP, OHMS, Check
from footwell.checks.outlook import Outlook, broken_at, outlook
from footwell.checks.predict import Nuisance, Reading, Words, expected, seen_as
from footwell.circuit.chains import alike
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Evidence, Hypothesis, Sighting, Taken

SLIP_SHARE = 0.02
"""Share of readings taken at the wrong pin or with a poor contact (common practice, no source)."""

MOST_VOLTS = 32.0
MOST_AMPS = 40.0
"""Span over which a stray reading may lie."""


@dataclass(slots=True)
class Track:
    """What is remembered of one suspect on the way through the evidence: log chance of all words, numbers
    with their predictions, how the next number leans on those before it, and fuses that it has blown."""

    words: float = 0.0
    numbers: list[tuple[Taken, Reading]] = field(default_factory=list)
    residuals: list[float] = field(default_factory=list)
    leans: list[dict[tuple[Nuisance, int], float]] = field(default_factory=list)
    factor: list[list[float]] = field(default_factory=list)
    epoch: int = 0
    blown: set[str] = field(default_factory=set)
    ever_blown: set[str] = field(default_factory=set)

    def reach(self, case: Case, epoch: int) -> None:
        """Go on to an epoch: what was renewed on the way is whole again."""
        while self.epoch < epoch:
            self.epoch += 1
            self.blown -= case.epochs[self.epoch].renewed

    def blow(self, fuses: tuple[str, ...]) -> None:
        self.blown.update(fuses)
        self.ever_blown.update(fuses)


def standing(case: Case, h: Hypothesis, track: Track) -> tuple[Fault, ...]:
    """The faults that are there now under a suspect, blown fuses with them."""
    faults = case.standing(h, track.epoch)
    if not track.blown:
        return faults
    return tuple(sorted({*faults, *(Fault(fuse, "open") for fuse in track.blown)}))


def log_chance(case: Case, h: Hypothesis, item: Evidence, track: Track) -> float:
    """Log chance (or density) of a piece of evidence under a suspect; the track moves on."""
    track.reach(case, item.epoch)
    circuit = case.circuit(item.epoch, h.slip)
    faults = standing(case, h, track)
    setup = item.setup if isinstance(item, Sighting) else item.check.setup
    seen = outlook(circuit, setup, alike(circuit, faults, broken_at(circuit, setup)))
    track.blow(seen.blown)
    if isinstance(item, Taken):
        predicted = expected(circuit, item.check, faults)
        if isinstance(predicted, Reading) and item.value is not None:
            track.numbers.append((item, predicted))
            return _number_log(predicted, item, track)
        said = _word_log(predicted, item)
    else:
        said = _sight_log(case, circuit, item, seen)
    track.words += said
    return said


def joint_log(track: Track) -> float:
    """Log chance of all evidence so far, numbers taken in a fixed order: with slips mixed in one by one the
    order would show in the fourth digit."""
    fresh = Track()
    numbers = sorted(track.numbers, key=lambda row: (row[0].check.id, row[0].value))
    return track.words + sum(_number_log(predicted, item, fresh) for item, predicted in numbers)


def _sight_log(case: Case, circuit: Circuit, item: Sighting, seen: Outlook) -> float:
    usual = outlook(case.now, item.setup, ()).activity.get(item.load, 0.0)
    now = seen.activity.get(item.load, 0.0)
    chances = sights.chances(seen_as(circuit, item.load), now, usual, sights.SLIP[item.told_by])
    return math.log(chances.get(item.word, 0.01))


def _word_log(predicted: Reading | Words, item: Taken) -> float:
    if isinstance(predicted, Reading):
        return math.log(0.5)
    fit = (1.0 - SLIP_SHARE) * predicted.get(item.word, 0.001)
    return math.log(fit + SLIP_SHARE / len(predicted))


def any_log(item: Evidence) -> float:
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


def _number_log(predicted: Reading, item: Taken, track: Track) -> float:
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
    track: Track, leans: dict[tuple[Nuisance, int], float], instrument_sigma: float
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
