"""Elimination of a network's nodes one by one: star to mesh, and back.

Removing a node of conductances g1 … gn leaves a mesh: between neighbours i and j the conductance
gi*gj/sum(g), and the node's injected current is shared out in proportion to g (Rosen's theorem, the
star-mesh transform). Nothing is ever subtracted, so a floating stretch that hangs on 10 GΩ beside
joints of a milliohm comes out as exact as the rest; a factorisation with pivots loses it.

The order is found once for a pattern of node pairs; the numbers then run through a flat list of
steps.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import inf
from typing import NamedTuple

LEAK_SIEMENS = 1e-10
"""Every node leaks 10 GΩ to earth; simulators that check these figures must do the same."""


class Step(NamedTuple):
    """Removal of one node: its edges and neighbours in the same order, and for each pair of edges
    (positions in `edges`) the edge that their product goes to."""

    node: int
    edges: tuple[int, ...]
    neighbours: tuple[int, ...]
    products: tuple[tuple[int, int, int], ...]


@dataclass(frozen=True)
class Mesh:
    """The order of removal for `n` nodes; earth is node n. `kept` is the first step whose node is
    touched by a law that must be iterated."""

    n: int
    edge_of: dict[tuple[int, int], int]
    steps: tuple[Step, ...]
    kept: int

    @cached_property
    def kept_edges(self) -> tuple[tuple[int, int, int], ...]:
        """Edges between kept nodes, or from one to earth: number and ends."""
        kept = {step.node for step in self.steps[self.kept :]} | {self.n}
        ends = self.edge_of.items()
        return tuple((edge, a, b) for (a, b), edge in ends if a in kept and b in kept)

    def edge(self, a: int, b: int) -> int:
        """Number of the edge between two nodes."""
        return self.edge_of[(a, b) if a < b else (b, a)]

    def blank(self) -> list[float]:
        """Conductances (S) of all edges with nothing connected but the leak."""
        g = [0.0] * len(self.edge_of)
        for node in range(self.n):
            g[self.edge_of[node, self.n]] = LEAK_SIEMENS
        return g


def plan(n: int, pairs: Iterable[tuple[int, int]], iterated: Iterable[int]) -> Mesh:
    """Order the removal: fewest neighbours first, iterated nodes last, ties to the lower number."""
    earth = n
    near: list[set[int]] = [{earth} for _ in range(n)]
    edge_of = {(node, earth): node for node in range(n)}
    for a, b in pairs:
        _join(a, b, earth, near, edge_of)
    last = {node for node in iterated if node != earth}
    steps: list[Step] = []
    for group in ([x for x in range(n) if x not in last], sorted(last)):
        left = set(group)
        while left:
            node = min(left, key=lambda x: (len(near[x]), x))
            left.remove(node)
            steps.append(_remove(node, earth, near, edge_of))
    return Mesh(n, edge_of, tuple(steps), n - len(last))


def _join(
    a: int, b: int, earth: int, near: list[set[int]], edge_of: dict[tuple[int, int], int]
) -> int:
    key = (a, b) if a < b else (b, a)
    if a != b and key not in edge_of:
        edge_of[key] = len(edge_of)
        for one, other in ((a, b), (b, a)):
            if one != earth:
                near[one].add(other)
    return edge_of.get(key, -1)


def _remove(
    node: int, earth: int, near: list[set[int]], edge_of: dict[tuple[int, int], int]
) -> Step:
    neighbours = tuple(sorted(near[node]))
    edges = tuple(edge_of[(node, x) if node < x else (x, node)] for x in neighbours)
    for x in neighbours:
        if x != earth:
            near[x].discard(node)
    products = tuple(
        (i, j, _join(neighbours[i], neighbours[j], earth, near, edge_of))
        for i in range(len(neighbours))
        for j in range(i + 1, len(neighbours))
    )
    return Step(node, edges, neighbours, products)


def remove(steps: Sequence[Step], g: list[float], current: list[float]) -> None:
    """Run steps on conductances (S) and n + 1 injected currents (A), in place."""
    for node, edges, neighbours, products in steps:
        if len(edges) == 3:
            # Two wires and the leak: nearly every node, so written out.
            e1, e2, e3 = edges
            g1, g2, g3 = g[e1], g[e2], g[e3]
            part = 1.0 / (g1 + g2 + g3)
            (_, _, t12), (_, _, t13), (_, _, t23) = products
            g[t12] += g1 * g2 * part
            g[t13] += g1 * g3 * part
            g[t23] += g2 * g3 * part
            values = [g1, g2, g3] if current[node] != 0.0 else ()
        else:
            values = [g[e] for e in edges]
            part = 1.0 / sum(values)
            for i, j, target in products:
                g[target] += values[i] * values[j] * part
        injected = current[node] * part
        if injected != 0.0:
            for x, value in zip(neighbours, values, strict=True):
                current[x] += value * injected


def restore(
    steps: Sequence[Step], g: Sequence[float], current: Sequence[float], volts: list[float]
) -> float:
    """Run steps backwards: volts of each removed node from those of its neighbours, in place.

    Returns the least conductance (S) by which a node was held when its turn came.
    """
    least = inf
    for node, edges, neighbours, _ in reversed(steps):
        if len(edges) == 3:
            e1, e2, e3 = edges
            n1, n2, n3 = neighbours
            g1, g2, g3 = g[e1], g[e2], g[e3]
            pulled = current[node] + g1 * volts[n1] + g2 * volts[n2] + g3 * volts[n3]
            total = g1 + g2 + g3
            volts[node] = pulled / total
            if total < least:
                least = total
            continue
        total = 0.0
        pulled = current[node]
        for e, x in zip(edges, neighbours, strict=True):
            value = g[e]
            total += value
            pulled += value * volts[x]
        volts[node] = pulled / total
        if total < least:
            least = total
    return least


def resistances(mesh: Mesh, g: Sequence[float]) -> tuple[list[float], dict[tuple[int, int], float]]:
    """What a meter sees: resistance (Ω) from each node to earth, and the transfer resistance of
    every pair that is a neighbour in the order, from the removed conductances (selected inversion
    after Takahashi, Fagan and Chin 1973)."""
    own = [0.0] * (mesh.n + 1)
    mutual: dict[tuple[int, int], float] = {}
    for step in reversed(mesh.steps):
        values = [g[e] for e in step.edges]
        total = sum(values)
        pairs = [
            (x, v / total) for x, v in zip(step.neighbours, values, strict=True) if x != mesh.n
        ]
        self_ohms = 1.0 / total
        for x, share in pairs:
            ohms = sum(
                other_share
                * (own[x] if other == x else mutual[(x, other) if x < other else (other, x)])
                for other, other_share in pairs
            )
            mutual[(step.node, x) if step.node < x else (x, step.node)] = ohms
            self_ohms += share * ohms
        own[step.node] = self_ohms
    return own, mutual
