"""The order in which a network's nodes are removed, star to mesh, found once for its node pairs.

Removing a node of conductances g1 … gn leaves a mesh: between neighbours i and j the conductance
gi*gj/sum(g) (Rosen's theorem, the star-mesh transform). What a step adds to the edges of later
ones is a product of its own edges and of nothing else, so a change somewhere concerns only the steps
on the way from there to the last one. The order keeps these ways short: of the nodes with the fewest
neighbours first the one that the fewest steps lead up to, which takes a chain apart in halves.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property
from heapq import heapify, heappop, heappush
from typing import NamedTuple

LEAK_SIEMENS = 1e-10
"""Every node leaks 10 GΩ to earth; simulators that check these figures must do the same."""

Gather = tuple[int, tuple[int, ...]]
"""An edge, and the numbers of the products that earlier steps add to it, in their order."""

Term = tuple[int, int, int, int, int]
"""A node, and two edges from it, each with the neighbour at its end; one that is wanting is earth."""

Star = tuple[int, tuple[int, ...], tuple[tuple[int, int], ...], tuple[tuple[int, ...], ...]]
"""A node, its edges; edges with the neighbours at their ends, earth left out; and for each of these the
edges between it and all of them, its own in its own place."""


class Step(NamedTuple):
    """Removal of one node: its edges and neighbours in the same order. `products` are the number of
    each product, the two edges it is made of, and the edge that it goes to."""

    node: int
    edges: tuple[int, ...]
    neighbours: tuple[int, ...]
    gathers: tuple[Gather, ...]
    products: tuple[tuple[int, int, int, int], ...]
    terms: tuple[Term, ...]


@dataclass(frozen=True)
class Kept:
    """Steps kept for the end because their laws must be iterated, each gathering from kept ones
    alone; `held` gathers what all others add to their edges. `terms` restore the kept nodes, `rest`
    the others."""

    positions: frozenset[int]
    steps: tuple[Step, ...]
    held: tuple[Gather, ...]
    ends: tuple[tuple[int, int, int], ...]
    """Edges between kept nodes, or from one to earth: number and ends."""
    terms: tuple[Term, ...]
    rest: tuple[Term, ...]
    leads: dict[int, tuple[int, ...]]
    """For each edge between kept nodes, which of `steps` a change there leads up to."""

    def after(self, edges: Iterable[int]) -> list[Step]:
        """The steps, in their order, that come out otherwise where something changes at some edges."""
        numbers: set[int] = set()
        for edge in edges:
            numbers.update(self.leads[edge])
        return [self.steps[n] for n in sorted(numbers)]


@dataclass(frozen=True)
class Mesh:
    """The order of removal for `n` nodes; earth is node n."""

    n: int
    edge_of: dict[tuple[int, int], int]
    steps: tuple[Step, ...]
    place: tuple[int, ...]
    """Position of each node's step in the order."""
    products: int
    _kept: dict[tuple[int, ...], Kept] = field(default_factory=dict, compare=False, repr=False)

    def edge(self, a: int, b: int) -> int:
        """Number of the edge between two nodes."""
        return self.edge_of[(a, b) if a < b else (b, a)]

    def joins(self, a: int, b: int) -> bool:
        """Whether there is an edge between two nodes."""
        return ((a, b) if a < b else (b, a)) in self.edge_of

    def blank(self) -> list[float]:
        """Conductances (S) of all edges with nothing connected but the leak."""
        g = [0.0] * len(self.edge_of)
        g[: self.n] = [LEAK_SIEMENS] * self.n
        return g

    @cached_property
    def first(self) -> tuple[int, ...]:
        """For each edge the position of the step that removes its first end."""
        place = (*self.place, len(self.steps))
        return tuple(min(place[a], place[b]) for a, b in self.edge_of)

    @cached_property
    def above(self) -> tuple[tuple[int, ...], ...]:
        """For each position itself and those of the steps that a change there leads up to."""
        found: list[tuple[int, ...]] = [()] * len(self.steps)
        for position in reversed(range(len(self.steps))):
            around = [self.place[x] for x in self.steps[position].neighbours if x != self.n]
            found[position] = (position, *(found[min(around)] if around else ()))
        return tuple(found)

    def ways(self, positions: Iterable[int]) -> set[int]:
        """Positions of all steps that a change at some of them leads up to, themselves included."""
        found: set[int] = set()
        for position in positions:
            if position not in found:
                found.update(self.above[position])
        return found

    def node_ways(self, nodes: Iterable[int]) -> list[int]:
        """Positions, in order, of the steps that a current into some nodes flows through."""
        return sorted(self.ways([self.place[node] for node in nodes if node != self.n]))

    @cached_property
    def terms(self) -> tuple[Term, ...]:
        """All terms in the order of restoring."""
        return tuple(term for step in reversed(self.steps) for term in step.terms)

    @cached_property
    def stars(self) -> tuple[Star, ...]:
        """All steps in the order of restoring, each with what selected inversion asks of it."""
        return tuple(self._star(step) for step in reversed(self.steps))

    def _star(self, step: Step) -> Star:
        around = zip(step.edges, step.neighbours, strict=True)
        ends = [(edge, x) for edge, x in around if x != self.n]
        # Earth fills up to two: own and mutual resistances of earth are nought.
        ends += [(step.node, self.n)] * (2 - len(ends))
        between = tuple(
            tuple(edge if x == y else self._between(x, y, step.node) for _, y in ends)
            for edge, x in ends
        )
        return step.node, step.edges, tuple(ends), between

    def _between(self, a: int, b: int, node: int) -> int:
        return node if a == b else self.edge(a, b)

    def kept(self, edges: tuple[int, ...]) -> Kept:
        """What is kept for the end so that the laws at some edges can be iterated."""
        if edges not in self._kept:
            self._kept[edges] = _kept(self, self.ways(self.first[e] for e in edges))
        return self._kept[edges]


def _kept(mesh: Mesh, positions: set[int]) -> Kept:
    inside = [mesh.steps[position] for position in sorted(positions)]
    own = {number for step in inside for number, *_ in step.products}
    steps: list[Step] = []
    held: list[Gather] = []
    for step in inside:
        held += [(e, tuple(p for p in numbers if p not in own)) for e, numbers in step.gathers]
        gathers = tuple((e, tuple(p for p in numbers if p in own)) for e, numbers in step.gathers)
        steps.append(step._replace(gathers=gathers))
    nodes = {step.node for step in inside} | {mesh.n}
    every = mesh.edge_of.items()
    ends = tuple((edge, a, b) for (a, b), edge in every if a in nodes and b in nodes)
    number = {position: n for n, position in enumerate(sorted(positions))}
    return Kept(
        frozenset(positions),
        tuple(steps),
        tuple(held),
        ends,
        tuple(term for term in mesh.terms if term[0] in nodes),
        tuple(term for term in mesh.terms if term[0] not in nodes),
        {edge: tuple(number[p] for p in mesh.above[mesh.first[edge]]) for edge, _, _ in ends},
    )


def plan(n: int, pairs: Iterable[tuple[int, int]], iterated: Iterable[int] = ()) -> Mesh:
    """Order the removal: fewest neighbours first, then nodes whose laws are not iterated, then those
    that the fewest steps lead up to, ties to the lower number.

    `pairs` are the ends of all branches; nodes are 0 to n - 1, and earth is n.

    >>> pairs = plan(4, [(0, 1), (2, 3), (3, 4)])
    >>> len(pairs.steps), pairs.joins(0, 1), pairs.joins(0, 2)
    (4, True, False)
    """
    order = _Order(n, pairs, frozenset(iterated))
    removed = order.removed()
    place = [0] * n
    for position, (node, *_) in enumerate(removed):
        place[node] = position
    return Mesh(n, order.edge_of, tuple(order.linked(removed)), tuple(place), order.products)


Removed = tuple[int, tuple[int, ...], tuple[int, ...], tuple[tuple[int, int, int, int], ...]]


class _Order:
    """The removal of all nodes, played through on the pattern alone."""

    def __init__(self, n: int, pairs: Iterable[tuple[int, int]], iterated: frozenset[int]) -> None:
        self.earth = n
        self.iterated = iterated
        self.near: list[set[int]] = [{n} for _ in range(n)]
        self.height = [0] * n
        self.edge_of = {(node, n): node for node in range(n)}
        self.products = 0
        for a, b in pairs:
            self._join(a, b)

    def _join(self, a: int, b: int) -> int:
        key = (a, b) if a < b else (b, a)
        if a != b and key not in self.edge_of:
            self.edge_of[key] = len(self.edge_of)
            for one, other in ((a, b), (b, a)):
                if one != self.earth:
                    self.near[one].add(other)
        return self.edge_of.get(key, -1)

    def _urgency(self, node: int) -> tuple[int, bool, int, int]:
        fill = max(len(self.near[node]), 3)
        return fill, node in self.iterated, self.height[node], node

    def removed(self) -> list[Removed]:
        found: list[Removed] = []
        gone: set[int] = set()
        queue = [self._urgency(node) for node in range(self.earth)]
        heapify(queue)
        while queue:
            urgency = heappop(queue)
            node = urgency[-1]
            if node in gone or urgency != self._urgency(node):
                continue
            gone.add(node)
            found.append(self._remove(node))
            for x in found[-1][2]:
                if x != self.earth:
                    heappush(queue, self._urgency(x))
        return found

    def _remove(self, node: int) -> Removed:
        neighbours = tuple(sorted(self.near[node]))
        edges = tuple(self.edge_of[(node, x) if node < x else (x, node)] for x in neighbours)
        for x in neighbours:
            if x != self.earth:
                self.near[x].discard(node)
                self.height[x] = max(self.height[x], self.height[node] + 1)
        products: list[tuple[int, int, int, int]] = []
        for i, a in enumerate(neighbours):
            for j in range(i + 1, len(neighbours)):
                products.append((self.products, edges[i], edges[j], self._join(a, neighbours[j])))
                self.products += 1
        return node, edges, neighbours, tuple(products)

    def linked(self, removed: list[Removed]) -> Iterable[Step]:
        adds: dict[int, list[int]] = {}
        for _, _, _, products in removed:
            for number, _, _, target in products:
                adds.setdefault(target, []).append(number)
        for node, edges, neighbours, products in removed:
            gathers = tuple((e, tuple(adds.get(e, ()))) for e in edges)
            yield Step(
                node, edges, neighbours, gathers, products, self._terms(node, edges, neighbours)
            )

    def _terms(
        self, node: int, edges: tuple[int, ...], neighbours: tuple[int, ...]
    ) -> tuple[Term, ...]:
        to_earth = (node, self.earth)
        ends = [pair for pair in zip(edges, neighbours, strict=True) if pair[1] != self.earth]
        ends += [to_earth] * (len(ends) % 2)
        return tuple((node, *ends[i], *ends[i + 1]) for i in range(0, len(ends), 2))
