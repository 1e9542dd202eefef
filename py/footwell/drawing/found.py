"""Items for what was found otherwise than drawn: ways that hold a wire by mistake, loose wires.

The picture keeps the places of the sheet; a wire that was moved finds its new way beside the item
where the sheet has it.
"""

from __future__ import annotations

from footwell.circuit.circuit import Circuit
from footwell.drawing.items import LOOSE, WAY, Column, Ends, Item, Parts, Pin, Seat, seats


def strays(circuit: Circuit, drawn: Parts, ends: Ends) -> list[Item]:
    """One item for each way or loose end that holds a wire now and has no place in the drawing."""
    known = seats(drawn.items)
    landed: dict[str, dict[str, Seat]] = {}
    for wire, points in ends.items():
        for point, was in zip(points, drawn.ends[wire], strict=True):
            if point not in known:
                owner = contact_of(circuit, point) or point
                landed.setdefault(owner, {})[point] = known[was]
    return [_stray(circuit, owner, points) for owner, points in landed.items()]


def contact_of(circuit: Circuit, point: str) -> str:
    """The way ("X2.3") whose half a point is; "" for other points."""
    contact, _, half = point.rpartition(".")
    return contact if half in ("a", "b") and contact.split(".")[0] in circuit.connectors else ""


def _stray(circuit: Circuit, owner: str, points: dict[str, Seat]) -> Item:
    (first, seat), *rest = points.items()
    kind, connector = (WAY, owner.split(".")[0]) if contact_of(circuit, first) else (LOOSE, "")
    pins = [Pin(point, point[-1]) for point in (first, *(point for point, _ in rest))]
    other = pins[1] if rest else None
    column = Column(pins[0], other) if seat.top else Column(other, pins[0])
    return Item(owner, kind, (column,), connector, beside=seat.item)
