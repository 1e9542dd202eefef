"""How often wires cross between the rows, and fewer crossings by moving groups along their rows."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence, Set
from dataclasses import dataclass
from itertools import combinations

from footwell.drawing.grid import Group, Node, Piece, Row, Tip

PASSES = 8
"""Rounds of moving groups; the sample sheets settle within two."""

Cut = Sequence[Sequence[Piece]]
"""Pieces of wire by channel."""


@dataclass(frozen=True)
class Freedom:
    """Which groups may move, which one stays leftmost, and whose columns may stand in any order."""

    groups: Set[Group]
    first: str = ""
    loose: Set[str] = frozenset()

    def moves(self, row: Row, group: Group) -> Iterator[Row]:
        """The row with the group at every place, nearest first."""
        rest = [g for g in row if g != group]
        here = row.index(group)
        left = 1 if rest and rest[0][0][0] == self.first else 0
        for n in sorted(range(left, len(rest) + 1), key=lambda n: (abs(n - here), n)):
            yield [*rest[:n], group, *rest[n:]]

    def turns(self, row: Row, group: Group) -> Iterator[Row]:
        """The row with the group turned round, or with two neighbouring columns exchanged."""
        here = row.index(group)
        faces = [group[::-1]] if len(group) > 1 else []
        if group[0][0] in self.loose:
            swaps = range(len(group) - 1)
            faces += [(*group[:n], group[n + 1], group[n], *group[n + 2 :]) for n in swaps]
        for face in faces:
            yield [*row[:here], face, *row[here + 1 :]]


Change = Callable[[Row, Group], Iterator[Row]]


def untangled(grid: list[Row], cut: Sequence[Piece], free: Freedom) -> list[Row]:
    """Turn free groups, then move and turn them, as long as crossings fall.

    Turning comes first because it leaves the parts in the order of the loads.
    """
    channels: list[list[Piece]] = [[] for _ in range(len(grid) + 1)]
    for piece in cut:
        channels[piece.channel].append(piece)
    movable = {frozenset(group) for group in free.groups}
    for changes in ([free.turns], [free.moves, free.turns]):
        for _ in range(PASSES):
            tried = [
                _improve(grid, channels, r, movable, change)
                for change in changes
                for r in range(len(grid))
            ]
            if not any(tried):
                break
    return grid


def _improve(
    grid: list[Row], channels: Cut, r: int, movable: Set[frozenset[Node]], change: Change
) -> bool:
    """Change single groups of one row as long as crossings fall."""
    improved = False
    least = _about(grid, channels, r)
    for group in [g for g in grid[r] if frozenset(g) in movable]:
        best = grid[r]
        for other in change(best, group) if least else ():
            grid[r] = other
            crossings = _about(grid, channels, r)
            if crossings < least:
                best, least, improved = other, crossings, True
        grid[r] = best
    return improved


def _about(grid: Sequence[Row], channels: Cut, r: int) -> int:
    """Crossings above and below a row."""
    return crossings(grid, channels[r], r) + crossings(grid, channels[r + 1], r + 1)


Span = tuple[int, bool, int, bool]
"""Place and edge of both ends of a piece, an end on the lower edge first."""


def crossings(grid: Sequence[Row], found: Sequence[Piece], channel: int) -> int:
    """How often pieces of wire cross in a channel, those that meet at a pin left out."""
    above = _places(grid[channel - 1]) if channel else {}
    below = _places(grid[channel]) if channel < len(grid) else {}

    def span(piece: Piece) -> Span:
        def end(tip: Tip) -> tuple[int, bool]:
            return (above if tip.above else below)[tip.node], tip.above

        low, high = sorted((end(piece.start), end(piece.end)), key=lambda e: e[1])
        return (*low, *high)

    return sum(_cross(a, b) for a, b in combinations([span(piece) for piece in found], 2))


def _places(row: Row) -> dict[Node, int]:
    return {node: n for n, node in enumerate(node for group in row for node in group)}


def _cross(a: Span, b: Span) -> bool:
    if a[1] != a[3] and b[1] != b[3]:
        return (a[0] - b[0]) * (a[2] - b[2]) < 0
    return _straddles(a, b) or _straddles(b, a)


def _straddles(flat: Span, other: Span) -> bool:
    """Whether exactly one end of `other` lies between both ends of a flat piece, on its edge."""
    one, edge, two, edge_too = flat
    low, high = (one, two) if one < two else (two, one)
    first = other[1] == edge and low < other[0] < high
    second = other[3] == edge and low < other[2] < high
    return edge == edge_too and first != second
