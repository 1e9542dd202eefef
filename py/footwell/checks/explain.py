"""Why a check reads what it reads: the way of the current, what falls along it, and the band's parts.

Everything here is taken from the same operating point as the prediction itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from footwell.checks.check import (
    BENCH,
    CLAMP,
    FEED,
    FUSE_LAMP,
    LAMP,
    LISTEN,
    LOAD,
    LOOK,
    OHMS,
    SUBSTITUTE,
    VOLTS,
    Check,
    nodes,
)
from footwell.checks.clipped import METER_OHMS, clipped, held_to
from footwell.checks.predict import Faults, Nuisance, Reading, Words, foretold
from footwell.circuit.circuit import Circuit
from footwell.electrics.breaks import Break, Side, way_to
from footwell.electrics.flow import Hold, Leg, held_by, round_along, round_through
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.base import EARTH

Mark = Literal["red", "black", "held", "body"]

METER: Nuisance = ("meter", "")
SUPPLY: Nuisance = ("supply", "")

LARGEST = 3
"""Tolerances named one by one; the others are taken together."""

LEAST_SHARE = 1e-3
"""Share of the variance below which none is worth a name."""


@dataclass(frozen=True, slots=True)
class BandPart:
    """A cause of spread: share of the variance (all shares sum to 1), and its own standard deviation
    in the reading's unit. `element` is "meter", "supply", "leads", an element, or "" for the rest."""

    element: str
    share: float
    sigma: float
    count: int = 1


@dataclass(frozen=True, slots=True)
class MeterLoad:
    """What a voltmeter does: amps it takes, volts without it, and ohms that it sees."""

    amps: float
    volts_without: float
    ohms: float


@dataclass(frozen=True, slots=True)
class Explanation:
    """`round` is the current's way, source first. `flows` says whether it passes the place itself;
    where not, `hold` is what holds the place's voltage (None: nothing), `round` passes the end of
    that hold if any current does, and `stops` has the first thing in the way of a current to each
    side. `look` says that the answer is seen, and nothing is computed."""

    reading: Reading | Words
    point: OperatingPoint
    flows: bool
    round: tuple[Leg, ...]
    hold: Hold | None
    stops: dict[Side, Break]
    band: tuple[BandPart, ...]
    load: MeterLoad | None
    look: bool = False


def explained(circuit: Circuit, check: Check, faults: Faults) -> Explanation:
    """Why a check reads what it reads under the faults, with the middle of all limits."""
    reading = foretold(circuit, check, faults)[0].said
    point = clipped(circuit, check, faults)
    by_itself = check.instrument in (LOOK, BENCH)
    way = None if by_itself else _round(circuit, check, point)
    node = _asked_node(circuit, check)
    still = way is None and node is not None and not by_itself
    hold = held_by(point, node) if still and node is not None else None
    beside = round_through(point, [hold.end]) if hold else None
    return Explanation(
        reading,
        point,
        way is not None,
        tuple(way or beside or ()),
        hold,
        _stops(point, node) if still and node is not None else {},
        band_parts(reading) if isinstance(reading, Reading) else (),
        _meter_load(circuit, check, faults, point) if check.instrument == VOLTS else None,
        check.instrument == LOOK,
    )


def _round(circuit: Circuit, check: Check, point: OperatingPoint) -> list[Leg] | None:
    if check.instrument == OHMS:
        return round_through(point, ())
    if check.instrument in (LAMP, FUSE_LAMP, FEED):
        return round_along(point, "clip")
    if check.instrument == SUBSTITUTE:
        return round_along(point, "stand-in")
    if check.instrument == LISTEN:
        return round_along(point, check.red, "coil")
    if check.instrument in (CLAMP, LOAD):  # of a wire on earth, the branch that carries the most
        return round_along(point, check.red)
    red, black = nodes(circuit, check)
    if check.black in ("", EARTH):
        return round_through(point, [red])
    falling = sorted((red, black), key=lambda node: -point.volts[node])
    return round_through(point, falling) or round_through(point, [red])


def _asked_node(circuit: Circuit, check: Check) -> int | None:
    """The node whose voltage is asked after where no current flows."""
    ends = held_to(circuit, check)
    if ends is not None:
        return ends[0]
    element = circuit.elements.get(check.red)
    return None if element is None else next(iter(element.nodes.values()))


def _stops(point: OperatingPoint, node: int) -> dict[Side, Break]:
    found: dict[Side, Break] = {}
    sides: tuple[Side, ...] = ("supply", "earth")
    for side in sides:
        way = way_to(point, node, side)
        if way is not None and way.breaks:
            found[side] = way.breaks[0]
    return found


def _meter_load(circuit: Circuit, check: Check, faults: Faults, point: OperatingPoint) -> MeterLoad:
    red, black = nodes(circuit, check)
    free = operate(circuit, check.setup, faults)
    amps = (point.volts[red] - point.volts[black]) / METER_OHMS
    return MeterLoad(amps, free.volts[red] - free.volts[black], free.resistance_between(red, black))


def band_parts(reading: Reading) -> tuple[BandPart, ...]:
    """What a band consists of: meter, supply, the largest tolerances, and the rest.

    Variances of independent causes add up (law of propagation of uncertainty, JCGM 100:2008, 5.1.2).

    >>> parts = band_parts(Reading(12.0, {("supply", ""): 0.3, ("W1", ""): 0.0}, 0.4))
    >>> [(p.element, round(p.share, 2)) for p in parts]
    [('meter', 0.64), ('supply', 0.36)]
    """
    whole = reading.sigma**2
    if whole <= 0.0 or math.isinf(reading.mean):
        return ()
    by_element: dict[str, float] = {}
    for (element, _), lean in reading.leans.items():
        by_element[element] = by_element.get(element, 0.0) + lean**2
    supply = by_element.pop(SUPPLY[0], 0.0)
    falling = sorted(by_element.items(), key=lambda row: (-row[1], row[0]))
    largest = [row for row in falling[:LARGEST] if row[1] >= LEAST_SHARE * whole]
    named = [(METER[0], reading.instrument_sigma**2), (SUPPLY[0], supply), *largest]
    parts = [_part(element, variance, whole) for element, variance in named if variance > 0.0]
    rest = [variance for _, variance in falling[len(largest) :] if variance > 0.0]
    return (*parts, *([_part("", sum(rest), whole, len(rest))] if rest else []))


def _part(element: str, variance: float, whole: float, count: int = 1) -> BandPart:
    return BandPart(element, variance / whole, math.sqrt(variance), count)


def marks(circuit: Circuit, check: Check, found: Explanation) -> list[tuple[Mark, ...]]:
    """What lies at the end of each leg of the round, each once: "red" and "black" probe, "held"
    where the place's voltage is held, and "body"."""
    wanted: dict[Mark, int] = {"body": circuit.earth}
    if not found.flows and found.hold:
        wanted["held"] = found.hold.end
    elif found.flows and check.instrument == VOLTS:
        wanted["red"], wanted["black"] = nodes(circuit, check)
    rows: list[tuple[Mark, ...]] = []
    for leg in found.round:
        rows.append(tuple(name for name, node in wanted.items() if node == leg.end))
        wanted = {name: node for name, node in wanted.items() if node != leg.end}
    return rows
