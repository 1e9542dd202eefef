"""From left to right: items in the order of the loads, then as few crossings as swaps can reach."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from footwell.drawing.crossings import Freedom, untangled
from footwell.drawing.grid import Piece, Row, item_groups, passing
from footwell.drawing.items import Item
from footwell.drawing.rows import Link, below_of
from footwell.drawing.walks import all_below, as_met


def natural(
    items: Sequence[Item], found: Sequence[Link], loads: Sequence[str], battery: str
) -> list[Item]:
    """Items from left to right: the battery's own branch, then by the first load each serves.

    Those of one load stand as the current meets them.
    """
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
    """Rows of groups with few crossings, from the items' order; the first item stays first."""
    grid = item_groups(items, row)
    place = {item.id: n for n, item in enumerate(items)}
    lower = {piece.wire: piece.end.node[0] for piece in cut}
    for node in passing(cut):
        grid[node[1]].append((node,))
    for groups in grid:
        groups.sort(key=lambda g: place.get(g[0][0], place.get(lower.get(g[0][0], ""), 0)))
    every = {g for groups in grid for g in groups if place.get(g[0][0]) != 0}
    splices = {item.id for item in items if item.kind == "splice"}
    return untangled(grid, cut, Freedom(every, items[0].id, splices))


def kept(
    drawn: Sequence[Row], stray: Sequence[Item], row: Mapping[str, int], cut: Sequence[Piece]
) -> list[Row]:
    """The rows of the drawing with what was found: strays beside their items, wires anywhere."""
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
    return untangled(grid, cut, Freedom({(node,) for node in moved}))
