"""Elimination of a network's nodes by numbers, and of the changed part of it once more.

Nothing is ever subtracted, so a floating stretch that hangs on 10 GΩ beside joints of a milliohm
comes out as exact as the rest; a factorisation with pivots loses it. A suspect changes few edges: the
steps on the way from these to the last one are done again, and come out bit for bit as if all had been,
since every edge sums the same products in the same order. A dense inverse updated by the Woodbury formula
measured slower, and volts off where a battery's earth opens.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footwell.electrics.mesh import Gather, Mesh, Step, Term


@dataclass(slots=True)
class Factor:
    """What the steps leave: conductance (S) of each edge when its first end is removed, its share in
    that of all edges there, 1/sum (Ω) of each node, and each product (S)."""

    g: list[float]
    share: list[float]
    ohms: list[float]
    made: list[float]

    @classmethod
    def of(cls, mesh: Mesh) -> Factor:
        edges = len(mesh.edge_of)
        return cls([0.0] * edges, [0.0] * edges, [0.0] * (mesh.n + 1), [0.0] * mesh.products)

    def copy(self) -> Factor:
        return Factor(self.g[:], self.share[:], self.ohms[:], self.made[:])


def eliminate(steps: Iterable[Step], laid: Sequence[float], factor: Factor) -> None:
    """Run steps, in their order, from the conductances (S) laid on each edge."""
    g, share, made = factor.g, factor.share, factor.made
    for node, edges, _, gathers, products, _ in steps:
        total = 0.0
        for e, numbers in gathers:
            value = laid[e]
            for p in numbers:
                value += made[p]
            g[e] = value
            total += value
        part = 1.0 / total
        factor.ohms[node] = part
        for e in edges:
            share[e] = g[e] * part
        for p, i, j, _ in products:
            made[p] = share[i] * g[j]


def hold(gathers: Iterable[Gather], laid: Sequence[float], factor: Factor) -> None:
    """Sum what is laid on edges and what steps have added to them."""
    for e, numbers in gathers:
        value = laid[e]
        for p in numbers:
            value += factor.made[p]
        factor.g[e] = value


def carry(steps: Iterable[Step], factor: Factor, current: list[float], volts: list[float]) -> float:
    """Pass injected currents (A) on to the neighbours, in place; volts of each node become what its
    current drives by itself.

    Returns the highest resistance (Ω) that a current met when its node was removed.
    """
    share, most = factor.share, 0.0
    for node, edges, neighbours, _, _, _ in steps:
        injected = current[node]
        if injected == 0.0:
            volts[node] = 0.0
            continue
        ohms = factor.ohms[node]
        volts[node] = injected * ohms
        if ohms > most:
            most = ohms
        for e, x in zip(edges, neighbours, strict=True):
            current[x] += share[e] * injected
    return most


def restore(terms: Iterable[Term], share: Sequence[float], volts: list[float]) -> None:
    """Run steps backwards, in place: add to the volts of each node its share of its neighbours'."""
    for node, e1, x1, e2, x2 in terms:
        volts[node] += share[e1] * volts[x1] + share[e2] * volts[x2]


def response(mesh: Mesh, factor: Factor, current: list[float]) -> list[float]:
    """Voltages (V) that currents (A) from outside add; `current` is used up.

    >>> from footwell.electrics.mesh import plan
    >>> mesh = plan(2, [(0, 1), (1, 2)])
    >>> laid, factor = mesh.blank(), Factor.of(mesh)
    >>> laid[mesh.edge(0, 1)] += 1 / 3.0
    >>> laid[mesh.edge(1, 2)] += 1 / 2.0
    >>> eliminate(mesh.steps, laid, factor)
    >>> [round(volts, 6) for volts in response(mesh, factor, [1.0, 0.0, 0.0])]
    [5.0, 2.0, 0.0]
    """
    volts = [0.0] * (mesh.n + 1)
    driven = [node for node, amps in enumerate(current) if amps != 0.0]
    carry([mesh.steps[n] for n in mesh.node_ways(driven)], factor, current, volts)
    restore(mesh.terms, factor.share, volts)
    return volts


def resistances(mesh: Mesh, g: Sequence[float]) -> tuple[list[float], list[float]]:
    """What a meter sees: resistance (Ω) from each node to earth, and the transfer resistance of the two
    nodes of each edge, from the conductances that the steps leave (selected inversion after Takahashi,
    Fagan and Chin 1973)."""
    own, mutual = [0.0] * (mesh.n + 1), [0.0] * len(mesh.edge_of)
    for node, edges, ends, between in mesh.stars:
        part = 1.0 / sum([g[e] for e in edges])
        if len(ends) == 2:
            # Two wires and the leak: nearly every node, so written out.
            (e1, x1), (e2, x2) = ends
            share1, share2, both = g[e1] * part, g[e2] * part, mutual[between[0][1]]
            mutual[e1] = one = share1 * own[x1] + share2 * both
            mutual[e2] = two = share1 * both + share2 * own[x2]
            own[node] = part + share1 * one + share2 * two
            continue
        shares = [g[e] * part for e, _ in ends]
        seen = part
        for (e, x), share, row in zip(ends, shares, between, strict=True):
            through = [own[x] if edge == e else mutual[edge] for edge in row]
            mutual[e] = ohms = sum([s * u for s, u in zip(shares, through, strict=True)])
            seen += share * ohms
        own[node] = seen
    return own, mutual
