"""Where the way from a point to the supply or to earth is open, in the words of the trade.

Every way that the circuit offers is looked at: what passes current now, and what would if a fault,
a plug, a relay or a control were otherwise. The way taken is the one with the least against it, so
that a broken wire is named before another position of a switch.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Literal

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.places import wires_named
from footwell.circuit.shortest import shortest
from footwell.electrics.laying import is_apart
from footwell.electrics.network import Slot
from footwell.electrics.operating_point import OperatingPoint
from footwell.parts.base import Branch
from footwell.parts.laws import Open
from footwell.sheet.points import seen_point

UNPLUGGED = "is unplugged"

Side = Literal["supply", "earth"]

LEAST_AMPS = 2e-3
"""What would not pass this much at the vehicle's voltage passes nothing: far below any load, and more than
leaks through the diodes of a generator that stands (`reference.charging.REST_LEAK_AMPS`)."""

PASSES, BROKEN, BLOCKS, AT_REST, SWITCHED, LOAD = 1.0, 1e4, 1e6, 1e8, 1e10, 1e12
"""What is against an element on a way, each far above any number of those before it. A coil counts as a
load: what it lets pass moves a contact and feeds nothing else."""


@dataclass(frozen=True, slots=True)
class Break:
    """An element that lets no current pass: why, in words that end a sentence, and what sort of
    thing that is. `must_move` says that it passes current only once it has moved by itself."""

    element: str
    reason: str
    sort: float
    must_move: bool = False


@dataclass(frozen=True, slots=True)
class Pass:
    """From one node to another through an element, which may be open; `ohms` is the cost."""

    element: str
    start: int
    end: int
    ohms: float
    broken: Break | None


@dataclass(frozen=True, slots=True)
class Way:
    """A way to the supply or to earth, from the point that was asked about."""

    steps: tuple[Pass, ...]

    @property
    def breaks(self) -> tuple[Break, ...]:
        """What is open on it, the nearest first."""
        return tuple(step.broken for step in self.steps if step.broken)

    @property
    def cost(self) -> float:
        return sum(step.ohms for step in self.steps)


def way_to(
    point: OperatingPoint,
    node: int,
    side: Side,
    without: str = "",
    resting: Collection[str] = (),
    source: str = "",
) -> Way | None:
    """The way from a node to the supply, or over earth to the battery, with the least against it.

    None where the sheet has no such way. `without` is an element that the way must not go through:
    the load in question. Elements `resting` may be passed as they stand, but would not move.
    `source` is the battery meant, the one that feeds all where none is named.

    >>> from footwell.circuit.example import work_lamp
    >>> from footwell.circuit.setup import set_up
    >>> from footwell.electrics.operating_point import operate
    >>> circuit = work_lamp()
    >>> point = operate(circuit, set_up(circuit, {"S1": "off"}))
    >>> way = way_to(point, circuit.node_of["H1.1"], "supply")
    >>> [step.element for step in way.steps], [stop.reason for stop in way.breaks]
    (['W3', 'S1', 'W2', 'F1', 'W1'], ['switch S1 is open in “off”'])
    """
    battery = point.circuit.elements[source or point.circuit.supply_element.id].nodes
    plus, minus = battery["+"], battery["-"]
    barred = {point.circuit.earth, minus} if side == "supply" else {plus}
    if node in barred:
        return None
    goal = plus if side == "supply" else minus
    ways = _ways(point, side, tuple(resting))
    open_to = {
        n: [s for s in steps if s.element not in (without, source)] for n, steps in ways.items()
    }
    found = shortest(open_to, node, {goal}, barred)
    return None if found is None else Way(tuple(found))


def batteries(point: OperatingPoint, without: str) -> list[str]:
    """The battery that feeds all, and others that feed what hangs on them as well."""
    first = point.circuit.supply_element.id
    others = (e.id for e in point.circuit.elements.values() if e.kind.seen_as == "charge")
    return [first, *(e for e in others if e not in (first, without))]


def _ways(point: OperatingPoint, side: Side, resting: tuple[str, ...]) -> dict[int, list[Pass]]:
    """Every step that could be made, by the node it starts from; found once for a point."""
    key = ("ways", side, resting)
    if key not in point.cache:
        ways: dict[int, list[Pass]] = {}
        for step in _passes(point, side == "earth", resting):
            ways.setdefault(step.start, []).append(step)
        point.cache[key] = ways
    return point.cache[key]  # type: ignore[no-any-return]


def _passes(point: OperatingPoint, with_current: bool, resting: Collection[str]) -> Iterator[Pass]:
    """Every step that could be made, in the direction of the current or against it."""
    there = {(slot.element, slot.a, slot.b) for slot in point.slots}
    for slot in point.slots:
        if slot.element in point.circuit.elements and not _is_supply(point, slot.element):
            yield from _through(point, slot, with_current)
    for element in point.circuit.elements.values():
        if not _is_supply(point, element.id) and element.id not in resting:
            yield from _missing(point, element, there)


def _is_supply(point: OperatingPoint, element: str) -> bool:
    return element == point.circuit.supply_element.id


def _through(point: OperatingPoint, slot: Slot, with_current: bool) -> Iterator[Pass]:
    """A branch that is there, in the directions in which it passes current."""
    volts = point.circuit.context.system_volts
    forth = slot.branch.law.at(volts)[0] >= LEAST_AMPS
    back = slot.branch.law.at(-volts)[0] <= -LEAST_AMPS
    cost = LOAD if _uses(point.circuit, slot.element, slot.branch.name) else PASSES
    blocks = Break(slot.element, f"{name_of(point.circuit, slot.element)} blocks this way", BLOCKS)
    for start, end, free, reverse in ((slot.a, slot.b, forth, back), (slot.b, slot.a, back, forth)):
        open_here = free if with_current else reverse
        if open_here:
            yield Pass(slot.element, start, end, cost, None)
        elif forth or back:
            yield Pass(slot.element, start, end, BLOCKS, blocks)


def _missing(
    point: OperatingPoint, element: Element, there: set[tuple[str, int, int]]
) -> Iterator[Pass]:
    """The branches of an element that are open now and pass current in some state when it is sound."""
    for a, b, branch, states in _offers(point.circuit, element):
        if (element.id, a, b) not in there:
            why = _why(point, element, branch, states)
            cost = LOAD if _uses(point.circuit, element.id, branch) else why.sort
            yield Pass(element.id, a, b, cost, why)
            yield Pass(element.id, b, a, cost, why)


def _uses(circuit: Circuit, element: str, branch: str) -> bool:
    """Whether a branch uses up the current: a load's own, or the coil of what moves."""
    return element in circuit.sheet.loads or branch in {b.name for b in coils(circuit, element)}


def coils(circuit: Circuit, element: str) -> list[Branch]:
    """The windings of a relay or magnet: what it has in every state. None of any other element."""
    key = ("coils", element)
    if key not in circuit.cache:
        found = circuit.elements[element]
        states = found.kind.states(found.values) if found.kind.seen_as == "click" else ()
        rows = [
            {b.name: b for b in circuit.branches(found, state) if not isinstance(b.law, Open)}
            for state in states
        ]
        circuit.cache[key] = [
            b for b in (rows[0].values() if rows else ()) if all(b.name in row for row in rows)
        ]
    return circuit.cache[key]  # type: ignore[no-any-return]


Offer = tuple[int, int, str, list[str]]
"""Two nodes that a sound element joins, its branch between them, and the states in which it does."""


def _offers(circuit: Circuit, element: Element) -> list[Offer]:
    key = ("offers", element.id)
    if key not in circuit.cache:
        found: dict[tuple[int, int, str], list[str]] = {}
        for state in element.kind.states(element.values):
            for branch in circuit.branches(element, state):
                a, b = element.nodes[branch.a], element.nodes[branch.b]
                if a != b and not isinstance(branch.law, Open):
                    found.setdefault((a, b, branch.name), []).append(state)
        circuit.cache[key] = [(*ends, states) for ends, states in found.items()]
    return circuit.cache[key]  # type: ignore[no-any-return]


def _why(point: OperatingPoint, element: Element, branch: str, states: list[str]) -> Break:
    """Why a branch that passes current in some states is open now."""
    reason, sort = _reason(point, element, branch, states)
    must_move = element.kind.moves is not None and element.rest not in states
    unplugged = reason == UNPLUGGED
    name = point.circuit.connectors[element.id.split(".")[0]].name if unplugged else ""
    name = name or name_of(point.circuit, element.id)
    return Break(element.id, f"{name} {reason}", sort, must_move)


def _reason(
    point: OperatingPoint, element: Element, branch: str, states: list[str]
) -> tuple[str, float]:
    state = point.states[element.id]
    if element.id in point.setup.apart:
        return "is pulled out", BROKEN
    if is_apart(element, point.setup.apart):
        return UNPLUGGED, BROKEN
    if element.id in point.blown:
        return f"has {element.kind.opened}", BROKEN
    modes = [element.modes[f.mode] for f in point.faults if f.element == element.id]
    if modes and state in states:
        mode = next((m for m in modes if m.of in ("", branch)), modes[0])
        return f"is {mode.title}", BROKEN
    if element.kind.moves is not None:
        return f"stands {'at rest' if state == element.rest else state}", AT_REST
    return f"is open {_position(point.circuit, element, state)}", SWITCHED


def _position(circuit: Circuit, element: Element, state: str) -> str:
    control = next((c for c in circuit.sheet.controls if c.part == element.id), None)
    if control is None:
        return "in this state"
    return f"in “{next((p.name for p in control.positions if p.id == state), state)}”"


def wrong_seats(circuit: Circuit, drawn: Circuit, way: Way) -> Iterator[Break]:
    """Wires on a way of the circuit as drawn whose ends sit elsewhere in this one, nearest first."""
    wires = {wire.id: wire for wire in circuit.sheet.wires}
    for step in way.steps:
        wire = wires.get(step.element)
        if wire is None:
            continue
        nodes = circuit.elements[wire.id].nodes
        ends = [(wire.start, nodes["1"]), (wire.end, nodes["2"])]
        if drawn.node_of[wire.start] != step.start:
            ends.reverse()
        for seat, node in ends:
            if circuit.node_of[seat] != node:
                yield Break(wire.id, _seat(circuit, seat, wire.id), BROKEN)


def _seat(circuit: Circuit, seat: str, wire: str) -> str:
    connector, way, _ = seen_point(circuit.connectors, seat).split(".")
    where = f"way {way} of {circuit.connectors[connector].name}"
    there = circuit.wires_in.get(seat)
    if there is None:
        return f"{where} is empty"
    return f"{where} holds {wires_named(circuit, there)} where {wires_named(circuit, wire)} belongs"


def name_of(circuit: Circuit, element: str) -> str:
    """An element as a sentence names it: a wire with its colour, a part with its id, both once.

    Such as "wire W4 (GN/BK)", "way 3 of switch plug X2", "fan motor M1".
    """
    found = circuit.elements[element]
    if found.kind.name == "wire":
        colour = next(w.colour for w in circuit.sheet.wires if w.id == element)
        return f"wire {element} ({colour})" if colour else f"wire {element}"
    if found.kind.name == "contact" or element in found.name.split():
        return found.name
    return f"{found.name} {element}"
