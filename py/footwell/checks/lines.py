"""Lines of electronics: which nodes hang on a sensor, an input, a bus or an output through metal.

The whole net counts, whatever the sheet's author wrote at the places on it. It ends at the rails:
what hangs on the body or on the battery through wires, contacts and fuses that nobody switches.
"""

from __future__ import annotations

from collections.abc import Iterable

from footwell.circuit.circuit import Circuit, Element

Nodes = frozenset[int]


def hazards_on(circuit: Circuit, nodes: Iterable[int]) -> set[str]:
    """Hazards ("sensor line", "module input", "data line") of the lines that some nodes lie on."""
    lines = _lines(circuit)
    return {hazard for node in nodes for hazard in lines.get(node, ())}


def hangs_on(circuit: Circuit, terminals: str) -> Nodes:
    """Nodes that hang on the terminals that electronics drive ("drives"), or take their supply by
    ("takes"), through metal, fuses and switches."""
    key = ("hangs on", terminals)
    if key not in circuit.cache:
        starts = _nodes_of(circuit, terminals)
        circuit.cache[key] = _grown(circuit, starts, frozenset()) - {circuit.earth}
    return circuit.cache[key]  # type: ignore[no-any-return]


DATA_LINE = "data line"


def on_both_lines(circuit: Circuit, red: str, black: str) -> bool:
    """Whether two places lie on the two lines of one data bus, one on each."""
    ends = frozenset(circuit.node_of.get(place, circuit.earth) for place in (red, black))
    key = ("on both lines", ends)
    if key not in circuit.cache:
        circuit.cache[key] = any(
            len(ends & one) == 1 and len(ends & other) == 1 and not one & other
            for one, other in _buses(circuit)
        )
    return circuit.cache[key]  # type: ignore[no-any-return]


def _buses(circuit: Circuit) -> list[tuple[Nodes, Nodes]]:
    """The nodes of both lines of each bus."""
    if "buses" not in circuit.cache:
        rails = _rails(circuit)
        rows = [
            tuple(_grown(circuit, {e.nodes[t]}, rails) - rails for t in ("H", "L"))
            for e in circuit.elements.values()
            if e.kind.line == DATA_LINE
        ]
        circuit.cache["buses"] = list(dict.fromkeys(rows))
    return circuit.cache["buses"]  # type: ignore[no-any-return]


def bus_fuses(circuit: Circuit) -> tuple[str, ...]:
    """Fuses through which the units of a data bus take their supply."""
    takers = {
        e.nodes[t]
        for e in circuit.elements.values()
        if e.kind.line == DATA_LINE
        for t in e.kind.takes
    }
    return tuple(
        sorted(
            e.id
            for e in circuit.elements.values()
            if e.kind.name == "fuse" and takers and feeds_electronics(circuit, e.id)
        )
    )


def feeds_electronics(circuit: Circuit, fuse: str) -> bool:
    """Whether electronics take their supply through a fuse: whether they hang on the end of it that the
    battery does not reach once the fuse is out."""
    battery, takers = circuit.supply_element.nodes["+"], _nodes_of(circuit, "takes")
    others = [e.ends for e in circuit.elements.values() if e.kind.metal and e.id != fuse]
    stop = frozenset((battery, circuit.earth))
    sides = [_spread(others, {node}, stop) for node in circuit.elements[fuse].ends]
    fed = [side for side in sides if battery not in side] or sides
    return any(side & takers for side in fed)


def unfused(circuit: Circuit) -> Nodes:
    """Nodes that the battery reaches through metal and switches without a fuse, a link or a breaker."""
    if "unfused" not in circuit.cache:
        battery = circuit.supply_element
        bare = [e.ends for e in circuit.elements.values() if e.kind.metal and e.kind.opens is None]
        stop = frozenset((circuit.earth, battery.nodes["-"]))
        circuit.cache["unfused"] = _spread(bare, {battery.nodes["+"]}, stop) - stop
    return circuit.cache["unfused"]  # type: ignore[no-any-return]


def _nodes_of(circuit: Circuit, terminals: str) -> set[int]:
    return {e.nodes[t] for e in circuit.elements.values() for t in getattr(e.kind, terminals)}


def _lines(circuit: Circuit) -> dict[int, list[str]]:
    if "lines" not in circuit.cache:
        found: dict[int, list[str]] = {}
        rails = _rails(circuit)
        for hazard, starts in _starts(circuit).items():
            for node in sorted(_grown(circuit, starts - rails, rails) - rails):
                found.setdefault(node, []).append(hazard)
        circuit.cache["lines"] = found
    return circuit.cache["lines"]  # type: ignore[no-any-return]


def _starts(circuit: Circuit) -> dict[str, set[int]]:
    """Nodes of the terminals that make a line, by its hazard."""
    found: dict[str, set[int]] = {}
    for element in circuit.elements.values():
        kind = element.kind
        if kind.line:
            own = {element.nodes[t] for t in _terminals(element) if t not in kind.takes}
            found.setdefault(kind.line, set()).update(own)
    return found


def _rails(circuit: Circuit) -> Nodes:
    """What hangs on the body or on the battery's posts without a switch between."""
    battery = circuit.supply_element
    fixed = [e for e in circuit.elements.values() if e.kind.metal and e.kind.positions is None]
    to_body = {
        e.nodes[b.a]
        for e in fixed
        for b in circuit.branches(e, e.rest)
        if e.nodes[b.b] == circuit.earth
    }
    starts = {circuit.earth, battery.nodes["+"], battery.nodes["-"], *to_body}
    return _spread([e.ends for e in fixed], starts, frozenset())


def _grown(circuit: Circuit, starts: set[int], stop: Nodes) -> Nodes:
    return _spread([e.ends for e in circuit.elements.values() if e.kind.metal], starts, stop)


def _spread(carriers: list[Nodes], starts: set[int], stop: Nodes) -> Nodes:
    reach, grown = set(starts), True
    while grown:
        grown = False
        for ends in carriers:
            if ends & (reach - stop) and not ends <= reach:
                reach |= ends
                grown = True
    return frozenset(reach)


def _terminals(element: Element) -> tuple[str, ...]:
    return element.kind.terminals(element.values)
