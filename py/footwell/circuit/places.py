"""Places: where a probe can be laid, by permanent id, with words, minutes and cautions.

A place is a half of a connector's way ("X2.3.a": back-probed at the wire while plugged, its metal when
unplugged), a bare terminal of a part ("F1.2"), or "earth": clean metal of the body.
"""

from __future__ import annotations

from dataclasses import dataclass

from footwell.circuit.circuit import Circuit
from footwell.parts.base import EARTH
from footwell.sheet.points import number, seen_point


@dataclass(frozen=True, slots=True)
class Place:
    """`owner` is the connector or part; `plugged` says it can be reached without unplugging."""

    id: str
    owner: str
    node: int
    name: str
    minutes: float
    plugged: bool
    hazards: tuple[str, ...]


def places(circuit: Circuit) -> dict[str, Place]:
    """Every place of the circuit by id, in the order of the sheet."""
    if "places" not in circuit.cache:
        rows = [*_terminal_places(circuit), *_way_places(circuit)]
        circuit.cache["places"] = {place.id: place for place in rows} | {EARTH: _body(circuit)}
    return circuit.cache["places"]  # type: ignore[no-any-return]


def _body(circuit: Circuit) -> Place:
    return Place(EARTH, EARTH, circuit.earth, "clean metal of the body", 0.0, True, ())


def _terminal_places(circuit: Circuit) -> list[Place]:
    return [
        Place(
            f"{part.id}.{terminal}",
            part.id,
            circuit.node_of[f"{part.id}.{terminal}"],
            terminal_named(circuit, part.id, terminal),
            part.minutes or 2.0,
            True,
            tuple(part.hazards),
        )
        for part in circuit.sheet.parts
        for terminal in part.probe
    ]


def terminal_named(circuit: Circuit, owner: str, terminal: str) -> str:
    """A part's terminal in words; the joints of a splice have no numbers, but wires."""
    part = next(p for p in circuit.sheet.parts if p.id == owner)
    name, point = named(part.name, part.id), f"{part.id}.{terminal}"
    wire = next((w for w in circuit.sheet.wires if point in (w.start, w.end)), None)
    if part.kind != "splice" or wire is None:
        return f"terminal {terminal} of {name}"
    return f"wire {wire.id}{f' ({wire.colour})' if wire.colour else ''} at {name}"


def _way_places(circuit: Circuit) -> list[Place]:
    found: list[Place] = []
    for c in circuit.sheet.connectors:
        for way in (way for row in c.rows for way in row):
            for side, half in (("a", c.half_a), ("b", c.half_b)):
                point = f"{c.id}.{way}.{side}"
                wired = point in circuit.wires_in
                if wired or (side == "b" and way in c.part_ways):
                    name = f"way {number(c, way)}{_colour(circuit, point)} of {c.name}, {half}"
                    hazards = tuple(c.hazards)
                    found.append(
                        Place(point, c.id, circuit.node_of[point], name, c.minutes, wired, hazards)
                    )
    return found


def _colour(circuit: Circuit, point: str) -> str:
    colours = [w.colour for w in wires_at(circuit, point) if w.colour]
    return f" ({', '.join(dict.fromkeys(colours))})" if colours else ""


def wires_at(circuit: Circuit, point: str) -> list:  # type: ignore[type-arg]
    """The sheet's wires that sit in a way half."""
    ids = circuit.wires_in.get(point, "").split("+")
    return [w for w in circuit.sheet.wires if w.id in ids]


def named(name: str, identifier: str) -> str:
    """A part's name with its id, once."""
    return name if identifier in name.split() else f"{name} {identifier}"


def wires_named(circuit: Circuit, wires: str) -> str:
    """A wire, or wires crimped together, in words: colour first, id where the colour is not known."""
    ids = wires.split("+")
    by_id = {w.id: w for w in circuit.sheet.wires}
    return " + ".join(by_id[i].colour or f"wire {i}" if i in by_id else i for i in ids)


def element_named(circuit: Circuit, element: str) -> str:
    """A part, wire or contact in words, with colour and ends for a wire."""
    found = circuit.elements[element]
    if found.kind.name == "wire":
        wire = next(w for w in circuit.sheet.wires if w.id == element)
        ends = f"{_owner(circuit, wire.start)} to {_owner(circuit, wire.end)}"
        return f"wire {wire.colour or element} from {ends}"
    if found.kind.name == "contact":
        return found.name
    return named(found.name, element)


def _owner(circuit: Circuit, point: str) -> str:
    pieces = seen_point(circuit.connectors, point).split(".")
    return f"{pieces[0]} way {pieces[1]}" if len(pieces) == 3 else pieces[0]
