"""The plan of a drawing: what stands where on the grid, before it has sizes.

Rows and their order come from the sheet as drawn, so that a picture of a circuit found otherwise
keeps its places; only the wires run as they were found.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from footwell.circuit.circuit import AS_DRAWN, Circuit, build
from footwell.drawing.folding import Asked, folded
from footwell.drawing.found import strays
from footwell.drawing.grid import Piece, Row, pieces
from footwell.drawing.items import Ends, Item, Parts, Seat, parts_of, seats, wire_ends
from footwell.drawing.lanes import Lanes, lanes
from footwell.drawing.order import kept, natural, ordered
from footwell.drawing.rows import links, rows, with_strays
from footwell.drawing.tracks import Channel, channels


@dataclass(frozen=True)
class Plan:
    items: Mapping[str, Item]
    ends: Ends
    seats: Mapping[str, Seat]
    row: Mapping[str, int]
    grid: Sequence[Row]
    lanes: Lanes
    cut: Sequence[Piece]
    channels: Sequence[Channel]
    bundles: frozenset[str] = frozenset()

    def lanes_of(self, item: str) -> list[int]:
        """The lanes of an item's columns from left to right."""
        return sorted(self.lanes.of[item, n] for n in range(len(self.items[item].columns)))


def plan(circuit: Circuit, asked: Asked | None = None) -> Plan:
    """The plan of a circuit as it was found; only one that is wired as drawn is folded."""
    if circuit.arrangement == AS_DRAWN:
        return _as_drawn(circuit, folded(circuit, parts_of(circuit), asked))
    drawn = build(circuit.sheet, circuit.values)
    parts = parts_of(drawn)
    return _as_found(circuit, parts, _as_drawn(drawn, parts))


def _as_drawn(circuit: Circuit, parts: Parts) -> Plan:
    found = links(parts)
    inside = {element: item.id for item in parts.items for element in item.folded}
    loads = list(dict.fromkeys(inside.get(load, load) for load in circuit.sheet.loads))
    items = natural(parts.items, found, loads, circuit.supply_element.id)
    row = rows(parts.items, found)
    cut = pieces(parts.ends, seats(items), row)
    grid = ordered(items, row, cut)
    return _plan(items, parts.ends, row, cut, grid, lanes(grid, cut), parts.bundles)


def _as_found(circuit: Circuit, parts: Parts, drawn: Plan) -> Plan:
    ends = wire_ends(circuit)
    stray = strays(circuit, parts, ends)
    items = [*drawn.items.values(), *stray]
    row = with_strays(drawn.row, stray)
    cut = pieces(ends, seats(items), row)
    grid = kept(drawn.grid, stray, row, cut)
    return _plan(items, ends, row, cut, grid, lanes(grid, cut, drawn.lanes))


def _plan(
    items: Sequence[Item],
    ends: Ends,
    row: Mapping[str, int],
    cut: Sequence[Piece],
    grid: Sequence[Row],
    lane: Lanes,
    bundles: frozenset[str] = frozenset(),
) -> Plan:
    tracks = channels(len(grid) + 1, cut, lane.of)
    named = {item.id: item for item in items}
    return Plan(named, ends, seats(items), row, grid, lane, cut, tracks, bundles)
