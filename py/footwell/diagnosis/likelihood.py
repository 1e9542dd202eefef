"""How well a suspect foretells the evidence, piece by piece in the order it was taken.

Numbers under one suspect are jointly normal: readings lean on shared tolerances (the battery is low in
all of them), so each reading is judged given those before it. A small share of readings is a human slip
(wrong pin, poor contact) and has no say. Words are judged by how often people say them. A fuse that the
suspect's current opens stays open until somebody renews it. Where a relay or a fuse is in doubt, both ways
are followed, each with its chance: what it does in one reading it does in the next.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby

from footwell.checks import sights
from footwell.checks.check import CLAMP, OHMS, Check
from footwell.checks.outlook import Outlook, Seen, from_outside, outlook, outlooks
from footwell.checks.predict import Reading, Words, foretold, seen_as
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Evidence, Hypothesis, Sighting, Taken
from footwell.diagnosis.course import Course, Track, standing
from footwell.electrics.spread import Leans
from footwell.electrics.turns import possible

SLIP_SHARE = 0.02
"""Share of readings taken at the wrong pin or with a poor contact (common practice, no source)."""

ASTRAY_SHARE = 0.3
"""Share of readings that are led astray where a vehicle is not like its sheet at one place (common
practice, no source)."""

MOST_VOLTS = 32.0
MOST_AMPS = 40.0
"""Span over which a stray reading may lie."""


UNLIKELY = 7.0
"""A course this many nats below the likeliest of its suspect is not followed further (e^-7 is 0.001)."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A reading alone, or what several loads were seen to do in one set-up."""

    items: tuple[Evidence, ...]
    said: dict[int, tuple[Outlook, float]] = field(default_factory=dict, compare=False)
    """Log chance of what was seen by the identity of each outlook, which is kept with it: many suspects
    share one."""


def pieces(evidence: Sequence[Evidence]) -> list[Piece]:
    """The evidence with neighbours put together that were seen in one set-up: one operating point tells
    them all."""
    return [Piece(tuple(rows)) for _, rows in groupby(evidence, _together)]


def _together(item: Evidence) -> object:
    return (item.epoch, item.setup) if isinstance(item, Sighting) else object()


def log_chance(case: Case, h: Hypothesis, piece: Piece, track: Track) -> float:
    """Log chance (or density) of a piece of evidence under a suspect; the track moves on."""
    before = log_sum([c.log for c in track.courses])
    found = [after for course in track.courses for after in _went_on(case, h, piece, course)]
    now = log_sum([c.log for c in found])
    if len(found) > 1:
        best = max(c.log for c in found)
        found = [c for c in found if c.log > best - UNLIKELY]
    track.courses = found
    return now - before


def log_sum(logs: list[float]) -> float:
    """Log of the sum of chances whose logs these are."""
    if len(logs) == 1:
        return logs[0]
    top = max(logs)
    return top + math.log(sum(math.exp(x - top) for x in logs))


def _went_on(case: Case, h: Hypothesis, piece: Piece, course: Course) -> list[Course]:
    """A course after a piece of evidence: more than one where a relay or a fuse is in doubt."""
    item = piece.items[0]
    course.reach(case, item.epoch)
    circuit = case.circuit(item.epoch, h.slip)
    faults = standing(case, h, course)
    if isinstance(item, Sighting):
        shown = from_outside(circuit, item.setup, faults)
        return _saw(case, circuit, piece, course, outlooks(circuit, item.setup, shown))
    return _read(circuit, item, course, faults)


def _read(circuit: Circuit, item: Taken, course: Course, faults: tuple[Fault, ...]) -> list[Course]:
    setup = item.check.setup
    states = foretold(circuit, item.check, faults)
    if len(states) == 1:
        course.blow(outlook(circuit, setup, from_outside(circuit, setup, faults)).blown)
    found: list[Course] = []
    for weight, state in possible(states, course.known):
        after = course.turned(weight, state.turns, state.blown)
        if isinstance(state.said, Reading) and item.value is not None:
            after.numbers.append((item, state.said))
            after.log += _number_log(state.said, item, after, SLIP_SHARE)
        else:
            said = _word_log(state.said, item)
            after.words += said
            after.log += said
        found.append(after)
    return found


def _saw(
    case: Case, circuit: Circuit, piece: Piece, course: Course, states: tuple[Seen, ...]
) -> list[Course]:
    found: list[Course] = []
    for weight, state in possible(states, course.known):
        after = course.turned(weight, state.turns, state.outlook.blown)
        said = _sighted(case, circuit, piece, state.outlook)
        after.words += said
        after.log += said
        found.append(after)
    return found


def joint_log(track: Track) -> float:
    """Log chance of all evidence so far."""
    return log_sum([_joint_log(course, SLIP_SHARE) for course in track.courses])


def astray_log(track: Track) -> float:
    """The same where the vehicle is not like its sheet at one place: many numbers may be anything."""
    return log_sum([_joint_log(course, ASTRAY_SHARE) for course in track.courses])


def shares(track: Track) -> list[tuple[Course, float]]:
    """How likely each course is under its suspect."""
    if len(track.courses) == 1:
        return [(track.courses[0], 1.0)]
    logs = [_joint_log(course, SLIP_SHARE) for course in track.courses]
    total = log_sum(logs)
    return [(c, math.exp(x - total)) for c, x in zip(track.courses, logs, strict=True)]


def _joint_log(course: Course, slips: float) -> float:
    """Numbers taken in a fixed order: with slips mixed in one by one the order would show in the fourth
    digit."""
    fresh = Course()
    numbers = sorted(course.numbers, key=lambda row: (row[0].check.id, row[0].value))
    said = sum(_number_log(predicted, item, fresh, slips) for item, predicted in numbers)
    return course.odds + course.words + said


def _sighted(case: Case, circuit: Circuit, piece: Piece, seen: Outlook) -> float:
    found = piece.said.get(id(seen))
    if found is None:
        found = piece.said[id(seen)] = (seen, _sight_log(case, circuit, piece, seen))
    return found[1]


def _sight_log(case: Case, circuit: Circuit, piece: Piece, seen: Outlook) -> float:
    """Log chance of what several loads were seen to do in one set-up."""
    first = piece.items[0]
    assert isinstance(first, Sighting)
    usual = outlook(case.drawn, first.setup, ()).activity
    now, total = seen.activity, 0.0
    for item in piece.items:
        assert isinstance(item, Sighting)
        load, slip = item.load, sights.SLIP[item.told_by]
        does, well = now.get(load, 0.0), usual.get(load, 0.0)
        said = sights.chance(seen_as(circuit, load), item.word, does, well, slip)
        total += math.log(said)
    return total


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


STRAY_WORD = 0.05
"""A word of a smaller chance than this is said of a slip, not of what the suspect shows."""


def _is_stray(item: Taken, chance: float) -> bool:
    """Whether a reading of such a log chance under a suspect is to be put down to a slip."""
    return chance < (math.log(STRAY_WORD) if item.value is None else any_log(item))


def strayed(every_piece: Sequence[Piece], chances: Sequence[float]) -> list[Taken]:
    """The readings among pieces of evidence that stray, by the log chance of each piece under a suspect."""
    rows = ((piece.items[0], said) for piece, said in zip(every_piece, chances, strict=True))
    return [item for item, said in rows if isinstance(item, Taken) and _is_stray(item, said)]


def _anywhere(check: Check, value: float) -> float:
    """Density of a reading that nothing predicts: even over what the instrument may show there."""
    if check.instrument == OHMS:
        return 0.3 if math.isinf(value) else 0.5 / max(abs(value), 1.0)
    return 1.0 / (MOST_AMPS if check.instrument == CLAMP else MOST_VOLTS)


def _number_log(predicted: Reading, item: Taken, course: Course, slips: float) -> float:
    """Log density of a reading given those before it, with the chance of a slip mixed in."""
    assert item.value is not None
    stray = slips * _anywhere(item.check, item.value)
    if math.isinf(predicted.mean) or math.isinf(item.value):
        same = math.isinf(predicted.mean) and math.isinf(item.value)
        return math.log((1.0 - slips) + stray if same else stray)
    row, variance, pull = _conditioned(course, predicted, item.sitting)
    miss = item.value - predicted.mean
    z = miss - pull
    fit = (1.0 - slips) * math.exp(-0.5 * z * z / variance) / math.sqrt(2.0 * math.pi * variance)
    if fit > stray:
        course.residuals.append(miss)
        course.leans.append((item.sitting, predicted.leans))
        course.factor.append([*row, math.sqrt(variance)])
    return math.log(fit + stray)


def _conditioned(
    course: Course, predicted: Reading, sitting: int
) -> tuple[list[float], float, float]:
    """One more row of the Cholesky factor: the row, the variance left, and the mean's shift. Readings of
    different sittings share nothing: the supply is another, and so is how hot the parts are."""
    own, least = predicted.leans, predicted.instrument_sigma**2
    row: list[float] = []
    whitened: list[float] = []
    for n, (earlier, factor) in enumerate(zip(course.leans, course.factor, strict=True)):
        shared = _shared(own, earlier[1]) if earlier[0] == sitting else 0.0
        value = shared - sum(a * b for a, b in zip(row, factor, strict=False))
        row.append(value / factor[-1])
        settled = course.residuals[n] - sum(a * b for a, b in zip(whitened, factor, strict=False))
        whitened.append(settled / factor[-1])
    all_of_it = sum(x * x for x in own.values()) + least
    variance = max(all_of_it - sum(x * x for x in row), least)
    return row, variance, sum(a * b for a, b in zip(row, whitened, strict=True))


def _shared(a: Leans, b: Leans) -> float:
    """Covariance of two readings by what both lean on."""
    return sum(x * b[key] for key, x in a.items() if key in b)
