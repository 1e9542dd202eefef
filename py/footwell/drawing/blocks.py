"""Blocks of nodes that share a lane, and what must stand to the right of what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from footwell.drawing.grid import Node, Row
from footwell.drawing.walks import all_below, downwards


class Blocks:
    """`of` names each node's block by one of its nodes; `right` the blocks next on its right."""

    def __init__(self, grid: Sequence[Row]) -> None:
        lines = [[node for group in row for node in group] for row in grid]
        self.of: dict[Node, Node] = {node: node for line in lines for node in line}
        self.right: dict[Node, dict[Node, None]] = {node: {} for node in self.of}
        for line in lines:
            for node, follower in pairwise(line):
                self.right[node][follower] = None

    def keep(self, blocks: Mapping[Node, Node]) -> None:
        """Join what was one block before."""
        first: dict[Node, Node] = {}
        for node in list(self.of):
            if node in blocks:
                self.join(first.setdefault(blocks[node], node), node)

    def join(self, one: Node, other: Node) -> bool:
        """Put two nodes into one lane, unless the order from left to right forbids it."""
        a, b = self.of[one], self.of[other]
        if a == b:
            return True
        if self._leads(a, b) or self._leads(b, a):
            return False
        for node, block in self.of.items():
            if block == b:
                self.of[node] = a
        self.right[a] |= self.right.pop(b)
        for followers in self.right.values():
            if b in followers:
                del followers[b]
                followers[a] = None
        return True

    def _leads(self, start: Node, goal: Node) -> bool:
        """Whether one block stands somewhere to the left of another."""
        return goal in all_below(self.right, start)

    def from_the_left(self) -> list[Node]:
        """Blocks so ordered that each comes after all on its left."""
        return downwards(self.right, self.right)
