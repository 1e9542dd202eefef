"""A kind of part on a battery, alone or behind a resistance: what a meter reads and a person sees."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts import KINDS
from footwell.parts.base import Context
from footwell.parts.battery import Battery
from footwell.parts.resistor import Resistor

from .electrics_rig import EARTH, Part, circuit_of

TWELVE = Context(12, 5.0)
NAME = "P"


def battery(volts: float = 12.5) -> Part:
    return Part("G1", "battery", Battery(volts, 0.005), {"+": "plus", "-": EARTH})


def resistor(id: str, a: str, b: str, ohms: float) -> Part:
    return Part(id, "resistor", Resistor(ohms), {"1": a, "2": b})


def bench(kind: str, values: Any, volts: float = 12.5, **nets: str) -> Circuit:
    """A battery and one part; terminals named in `nets`, or else first on plus and last on earth."""
    terminals = KINDS[kind].terminals(values)
    ends = nets or {terminals[0]: "plus", terminals[-1]: EARTH}
    part = Part(NAME, kind, values, ends)
    return circuit_of([battery(volts), part])


def fed(
    kind: str,
    values: Any,
    *faults: Fault,
    volts: float = 12.5,
    through: float = 0.0,
    engine: str = "off",
    controls: Mapping[str, str] | None = None,
) -> OperatingPoint:
    """The part between its first and second terminal on a battery, a resistance (Ω) before it."""
    a, b, *_ = KINDS[kind].terminals(values)
    feed = "fed" if through else "plus"
    parts = [battery(volts), Part(NAME, kind, values, {a: feed, b: EARTH})]
    if through:
        parts.append(resistor("R", "plus", "fed", through))
    positions = KINDS[kind].positions
    asked = {NAME: list(positions(values))} if positions else None
    circuit = circuit_of(parts, asked)
    return operate(circuit, set_up(circuit, controls, engine=engine), faults)


def fault(mode: str, size: float = 0.0) -> Fault:
    return Fault(NAME, mode, size)


def across(point: OperatingPoint, branch: str = "") -> float:
    """Voltage (V) over a branch of the part, with its sign."""
    slot = next(s for s in point.slots if s.element == NAME and s.branch.name == branch)
    return point.across(slot)


def shown(point: OperatingPoint, element: str = NAME) -> float:
    """What the part does, as a share of what is nominal."""
    found = point.circuit.elements[element]
    assert found.kind.shows is not None
    return found.kind.shows(found.values, point.felt(element), point.circuit.context)
