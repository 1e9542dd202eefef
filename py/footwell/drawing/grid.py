"""The grid: what stands in each row from left to right, and the pieces of wire between the rows.

A node is one column of an item or a wire that passes through a row. Rows are parted by channels:
channel r lies above row r, the last channel below the last row.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from footwell.drawing.items import Ends, Item, Seat

Node = tuple[str, int]
"""(item, column), or (wire, row) where a wire passes."""

Group = tuple[Node, ...]
"""Nodes that stay side by side: the columns of one item, or a single passing wire."""

Row = list[Group]


@dataclass(frozen=True, slots=True)
class Tip:
    """An end of a piece of wire in a channel: `above` when its node is in the row above."""

    node: Node
    above: bool


@dataclass(frozen=True, slots=True)
class Piece:
    """The part of a wire that lies in one channel."""

    wire: str
    channel: int
    start: Tip
    end: Tip


def pieces(ends: Ends, at: Mapping[str, Seat], row: Mapping[str, int]) -> list[Piece]:
    """Every wire cut into its pieces, from the higher end down."""
    return [
        piece
        for wire, (one, other) in ends.items()
        for piece in _cut(wire, at[one], at[other], row)
    ]


def _cut(wire: str, one: Seat, other: Seat, row: Mapping[str, int]) -> list[Piece]:
    upper, lower = sorted((one, other), key=lambda seat: _channel(seat, row))
    first, last = _channel(upper, row), _channel(lower, row)
    tips = [Tip((upper.item, upper.column), not upper.top)]
    for passed in range(first, last):
        tips += [Tip((wire, passed), False), Tip((wire, passed), True)]
    tips.append(Tip((lower.item, lower.column), not lower.top))
    return [Piece(wire, first + n, *tips[2 * n : 2 * n + 2]) for n in range(last - first + 1)]


def _channel(seat: Seat, row: Mapping[str, int]) -> int:
    return row[seat.item] if seat.top else row[seat.item] + 1


def item_groups(items: Sequence[Item], row: Mapping[str, int]) -> list[Row]:
    """The items by row, in the order given."""
    grid: list[Row] = [[] for _ in range(max(row.values(), default=0) + 1)]
    for item in items:
        grid[row[item.id]].append(tuple((item.id, n) for n in range(len(item.columns))))
    return grid


def passing(found: Sequence[Piece]) -> list[Node]:
    """The nodes where wires pass through rows."""
    return [piece.end.node for piece in found if piece.end.node == (piece.wire, piece.channel)]
