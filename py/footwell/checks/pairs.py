"""What lies between two places and can be measured with a probe on each."""

from __future__ import annotations

from collections.abc import Mapping

from footwell.checks.check import Check, bared
from footwell.circuit.circuit import Circuit
from footwell.circuit.places import Place, places
from footwell.parts.base import EARTH

Held = tuple[str, str]
"""An element and one of its branches."""


def plugged_places(circuit: Circuit) -> list[Place]:
    """Places that are reached without unplugging, but for earth."""
    return [p for p in places(circuit).values() if p.plugged and p.id != EARTH]


def touchable_pairs(circuit: Circuit) -> dict[Held, tuple[str, str]]:
    """(element, branch) to the two places that enclose it most closely, where the circuit offers them."""
    if "pairs" not in circuit.cache:
        outside = _touched_from(circuit)
        found: dict[Held, tuple[str, str]] = {}
        for element in circuit.elements.values():
            for state in element.kind.states(element.values):
                for branch in circuit.branches(element, state):
                    a, b = (outside.get(element.nodes[end]) for end in (branch.a, branch.b))
                    if a and b and a != b:
                        found[element.id, branch.name] = (b, a) if a == EARTH else (a, b)
        circuit.cache["pairs"] = found
    return circuit.cache["pairs"]  # type: ignore[no-any-return]


def _touched_from(circuit: Circuit) -> dict[int, str]:
    """Place from which a node is touched, going through one plug's contact where the node is inside."""
    reach = {p.node: p.id for p in reversed(plugged_places(circuit))}
    outside = reach | {circuit.earth: EARTH}
    for element in circuit.elements.values():
        if element.kind.name == "contact":
            a, b = element.nodes["1"], element.nodes["2"]
            if b not in outside and a in reach:
                outside[b] = reach[a]
    return outside


def held_between(circuit: Circuit, check: Check) -> frozenset[Held]:
    """What a check is held to that has a probe at each side of it."""
    if bared(circuit, check):
        ends = {circuit.node_of[check.red], circuit.node_of[check.black or EARTH]}
        return _joining(circuit).get(frozenset(ends), frozenset())
    return _between(circuit).get(frozenset((check.red, check.black)), frozenset())


def _between(circuit: Circuit) -> Mapping[frozenset[str], frozenset[Held]]:
    if "between" not in circuit.cache:
        found: dict[frozenset[str], frozenset[Held]] = {}
        for key, pair in touchable_pairs(circuit).items():
            found[frozenset(pair)] = found.get(frozenset(pair), frozenset()) | {key}
        circuit.cache["between"] = found
    return circuit.cache["between"]  # type: ignore[no-any-return]


def _joining(circuit: Circuit) -> Mapping[frozenset[int], frozenset[Held]]:
    """Two nodes to the wires and joints that join them directly."""
    if "joining" not in circuit.cache:
        found: dict[frozenset[int], frozenset[Held]] = {}
        for element in circuit.elements.values():
            for branch in circuit.branches(element, element.rest):
                ends = frozenset((element.nodes[branch.a], element.nodes[branch.b]))
                found[ends] = found.get(ends, frozenset()) | {(element.id, branch.name)}
        circuit.cache["joining"] = found
    return circuit.cache["joining"]  # type: ignore[no-any-return]
