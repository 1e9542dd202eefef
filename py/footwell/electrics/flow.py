"""The way a current takes: round from the supply through a point and over earth back to the supply.

By Kirchhoff's voltage law the drops along such a round add up to the voltage of its source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from footwell.circuit.shortest import shortest
from footwell.electrics.network import Slot
from footwell.electrics.operating_point import OperatingPoint

LEAST_AMPS = 1e-5
"""Less than this is no current: ten times what a meter takes, a tenth of what a sensor's line does."""


@dataclass(frozen=True, slots=True)
class Leg:
    """A branch that current passes from a start to an end; `volts` (V) fall on the way, `emf` (V) is
    what a source gives there, 0 elsewhere; `ohms` is what a search for the main current keeps low."""

    element: str
    branch: str
    start: int
    end: int
    amps: float
    volts: float
    emf: float
    ohms: float


def round_through(point: OperatingPoint, nodes: Sequence[int]) -> list[Leg] | None:
    """The round of the main current through some nodes in their order, from its source on.

    The first leg is the source. None where no current flows through one of them, or none flows from
    one to the next.

    >>> from footwell.circuit.example import work_lamp
    >>> from footwell.circuit.setup import set_up
    >>> from footwell.electrics.operating_point import operate
    >>> circuit = work_lamp()
    >>> point = operate(circuit, set_up(circuit, {"S1": "on"}))
    >>> legs = round_through(point, [circuit.node_of["H1.1"]])
    >>> [leg.element for leg in legs]
    ['G1', 'W1', 'F1', 'W2', 'S1', 'W3', 'H1', 'W4', 'W0']
    >>> round(sum(leg.volts for leg in legs), 6), legs[0].emf
    (12.5, 12.5)
    """
    onward = _onward(point)
    for source in _sources(onward):
        ways = {n: [leg for leg in legs if leg is not source] for n, legs in onward.items()}
        stops = [source.end, *nodes, source.start]
        parts = [shortest(ways, start, {end}, ()) for start, end in pairwise(stops)]
        if all(part is not None for part in parts):
            return [source, *(leg for part in parts if part for leg in part)]
    return None


def round_along(point: OperatingPoint, element: str, branch: str | None = None) -> list[Leg] | None:
    """The round of the current in an element: in one of its branches, or in that with the most
    current. None where it has none."""
    onward = _onward(point)
    own = [
        leg
        for legs in onward.values()
        for leg in legs
        if leg.element == element and branch in (None, leg.branch)
    ]
    if not own:
        return None
    through = max(own, key=lambda leg: leg.amps)
    for source in _sources(onward):
        if source is through:
            back = shortest(onward, source.end, {source.start}, ())
            return None if back is None else [source, *back]
        ways = {n: [leg for leg in legs if leg is not source] for n, legs in onward.items()}
        there = shortest(ways, source.end, {through.start}, {through.end})
        back = shortest(ways, through.end, {source.start}, {through.start})
        if there is not None and back is not None:
            return [source, *there, through, *back]
    return None


def _sources(onward: Mapping[int, Sequence[Leg]]) -> list[Leg]:
    """Sources that give current, the strongest first."""
    found = [leg for legs in onward.values() for leg in legs if leg.emf > 0.0]
    return sorted(found, key=lambda leg: -leg.amps * leg.emf)


def _onward(point: OperatingPoint) -> dict[int, list[Leg]]:
    """Every branch with current by the node from which its current comes."""
    found: dict[int, list[Leg]] = {}
    for slot in point.slots:
        leg = _leg(point, slot)
        if leg.amps >= LEAST_AMPS and leg.start != leg.end:
            found.setdefault(leg.start, []).append(leg)
    return found


def _leg(point: OperatingPoint, slot: Slot) -> Leg:
    amps = point.slot_amps(slot)
    start, end = (slot.a, slot.b) if amps >= 0.0 else (slot.b, slot.a)
    emf = _emf(slot) if amps < 0.0 else 0.0
    volts = emf + point.volts[start] - point.volts[end]
    return Leg(
        slot.element,
        slot.branch.name,
        start,
        end,
        abs(amps),
        volts,
        emf,
        1.0 / max(abs(amps), 1e-12),
    )


def _emf(slot: Slot) -> float:
    """Voltage (V) of a source that gives current; 0 for everything else."""
    return slot.branch.law.emf


@dataclass(frozen=True, slots=True)
class Hold:
    """What holds the voltage of a point without current: elements from the point to an end that
    carries current, a post of the supply or the body, and the resistance on that way (Ω)."""

    elements: tuple[str, ...]
    end: int
    ohms: float


def held_by(point: OperatingPoint, node: int) -> Hold | None:
    """The way of least resistance to what holds a point's voltage; None where it hangs on nothing.

    >>> from footwell.circuit.example import work_lamp
    >>> from footwell.circuit.setup import set_up
    >>> from footwell.electrics.operating_point import operate
    >>> circuit = work_lamp()
    >>> off = operate(circuit, set_up(circuit, {"S1": "off"}))
    >>> held_by(off, circuit.node_of["H1.1"]).elements
    ('H1', 'W4')
    """
    battery = point.circuit.supply_element.nodes
    ends = {battery["+"], battery["-"], point.circuit.earth, *_carrying(point)}
    ways: dict[int, list[Leg]] = {}
    for slot in point.slots:
        siemens = slot.branch.law.at(point.across(slot))[1]
        if siemens >= LEAST_SIEMENS and slot.element != "clip":
            for start, end in ((slot.a, slot.b), (slot.b, slot.a)):
                leg = Leg(slot.element, "", start, end, 0.0, 0.0, 0.0, 1.0 / siemens)
                ways.setdefault(start, []).append(leg)
    found = shortest(ways, node, ends, ())
    if found is None:
        return None
    end = found[-1].end if found else node
    return Hold(tuple(leg.element for leg in found), end, sum(leg.ohms for leg in found))


LEAST_SIEMENS = 1e-7
"""What passes less than this holds nothing against a meter of 10 MΩ."""


def _carrying(point: OperatingPoint) -> set[int]:
    legs = (leg for legs in _onward(point).values() for leg in legs)
    return {node for leg in legs for node in (leg.start, leg.end)}
