"""How high each point hangs between supply and earth: which end of a part is its upper one.

Every element counts as one ohm and every contact as closed, so a point's height is its share of the
supply's voltage: along any path without branches it falls evenly, whatever else the circuit holds.
"""

from __future__ import annotations

from footwell.circuit.circuit import Circuit

LEAK = 1e-4
"""A leak at every point, small beside the elements, that makes dead ends hang down (or up)."""

DIGITS = 9
"""Heights are compared after rounding, so that a tie does not hang on the last bit."""


def heights(circuit: Circuit) -> list[float]:
    """Height by node, 1 at the battery's positive post and 0 at the body, earth included.

    Dead ends on the supply's side fall with distance; what only earth reaches rises from it.
    """
    battery = circuit.supply_element
    supply, earth = battery.nodes["+"], circuit.earth
    near = _neighbours(circuit)
    fed = _reached(near, supply, earth)
    fixed = {supply: 1.0, earth: 0.0}
    pull = [0.0 if node in fed else LEAK for node in range(earth + 1)]
    weight = [LEAK + sum(links.values()) for links in near]
    for node, links in enumerate(near):
        for other in [n for n in links if n in fixed]:
            pull[node] += links.pop(other) * fixed[other]
    solved = _solve({n: near[n] for n in range(earth) if n != supply}, pull, weight)
    return [round(fixed.get(n, solved.get(n, 0.0)), DIGITS) for n in range(earth + 1)]


def _neighbours(circuit: Circuit) -> list[dict[int, float]]:
    near: list[dict[int, float]] = [{} for _ in range(circuit.earth + 1)]
    for element in circuit.elements.values():
        if element is circuit.supply_element:
            continue
        state = element.kind.states(element.values)[0]
        for a, b in {(b.a, b.b): None for b in circuit.branches(element, state)}:
            one, other = element.nodes[a], element.nodes[b]
            if one != other:
                near[one][other] = near[one].get(other, 0.0) + 1.0
                near[other][one] = near[other].get(one, 0.0) + 1.0
    return near


def _reached(near: list[dict[int, float]], start: int, barred: int) -> set[int]:
    seen, waiting = {start}, [start]
    while waiting:
        for other in near[waiting.pop()]:
            if other not in seen and other != barred:
                seen.add(other)
                waiting.append(other)
    return seen


def _solve(
    near: dict[int, dict[int, float]], pull: list[float], weight: list[float]
) -> dict[int, float]:
    """Heights by elimination: weight * h = pull + sum of link * h(neighbour)."""
    left, gone = dict(near), []
    while left:
        node = min(left, key=lambda n: (len(left[n]), n))
        links = left.pop(node)
        gone.append((node, links))
        for one, g in links.items():
            share = g / weight[node]
            pull[one] += share * pull[node]
            weight[one] -= share * g
            del left[one][node]
            for other, h in links.items():
                if other != one:
                    left[one][other] = left[one].get(other, 0.0) + share * h
    found: dict[int, float] = {}
    for node, links in reversed(gone):
        reached = sum(g * found[other] for other, g in links.items())
        found[node] = (pull[node] + reached) / weight[node]
    return found
