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
                owner = point if point.endswith(f".{LOOSE}") else point.rsplit(".", 1)[0]
                landed.setdefault(owner, {})[point] = known[was]
    return [_stray(circuit, owner, points) for owner, points in landed.items()]


def _stray(circuit: Circuit, owner: str, points: dict[str, Seat]) -> Item:
    connector = owner.split(".")[0]
    kind, connector = (WAY, connector) if connector in circuit.connectors else (LOOSE, "")
    (first, seat), *rest = points.items()
    pins = [Pin(point, point[-1]) for point in (first, *(point for point, _ in rest))]
    other = pins[1] if rest else None
    column = Column(pins[0], other) if seat.top else Column(other, pins[0])
    return Item(owner, kind, (column,), connector, beside=seat.item)
