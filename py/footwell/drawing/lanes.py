"""In which lane each node stands, so that as many wires as can be run straight down.

Nodes joined by a straight wire form a block and share a lane. A wire is made straight when the
order of the rows allows it; blocks are then pushed left, and drawn right to what they belong to.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median_low

from footwell.drawing.blocks import Blocks
from footwell.drawing.grid import Node, Piece, Row


@dataclass(frozen=True)
class Lanes:
    """Lane by node, from 0, rising from left to right in each row; the block of each node."""

    of: Mapping[Node, int]
    blocks: Mapping[Node, Node]

    @property
    def count(self) -> int:
        return max(self.of.values(), default=-1) + 1


def lanes(grid: Sequence[Row], cut: Sequence[Piece], drawn: Lanes | None = None) -> Lanes:
    """Lanes for a grid; what shares a lane in `drawn` goes on sharing one."""
    blocks = Blocks(grid)
    if drawn is not None:
        blocks.keep(drawn.blocks)
    _straighten(blocks, cut)
    lane = _pushed_left(blocks)
    _drawn_right(blocks, lane, _ties(grid, cut, blocks))
    return Lanes({node: lane[blocks.of[node]] for node in blocks.of}, dict(blocks.of))


def _straighten(blocks: Blocks, cut: Sequence[Piece]) -> None:
    """Join the ends of pieces, one piece a pin, as far as the order of the rows allows."""
    straight: set[tuple[Node, bool]] = set()
    for piece in sorted(cut, key=_ease):
        if piece.start.above != piece.end.above:
            tips = {(piece.start.node, piece.start.above), (piece.end.node, piece.end.above)}
            if not tips & straight and blocks.join(piece.start.node, piece.end.node):
                straight |= tips


def _ease(piece: Piece) -> int:
    """Long wires first: a bend in the middle of one is the worst."""
    return -sum(tip.node[0] == piece.wire for tip in (piece.start, piece.end))


def _pushed_left(blocks: Blocks) -> dict[Node, int]:
    order = blocks.from_the_left()
    lane = dict.fromkeys(order, 0)
    for block in order:
        for follower in blocks.right[block]:
            lane[follower] = max(lane[follower], lane[block] + 1)
    return lane


def _ties(grid: Sequence[Row], cut: Sequence[Piece], blocks: Blocks) -> list[tuple[Node, Node]]:
    """Pairs of blocks that would rather be near: ends of a bent wire, columns of one item."""
    pairs = [(piece.start.node, piece.end.node) for piece in cut]
    pairs += [pair for row in grid for g in row for pair in pairwise(g)]
    tied = [(blocks.of[one], blocks.of[other]) for one, other in pairs]
    return [(a, b) for a, b in tied if a != b]


def _drawn_right(blocks: Blocks, lane: dict[Node, int], ties: Sequence[tuple[Node, Node]]) -> None:
    """Move each block, the rightmost first, towards the middle of what it is tied to."""
    for block in reversed(blocks.from_the_left()):
        room = min((lane[f] - 1 for f in blocks.right[block]), default=max(lane.values()))
        wishes = [lane[b] for a, b in ties if a == block] + [lane[a] for a, b in ties if b == block]
        if wishes:
            lane[block] = max(lane[block], min(room, median_low(wishes)))
