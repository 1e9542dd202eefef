"""The solver against the printed answers of textbooks and handbooks (each example names its own).

Ideal sources become batteries of a millionth of an ohm, joints wires of a few tenths of a nano-ohm.
A back-EMF is given as a voltage in print, so a motor becomes a voltage behind its armature; the
law of our own motors is held to the same prints in test_electrics_motors. A Zener diode in print holds
its voltage at any current, so its law gets a width of 10 µV.
"""

from __future__ import annotations

from typing import Any

import pytest
from reference.worked_examples import EXAMPLES, Answer, Element, Example, half_a_unit

from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import set_up
from footwell.electrics.laying import Clip
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.battery import Battery
from footwell.parts.diode import Diode
from footwell.parts.lamp import Lamp
from footwell.parts.resistor import Resistor
from footwell.parts.zener import Breakdown

from .electrics_rig import EARTH, Part, circuit_of

IDEAL_OHMS = 1e-6
CURRENT_SOURCE_OHMS = 1e6
METER_OHMS = 1e7
"""From here on the leak of 10 GΩ would show: such circuits are solved in thousandths."""

ZENER_WIDTH_VOLTS = 1e-5
ANSWERS = [
    (example, answer)
    for example in EXAMPLES
    for answer in example.answers
    if not answer.is_misprint
]


def net(node: str) -> str:
    return EARTH if node == "0" else node


def kind_and_values(element: Element, scale: float) -> tuple[str, Any]:
    first, *rest = element.values
    if element.kind == "resistor":
        return "resistor", Resistor(first * scale)
    if element.kind == "source":
        return "battery", Battery(first, IDEAL_OHMS)
    if element.kind == "current":
        return "battery", Battery(first * CURRENT_SOURCE_OHMS, CURRENT_SOURCE_OHMS)
    if element.kind == "lamp":
        return "lamp", Lamp(first, rest[0])
    if element.kind == "motor":
        return "battery", Battery(rest[0], first)
    return "diode", Diode()


def part(element: Element, scale: float) -> Part:
    kind, values = kind_and_values(element, scale)
    first, second = ("1", "2") if kind in ("resistor", "lamp") else ("+", "-")
    return Part(element.name, kind, values, {first: net(element.a), second: net(element.b)})


def solved(example: Example) -> tuple[OperatingPoint, float]:
    """The operating point, and the scale its resistances were taken in."""
    most = max((x.values[0] for x in example.elements if x.kind == "resistor"), default=0.0)
    scale = 1e-3 if most >= METER_OHMS else 1.0
    parts = [part(element, scale) for element in example.elements if element.kind != "zener"]
    circuit = circuit_of(parts, joint_metres=1e-6, joint_mm2=120.0)
    clips = tuple(zener(circuit, example, x) for x in example.elements if x.kind == "zener")
    return operate(circuit, set_up(circuit), (), clips), scale


def zener(circuit: Circuit, example: Example, element: Element) -> Clip:
    """A Zener diode laid in between two nodes, cathode first."""
    ends = (circuit.node_of[point_of(example, node)] for node in (element.a, element.b))
    return Clip(*ends, Breakdown(element.values[0], ZENER_WIDTH_VOLTS))


def node_volts(point: OperatingPoint, example: Example, node: str) -> float:
    return point.volts[point.circuit.node_of[point_of(example, node)]]


def point_of(example: Example, node: str) -> str:
    """A terminal that lies on a node, or the body."""
    if node == "0":
        return EARTH
    element = next(x for x in example.elements if node in (x.a, x.b) and x.kind != "zener")
    end = 0 if element.a == node else 1
    terminals = ("1", "2") if element.kind in ("resistor", "lamp") else ("+", "-")
    return f"{element.name}.{terminals[end]}"


def amps(point: OperatingPoint, example: Example, element: Element) -> float:
    """Current from first node to second; of a source, the current that the others take from it."""
    if element.kind == "zener":
        law = Breakdown(element.values[0], ZENER_WIDTH_VOLTS)
        ends = (node_volts(point, example, node) for node in (element.a, element.b))
        return law.at(next(ends) - next(ends))[0]
    if element.kind != "source":
        return point.amps(element.name)
    others = [x for x in example.elements if x is not element and element.a in (x.a, x.b)]
    return sum(amps(point, example, x) * (1 if x.a == element.a else -1) for x in others)


def answered(example: Example, answer: Answer) -> float:
    point, scale = solved(example)
    if "," in answer.of:
        a, b = answer.of.split(",")
        return node_volts(point, example, a) - node_volts(point, example, b)
    element = next(x for x in example.elements if x.name == answer.of)
    volts = node_volts(point, example, element.a) - node_volts(point, example, element.b)
    current = amps(point, example, element) * scale
    by_quantity = {
        "volts": lambda: volts,
        "amps": lambda: current,
        "watts": lambda: volts * current,
        "ohms": lambda: volts / current,
    }
    return by_quantity[answer.quantity]()


@pytest.mark.parametrize(
    ("example", "answer"),
    ANSWERS,
    ids=[f"{e.name}: {a.quantity} of {a.of} [{e.source}]" for e, a in ANSWERS],
)
def test_solver_gives_the_printed_answer(example: Example, answer: Answer) -> None:
    allowed = half_a_unit(answer) * 1.0001
    assert answered(example, answer) == pytest.approx(answer.printed, abs=allowed, rel=0)


def test_every_example_goes_through_the_solver() -> None:
    asked = {example.name for example, _ in ANSWERS}
    only_misprints = {e.name for e in EXAMPLES if all(a.is_misprint for a in e.answers)}
    assert asked == {example.name for example in EXAMPLES} - only_misprints
    assert len(asked) >= 50 and len(ANSWERS) >= 148
