"""From left to right: items in the order of the loads, then as few crossings as swaps can reach."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set

from footwell.drawing.grid import Group, Node, Piece, Row, Tip, item_groups, passing
from footwell.drawing.items import Item
from footwell.drawing.rows import Link, below_of
from footwell.drawing.walks import all_below, as_met

PASSES = 8
"""Rounds of moving groups; sheets of the library settle within three."""


def natural(
    items: Sequence[Item], found: Sequence[Link], loads: Sequence[str], battery: str
) -> list[Item]:
    """Items from left to right: the battery's own branch, then by the first load each serves, then as
    the current meets them."""
    down = below_of(found)
    rank = _ranks(items, found, loads, battery)
    met = {item: n for n, item in enumerate(as_met([battery, *(i.id for i in items)], down))}
    return sorted(items, key=lambda item: (rank[item.id], met[item.id]))


def _ranks(
    items: Sequence[Item], found: Sequence[Link], loads: Sequence[str], battery: str
) -> dict[str, int]:
    """Number of the first load that an item serves or hangs below; -1 in the battery's own branch.

    An item on the way to no load stands with what feeds it.
    """
    down, up = below_of(found), below_of([(b, a, n) for a, b, n in found])
    rank = {battery: -1}
    for n, load in enumerate(loads):
        for item in (load, *all_below(up, load), *all_below(down, load)):
            rank.setdefault(item, n)
    for upper, lower, least in found:
        if upper == battery and least:
            for item in (lower, *all_below(down, lower)):
                rank.setdefault(item, -1)
    for item in [item.id for item in items if item.id not in rank]:
        above = [rank[a] for a in all_below(up, item) if a in rank and a != battery]
        rank[item] = max(above, default=len(loads))
    return rank


def ordered(items: Sequence[Item], row: Mapping[str, int], cut: Sequence[Piece]) -> list[Row]:
    """Rows of groups with few crossings, starting from the items' order; the first item stays first."""
    grid = item_groups(items, row)
    place = {item.id: n for n, item in enumerate(items)}
    lower = {piece.wire: piece.end.node[0] for piece in cut}
    for node in passing(cut):
        grid[node[1]].append((node,))
    for groups in grid:
        groups.sort(key=lambda g: place.get(g[0][0], place.get(lower.get(g[0][0], ""), 0)))
    return untangled(grid, cut, {g for groups in grid for g in groups if place.get(g[0][0]) != 0})


def kept(
    drawn: Sequence[Row], stray: Sequence[Item], row: Mapping[str, int], cut: Sequence[Piece]
) -> list[Row]:
    """The rows of the drawing with what was found let in: strays beside their items, wires anywhere."""
    through = passing(cut)
    own = {g for groups in drawn for g in groups}
    passed = {(node,) for node in through}
    is_wire = {piece.wire for piece in cut}
    grid = [[g for g in groups if g[0][0] not in is_wire or g in passed] for groups in drawn]
    for item in stray:
        groups = grid[row[item.id]]
        n = next(n for n, g in enumerate(groups) if g[0][0] == item.beside)
        groups.insert(n + 1, tuple((item.id, c) for c in range(len(item.columns))))
    moved = [node for node in through if (node,) not in own]
    for node in moved:
        grid[node[1]].append((node,))
    return untangled(grid, cut, {(node,) for node in moved})


def untangled(grid: list[Row], cut: Sequence[Piece], free: Set[Group]) -> list[Row]:
    """Move the free groups as long as crossings fall."""
    channels: list[list[Piece]] = [[] for _ in range(len(grid) + 1)]
    for piece in cut:
        channels[piece.channel].append(piece)
    loose = {frozenset(group) for group in free}
    for _ in range(PASSES):
        moved = [_improve(grid, channels, r, loose) for r in range(len(grid))]
        if not any(moved):
            break
    return grid


def _improve(
    grid: list[Row], channels: Sequence[Sequence[Piece]], r: int, free: Set[frozenset[Node]]
) -> bool:
    """Move or turn single groups of one row as long as crossings fall."""
    moved = False
    for group in [g for g in grid[r] if frozenset(g) in free]:
        best = grid[r]
        least = _crossings(grid, channels, r)
        for other in _moves(best, group):
            grid[r] = other
            crossings = _crossings(grid, channels, r)
            if crossings < least:
                best, least, moved = other, crossings, True
        grid[r] = best
    return moved


def _moves(row: Row, group: Group) -> list[Row]:
    """The row with the group at every place, nearest first, as it is and turned round."""
    rest = [g for g in row if g != group]
    here = row.index(group)
    spots = sorted(range(len(rest) + 1), key=lambda n: (abs(n - here), n))
    faces = [group] if len(group) == 1 else [group, group[::-1]]
    return [[*rest[:n], face, *rest[n:]] for n in spots for face in faces]


def _crossings(grid: Sequence[Row], channels: Sequence[Sequence[Piece]], r: int) -> int:
    return _crossed(grid, channels[r], r) + _crossed(grid, channels[r + 1], r + 1)


def _crossed(grid: Sequence[Row], found: Sequence[Piece], channel: int) -> int:
    """How often pieces of wire cross in a channel, those that meet at a pin left out."""
    above = _places(grid[channel - 1]) if channel else {}
    below = _places(grid[channel]) if channel < len(grid) else {}

    def end(tip: Tip) -> tuple[int, bool]:
        return (above if tip.above else below)[tip.node], tip.above

    spans = [(end(piece.start), end(piece.end)) for piece in found]
    return sum(_cross(a, b) for n, a in enumerate(spans) for b in spans[:n])


Span = tuple[tuple[int, bool], tuple[int, bool]]
"""Place and edge of both ends of a piece."""


def _cross(a: Span, b: Span) -> bool:
    if _is_flat(a) or _is_flat(b):
        return _straddles(a, b) or _straddles(b, a)
    (a_low, _), (a_high, _) = sorted(a, key=lambda end: end[1])
    (b_low, _), (b_high, _) = sorted(b, key=lambda end: end[1])
    return (a_low - b_low) * (a_high - b_high) < 0


def _is_flat(span: Span) -> bool:
    return span[0][1] == span[1][1]


def _straddles(flat: Span, other: Span) -> bool:
    """Whether exactly one end of `other` starts between the two ends of a flat piece, on its edge."""
    low, high = sorted(place for place, _ in flat)
    edge = flat[0][1]
    return _is_flat(flat) and sum(e == edge and low < n < high for n, e in other) == 1


def _places(row: Row) -> dict[Node, int]:
    return {node: n for n, node in enumerate(node for group in row for node in group)}
