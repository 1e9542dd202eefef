"""Which elements lie beside one another in a circuit."""

from __future__ import annotations

from footwell.circuit.circuit import Circuit


def nearby(circuit: Circuit, element: str) -> frozenset[str]:
    """Elements that share a node with an element, or with one that does; the battery's posts and earth, where
    everything meets, bring nobody near."""
    key = ("nearby", element)
    if key not in circuit.cache:
        beside = _at_nodes(circuit)
        one_on = {other for node in _ends(circuit, element) for other in beside[node]}
        two_on = {other for e in one_on for node in _ends(circuit, e) for other in beside[node]}
        circuit.cache[key] = frozenset((one_on | two_on) - {element})
    return circuit.cache[key]  # type: ignore[no-any-return]


def _at_nodes(circuit: Circuit) -> dict[int, set[str]]:
    if "at nodes" not in circuit.cache:
        found: dict[int, set[str]] = {}
        for element in circuit.elements:
            for node in _ends(circuit, element):
                found.setdefault(node, set()).add(element)
        circuit.cache["at nodes"] = found
    return circuit.cache["at nodes"]  # type: ignore[no-any-return]


def _ends(circuit: Circuit, name: str) -> frozenset[int]:
    return circuit.elements[name].ends - {circuit.earth, *circuit.supply_element.ends}
