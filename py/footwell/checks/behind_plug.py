"""Ohms into an unplugged half: what hangs on the plug there, several parts with the wires between them, by
itself and in one measurement (common practice, no source)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

from footwell.checks.check import OHMS, Check
from footwell.circuit.circuit import Circuit, Element, by_the_sheet
from footwell.circuit.setup import SetupState, set_up, taken_apart
from footwell.electrics.operating_point import operate
from footwell.sheet.models import SheetConnector

Hanging = tuple[frozenset[int], frozenset[str]]
"""Nodes that hang together, and the elements between them."""

NOTHING: Hanging = (frozenset(), frozenset())


def behind_plug(circuit: Circuit, check: Check) -> frozenset[str]:
    """The elements that an ohms check between two ways of one half of an unplugged connector takes in. Empty
    for any other check: also where both ways lead to one part, which is measured alone, or where what hangs
    there has another way to earth or to a supply, or would take harm."""
    if check.instrument != OHMS or not _on_one_half(circuit, check):
        return frozenset()
    drawn = by_the_sheet(circuit)
    key = ("behind plug", check.red, check.black, check.setup)
    if key not in drawn.cache:
        nodes, elements = _hanging(drawn, check.red, check.setup)
        drawn.cache[key] = elements if drawn.node_of[check.black] in nodes else frozenset()
    return drawn.cache[key]  # type: ignore[no-any-return]


def into_plugs(circuit: Circuit) -> Iterator[Check]:
    """Such a check for every two ways that something joins, in the first positions in which it does."""
    for connector in circuit.sheet.connectors:
        tried = set[tuple[str, str]]()
        for setup in _positions_behind(circuit, connector) if connector.unplugs else ():
            for red, black in _ways_in_pairs(circuit, connector):
                check = Check(OHMS, red, black, setup)
                if (red, black) not in tried and behind_plug(circuit, check):
                    tried.add((red, black))
                    yield check


def _on_one_half(circuit: Circuit, check: Check) -> bool:
    """Whether both probes lie on ways of one half of an unplugged connector, and not on one part's own."""
    ends = [point.split(".") for point in (check.red, check.black)]
    if any(len(end) != 3 or end[0] not in check.setup.apart for end in ends):
        return False
    (name, red, half), (other, black, other_half) = ends
    if (name, half) != (other, other_half) or name not in circuit.connectors:
        return False
    parts = [circuit.connectors[name].part_ways.get(way, "").split(".")[0] for way in (red, black)]
    return half == "a" or not parts[0] or parts[0] != parts[1]


def _ways_in_pairs(circuit: Circuit, connector: SheetConnector) -> Iterator[tuple[str, str]]:
    for half in "ab":
        ways = [f"{connector.id}.{way}.{half}" for row in connector.rows for way in row]
        yield from combinations([way for way in ways if way in circuit.node_of], 2)


def _positions_behind(circuit: Circuit, connector: SheetConnector) -> Iterator[SetupState]:
    """Everything at rest, then each control that hangs on the plug in each of its positions."""
    rest = taken_apart(set_up(circuit), (connector.id,))
    yield rest
    ways = {way for pair in _ways_in_pairs(circuit, connector) for way in pair}
    near = {element for way in ways for element in _hanging(circuit, way, rest, True)[1]}
    for control in circuit.sheet.controls:
        for position in control.positions if control.part in near else ():
            setup = set_up(circuit, {control.part: position.id})
            yield taken_apart(setup, (connector.id,))


def _hanging(circuit: Circuit, point: str, setup: SetupState, over_gaps: bool = False) -> Hanging:
    """What hangs on a place; also beyond switches that are open, if so asked. Nothing where that has another
    way out, or holds a part that ohms do harm or tell nothing of."""
    key = ("hanging", setup, over_gaps)
    if key not in circuit.cache:
        circuit.cache[key] = _joined(circuit, setup, over_gaps)
    joined: Mapping[int, set[tuple[int, str]]] = circuit.cache[key]
    start = circuit.node_of[point]
    nodes, elements, waiting = {start}, set[str](), [start]
    while waiting:
        for node, element in joined.get(waiting.pop(), ()):
            if node == circuit.earth or not _may_be_measured(circuit.elements[element]):
                return NOTHING
            elements.add(element)
            if node not in nodes:
                nodes.add(node)
                waiting.append(node)
    return frozenset(nodes), frozenset(elements)


def _joined(
    circuit: Circuit, setup: SetupState, over_gaps: bool
) -> Mapping[int, set[tuple[int, str]]]:
    """Node to those beside it, each with the element between."""
    ends = [(s.element, s.a, s.b) for s in operate(circuit, setup).slots]
    for control in circuit.sheet.controls if over_gaps else ():
        nodes = circuit.elements[control.part].ends
        ends += [(control.part, *pair) for pair in combinations(nodes, 2)]
    found: dict[int, set[tuple[int, str]]] = {}
    for name, a, b in ends:
        for one, other in ((a, b), (b, a)):
            found.setdefault(one, set()).add((other, name))
    return found


def _may_be_measured(element: Element) -> bool:
    return element.kind.metal or element.kind.measured_alone
