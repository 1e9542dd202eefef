"""What is to be drawn, before anything has a position: items with pins, and wires between pins.

An item is a part together with the ways of the plugs on it, or one way of a connector in the loom.
Its pins stand in columns; a column has at most one pin above and one below.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import zip_longest

from footwell.circuit.circuit import Circuit, Element
from footwell.drawing.heights import heights
from footwell.parts import KINDS
from footwell.parts.base import EARTH

BODY = "body"
"""Kind of the item at the end of a wire that goes to the body without an earth point."""

WAY = "way"
LOOSE = "loose"

FOLD = "fold"
"""Kind of the item that stands for a group of branches."""


@dataclass(frozen=True, slots=True)
class Pin:
    """A point where wires end: a way's half in front of a terminal, or the bare terminal itself."""

    point: str
    terminal: str
    contact: str = ""
    """The contact ("X2.3") between the point and the terminal, "" where there is none."""


@dataclass(frozen=True, slots=True)
class Column:
    top: Pin | None = None
    bottom: Pin | None = None


@dataclass(frozen=True, slots=True)
class Item:
    """`connector` is the one a way in the loom belongs to; `beside` an item to share a row with. A fold
    has words of its own and the elements inside it."""

    id: str
    kind: str
    columns: tuple[Column, ...]
    connector: str = ""
    beside: str = ""
    lines: tuple[str, ...] = ()
    name: str = ""
    folded: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a point is: item, column, and whether its wires come from above."""

    item: str
    column: int
    top: bool


Ends = Mapping[str, tuple[str, str]]
"""Wire to the two points it joins."""


@dataclass(frozen=True)
class Parts:
    """Everything that will be drawn of a circuit as its sheet has it."""

    items: tuple[Item, ...]
    ends: Ends
    level: Mapping[str, float]
    """Height by point, see `heights`."""
    bundles: frozenset[str] = frozenset()
    """Wires that run to a fold beside others, of which one is drawn for all."""


def seats(items: Iterable[Item]) -> dict[str, Seat]:
    """Where each point is."""
    found: dict[str, Seat] = {}
    for item in items:
        for n, column in enumerate(item.columns):
            for pin, top in ((column.top, True), (column.bottom, False)):
                if pin is not None:
                    found[pin.point] = Seat(item.id, n, top)
    return found


def wire_ends(circuit: Circuit) -> dict[str, tuple[str, str]]:
    """The points each wire joins; an end on the body gets a point of its own ("earth@W5")."""

    def point(wire: str, terminal: str) -> str:
        node = circuit.elements[wire].nodes[terminal]
        return f"{EARTH}@{wire}" if node == circuit.earth else circuit.points[node]

    return {w.id: (point(w.id, "1"), point(w.id, "2")) for w in circuit.sheet.wires}


def parts_of(circuit: Circuit) -> Parts:
    """Items and wires of a circuit in the order of its sheet."""
    ends = wire_ends(circuit)
    high = heights(circuit)
    level = {point: high[node] for point, node in circuit.node_of.items()}
    ends_on_body = [p for pair in ends.values() for p in pair if p.startswith(f"{EARTH}@")]
    level.update(dict.fromkeys(ends_on_body, 0.0))
    builder = _Builder(circuit, level, _inflow(ends, level))
    items = [*builder.parts(), *builder.ways(), *(body(point) for point in ends_on_body)]
    return Parts(tuple(items), ends, level)


def body(point: str) -> Item:
    """The body of the vehicle at the end of one wire."""
    return Item(point, BODY, (Column(top=Pin(point, "1")),))


def _inflow(ends: Ends, level: Mapping[str, float]) -> dict[str, float]:
    """What flows into each point through its wires, less what flows out."""
    flow: dict[str, float] = {}
    for one, other in ends.values():
        flow[one] = flow.get(one, 0.0) + level[other] - level[one]
        flow[other] = flow.get(other, 0.0) + level[one] - level[other]
    return flow


class _Builder:
    def __init__(
        self, circuit: Circuit, level: Mapping[str, float], inflow: Mapping[str, float]
    ) -> None:
        self.circuit = circuit
        self.level = level
        self.inflow = inflow
        self.plugs: dict[str, list[Pin]] = {}
        for connector in circuit.sheet.connectors:
            for way, terminal in connector.part_ways.items():
                contact = f"{connector.id}.{way}"
                pin = Pin(f"{contact}.a", terminal.split(".", 1)[1], contact)
                self.plugs.setdefault(terminal, []).append(pin)

    def parts(self) -> list[Item]:
        return [self._part(self.circuit.elements[p.id]) for p in self.circuit.sheet.parts]

    def _part(self, element: Element) -> Item:
        columns: list[Column] = []
        for pole in _poles(self.circuit, element):
            tops: list[Pin] = []
            bottoms: list[Pin] = []
            for n, terminal in enumerate(pole):
                for pin in self._pins(element.id, terminal):
                    (tops if self._is_top(element, pin, n == 0) else bottoms).append(pin)
            columns += [Column(top, bottom) for top, bottom in zip_longest(tops, bottoms)]
        return Item(element.id, element.kind.name, tuple(columns) or (Column(),))

    def _pins(self, part: str, terminal: str) -> list[Pin]:
        point = f"{part}.{terminal}"
        direct = [Pin(point, terminal)] if point in self.inflow else []
        return direct + self.plugs.get(point, [])

    def _is_top(self, element: Element, pin: Pin, first: bool) -> bool:
        """Current enters at the top. The battery, which drives it, stands the other way round."""
        if element is self.circuit.supply_element:
            return pin.terminal == "+"
        flow = round(self.inflow.get(pin.point, 0.0), 9)
        return flow > 0 if flow else first

    def ways(self) -> list[Item]:
        """Ways of connectors in the loom, and ways of a part's plug that hold a spare wire."""
        found: list[Item] = []
        for connector in self.circuit.sheet.connectors:
            for way in (way for row in connector.rows for way in row):
                halves = [f"{connector.id}.{way}.{side}" for side in ("a", "b")]
                drawn = [half for half in halves if half in self.circuit.wires_in]
                if drawn and way not in connector.part_ways:
                    found.append(self._way(f"{connector.id}.{way}", halves, connector.id))
        return found

    def _way(self, contact: str, halves: list[str], connector: str) -> Item:
        a, b = (Pin(half, half[-1]) for half in halves)
        down = self.inflow.get(halves[0], 0.0) > 0 or self.inflow.get(halves[1], 0.0) < 0
        return Item(contact, WAY, (Column(a, b) if down else Column(b, a),), connector)


def _poles(circuit: Circuit, element: Element) -> list[list[str]]:
    """Terminals in groups that the part joins inside, in the order of its kind."""
    terminals = KINDS[element.kind.name].terminals(element.values)
    state = element.kind.states(element.values)[0]
    poles = [[terminal] for terminal in terminals]
    for branch in circuit.branches(element, state):
        one, other = (next((p for p in poles if t in p), None) for t in (branch.a, branch.b))
        if one is not None and other is not None and one is not other:
            poles.remove(other)
            one += other
    order = {terminal: n for n, terminal in enumerate(terminals)}
    poles = [sorted(pole, key=order.__getitem__) for pole in poles]
    first = [branch.a for branch in circuit.branches(element, state)]
    met = {terminal: first.index(terminal) for terminal in first}
    return sorted(poles, key=lambda pole: min(met.get(t, len(first)) for t in pole))
