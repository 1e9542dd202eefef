"""What a circuit is made of in a set-up: its branches at their places, sound, under faults, and with
instruments laid across, on the order in which unknowns are removed.

All that is found of a sound circuit is kept with the circuit, for every suspect to start from.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import Fault, broken_branches
from footwell.circuit.setup import SetupState
from footwell.electrics.mesh import Mesh, plan
from footwell.electrics.network import Network, Slot
from footwell.parts import lamp as lamp_part
from footwell.parts.base import SUPPLY, Branch
from footwell.parts.laws import Filament, Law, Open


@dataclass(frozen=True, slots=True)
class Clip:
    """Something laid between two points for a moment: an instrument's law from node a to node b."""

    a: int
    b: int
    law: Law


def mesh_of(circuit: Circuit, setup: SetupState, clips: tuple[Clip, ...]) -> Mesh:
    """The order of removal for a circuit; one of its own where an instrument lies across two points
    that are not neighbours in it."""
    key: tuple[object, ...] = ("mesh", setup.stand_in)
    if key not in circuit.cache:
        circuit.cache[key] = _plan(circuit, setup, ())
    mesh: Mesh = circuit.cache[key]
    apart = tuple((c.a, c.b) for c in clips if c.a != c.b and not mesh.joins(c.a, c.b))
    if not apart:
        return mesh
    key = (*key, apart)
    if key not in circuit.cache:
        circuit.cache[key] = _plan(circuit, setup, apart)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _plan(circuit: Circuit, setup: SetupState, joined: tuple[tuple[int, int], ...]) -> Mesh:
    pairs: list[tuple[int, int]] = [*joined]
    iterated: set[int] = set()
    charged = is_charged(circuit)
    for element in circuit.elements.values():
        for state in _possible_states(element, charged):
            for branch in circuit.branches(element, state):
                ends = (element.nodes[branch.a], element.nodes[branch.b])
                pairs.append(ends)
                if not branch.law.linear:
                    iterated.update(ends)
        pairs += [
            (element.nodes[terminal], element.nodes[SUPPLY])
            for terminal in element.kind.shorts_to_supply
        ]
    for a, b, _ in _stand_ins(circuit, setup):
        pairs.append((a, b))
        iterated.update((a, b))
    return plan(circuit.earth, pairs, iterated)


def _possible_states(element: Element, charged: bool) -> Iterator[str]:
    """All states but that of a battery beside a charging source, where there is none: the law of that
    state bends, and would have the supply iterated for nothing."""
    for state in element.kind.states(element.values):
        if charged or state != element.kind.beside or not state:
            yield state


def is_charged(circuit: Circuit) -> bool:
    """Whether a charging source stands beside the battery."""
    return any(e.kind.charges for e in circuit.elements.values())


def load_ways(circuit: Circuit, connector: str) -> tuple[str, str]:
    """The two points of half a of a load's plug, feed first, that a substitute lamp goes across.

    Raises ValueError where the connector is not the plug of a load with two terminals.
    """
    joined = circuit.connectors[connector].part_ways
    if len(joined) != 2:
        raise ValueError(f"{connector} is not the plug of a load with two terminals")
    first, second = joined
    return f"{connector}.{first}.a", f"{connector}.{second}.a"


def _stand_ins(circuit: Circuit, setup: SetupState) -> list[tuple[int, int, Law]]:
    found: list[tuple[int, int, Law]] = []
    for held, watts in setup.stand_in:
        law = Filament.rated(lamp_volts(circuit), watts)
        found.append((*lamp_ends(circuit, held), law))
    return found


def lamp_ends(circuit: Circuit, held: str) -> tuple[int, int]:
    """The two nodes that a lamp lies between in place of a fuse or of the load whose plug is named."""
    element = circuit.elements.get(held)
    if element is None:
        feed, earth = load_ways(circuit, held)
        return circuit.node_of[feed], circuit.node_of[earth]
    first, second = list(element.kind.terminals(element.values))[:2]
    return element.nodes[first], element.nodes[second]


def lamp_volts(circuit: Circuit) -> float:
    """Test voltage (V) of the lamps an electrician carries for this vehicle."""
    return lamp_part.test_volts(circuit.context.system_volts)


def is_apart(element: Element, apart: tuple[str, ...]) -> bool:
    """Whether an element is pulled out, or a contact of an unplugged connector."""
    return element.id in apart or (
        element.kind.name == "contact" and element.id.split(".")[0] in apart
    )


def sound_network(
    circuit: Circuit, setup: SetupState, mesh: Mesh, states: Mapping[str, str]
) -> Network:
    """The sound circuit of a set-up in some states, solved once.

    Suspects start from it, never from the fault solved last, so that a figure does not depend on what
    was asked before.
    """
    key = ("network", setup, id(mesh), tuple(states.values()))
    if key not in circuit.cache:
        groups = {
            e.id: _laid(circuit, setup, mesh, e, states[e.id], ())
            for e in circuit.elements.values()
        }
        groups["stand-in"] = [
            _unnamed("stand-in", a, b, law, mesh) for a, b, law in _stand_ins(circuit, setup)
        ]
        circuit.cache[key] = Network(mesh, groups)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _laid(
    circuit: Circuit,
    setup: SetupState,
    mesh: Mesh,
    element: Element,
    state: str,
    faults: tuple[Fault, ...],
) -> list[Slot]:
    """An element's branches at their places; none where it is apart."""
    if setup.apart and is_apart(element, setup.apart):
        return []
    mine = tuple(f for f in faults if f.element == element.id)
    key = ("slots", id(mesh), element.id, state, mine)
    if key not in circuit.cache:
        found: list[Slot] = []
        for branch in broken_branches(circuit, element, state, mine):
            a, b = element.nodes[branch.a], element.nodes[branch.b]
            if a != b and not isinstance(branch.law, Open):
                found.append(Slot(element.id, branch, a, b, mesh.edge(a, b)))
        circuit.cache[key] = found
    return circuit.cache[key]  # type: ignore[no-any-return]


def _unnamed(name: str, a: int, b: int, law: Law, mesh: Mesh) -> Slot:
    return Slot(name, Branch("", "", "", law), a, b, mesh.edge(a, b))


def changed_slots(
    circuit: Circuit,
    setup: SetupState,
    mesh: Mesh,
    states: Mapping[str, str],
    faults: tuple[Fault, ...],
    clips: tuple[Clip, ...],
) -> dict[str, list[Slot]]:
    """What faults and instruments put in place of the sound circuit."""
    found: dict[str, list[Slot]] = {}
    for name in dict.fromkeys(f.element for f in faults):
        element = circuit.elements.get(name)
        if element is not None:
            found[name] = _laid(circuit, setup, mesh, element, states[name], faults)
    laid = [_unnamed("clip", c.a, c.b, c.law, mesh) for c in clips if c.a != c.b]
    if laid:
        found["clip"] = laid
    return found
