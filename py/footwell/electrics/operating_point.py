"""Operating point: voltages and currents of a circuit in a set-up, under any faults.

Laws that bend are iterated (Newton), relays are let settle from rest, fuses that the current would
open within the time of a check are opened, and the state that results is told.
"""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import sqrt
from types import MappingProxyType
from typing import Any

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.electrics.elimination import Factor, resistances, response
from footwell.electrics.laying import Clip, changed_slots, is_charged, mesh_of, sound_network
from footwell.electrics.mesh import Mesh
from footwell.electrics.network import Groups, Network, Slot
from footwell.parts.base import Felt, Flow
from footwell.pulse import beat

CHECK_SECONDS = 10.0
"""How long a check leaves the circuit switched on; a fuse that opens sooner counts as blown."""


@dataclass(frozen=True)
class OperatingPoint:
    """What was found. `volts[node]` against earth; `slots` with `amps` from a to b."""

    circuit: Circuit
    setup: SetupState
    faults: tuple[Fault, ...]
    network: Network
    changes: Groups
    factor: Factor
    volts: list[float]
    states: dict[str, str]
    blown: tuple[str, ...]
    chatters: tuple[str, ...]
    settled: bool
    clips: tuple[Clip, ...] = ()
    trail: tuple[OperatingPoint, ...] = ()
    """The points gone through from switch-off: at each something moved, or a fuse opened."""

    def held(self, states: Mapping[str, str]) -> OperatingPoint:
        """The same with relays and fuses held in some states, whatever they would do by
        themselves."""
        held = self.states | dict(states)
        return _solve(self.circuit, self.setup, self.faults, self.clips, held, [], [], ())

    def at(self, point: str) -> float:
        """Voltage (V) of a point against the body."""
        return self.volts[self.circuit.node_of[point]]

    def across(self, slot: Slot) -> float:
        return self.volts[slot.a] - self.volts[slot.b]

    def felt(self, element: str) -> Felt:
        """What an element feels: its state, the voltages at its terminals, its branches at work."""
        if element not in self._felt:
            own, state = self.own_slots(element), self.states[element]
            self._felt[element] = felt(self.circuit.elements[element], state, own, self.volts)
        return self._felt[element]

    @cached_property
    def cache(self) -> dict[Any, Any]:
        """What others have worked out of this point."""
        return {}

    @cached_property
    def _felt(self) -> dict[str, Felt]:
        return {}

    def own_slots(self, element: str) -> Sequence[Slot]:
        """An element's branches at their places; open ones have none."""
        return self.network.slots_of(element, self.changes)

    @property
    def mesh(self) -> Mesh:
        return self.network.mesh

    @cached_property
    def slots(self) -> list[Slot]:
        """All branches at their places, in the order of the elements, what is clipped on last."""
        groups = {**self.network.groups, **self.changes}
        return [slot for slots in groups.values() for slot in slots]

    def slot_amps(self, slot: Slot) -> float:
        """Current (A) through a branch at its place, from a to b."""
        return slot.branch.law.at(self.across(slot))[0]

    def amps(self, element: str, branch: str = "") -> float:
        """Current (A) through a branch of an element, from its first end to its second."""
        own = self.own_slots(element)
        return sum(self.slot_amps(s) for s in own if s.branch.name == branch)

    @cached_property
    def seen_resistance(self) -> tuple[list[float], list[float]]:
        """Ohms a probe sees from each node to earth, and between neighbours in the order."""
        return resistances(self.mesh, self.factor.g)

    def loaded(self, a: int, b: int, meter_ohms: float) -> float:
        """Volts a meter of `meter_ohms` reads between two nodes: the circuit gives way a little.

        U * Rm / (Rm + R) with the open voltage U and the resistance R between the nodes (Thevenin's
        theorem); exact where all laws are straight, else for a meter that takes little.

        >>> from footwell.circuit.example import work_lamp
        >>> from footwell.circuit.fault import Fault
        >>> from footwell.circuit.setup import set_up
        >>> circuit, joint = work_lamp(), Fault("W3", "high_resistance", 20e3)
        >>> faults = (joint, Fault("W4", "open"))
        >>> point = operate(circuit, set_up(circuit, {"S1": "on"}), faults)
        >>> round(point.loaded(circuit.node_of["H1.1"], circuit.earth, 10e6), 2)
        12.48
        """
        open_volts = self.volts[a] - self.volts[b]
        return open_volts * meter_ohms / (meter_ohms + self.resistance_between(a, b))

    def resistance_between(self, a: int, b: int) -> float:
        """Resistance (Ω) that a small current meets between two nodes at this operating point."""
        own, mutual = self.seen_resistance
        earth = self.mesh.n
        if earth in (a, b):
            return own[a] + own[b]
        if self.mesh.joins(a, b):
            return max(own[a] + own[b] - 2.0 * mutual[self.mesh.edge(a, b)], 0.0)
        lifted = self.response(a, b)
        return max(lifted[a] - lifted[b], 0.0)

    def response(self, a: int, b: int) -> list[float]:
        """Voltages (V) that one ampere from outside, into a and out of b, would add everywhere."""
        current = [0.0] * (self.mesh.n + 1)
        current[a] += 1.0
        current[b] -= 1.0
        return response(self.mesh, self.factor, current)


def felt(element: Element, state: str, own: Sequence[Slot], volts: Sequence[float]) -> Felt:
    """What an element feels in a state, its branches at their places, at voltages (V) by node."""
    flows = {s.branch.name: Flow(s.branch, volts[s.a] - volts[s.b]) for s in own}
    return Felt(state, {t: volts[n] for t, n in element.nodes.items()}, flows)


def operate(
    circuit: Circuit,
    setup: SetupState,
    faults: tuple[Fault, ...] = (),
    clips: tuple[Clip, ...] = (),
    hold_fuses: bool = False,
    held: Mapping[str, str] = MappingProxyType({}),
) -> OperatingPoint:
    """Find the operating point reached from switch-off.

    `settled` is False where the iteration found no rest; `chatters` names relays that pull and
    drop. `hold_fuses` asks for the moment before any fuse opens; `held` keeps elements in a state
    whatever they would do by themselves, while all others do what follows.

    >>> from footwell.circuit.example import work_lamp
    >>> from footwell.circuit.setup import set_up
    >>> circuit = work_lamp()
    >>> point = operate(circuit, set_up(circuit, {"S1": "on"}))
    >>> round(point.at("H1.1"), 2), round(point.amps("W3"), 2)
    (12.18, 4.62)
    """
    beat()
    states = _first_states(circuit, setup) | dict(held)
    blown = [e for e, state in held.items() if _is_open(circuit.elements[e], state)]
    trail: list[OperatingPoint] = []
    chatters: list[str] = []
    seen: set[tuple[str, ...]] = set()
    while True:
        gone = tuple(trail)
        point = _solve(circuit, setup, faults, clips, states, blown, chatters, gone)
        moved = _moves(point, held)
        if moved:
            trail.append(point)
            pattern = tuple(states.values())
            if pattern in seen:
                chatters.extend(moved)
            else:
                states = states | moved
            seen.add(pattern)
            continue
        burnt = None if hold_fuses else _opening_first(point, held)
        if burnt is None:
            return point
        trail.append(point)
        blown.append(burnt)
        states = states | {burnt: circuit.elements[burnt].kind.opened}
        # Without that current the relays may come to rest.
        chatters.clear()
        seen.clear()


def _is_open(element: Element, state: str) -> bool:
    return element.kind.opens is not None and state == element.kind.opened


def _first_states(circuit: Circuit, setup: SetupState) -> dict[str, str]:
    """The state of every element as it is switched on; found once, for others to copy."""
    key = ("first states", setup.controls, setup.engine)
    if key not in circuit.cache:
        circuit.cache[key] = _at_first(circuit, setup)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _at_first(circuit: Circuit, setup: SetupState) -> dict[str, str]:
    controls = dict(setup.controls)
    charged = is_charged(circuit)
    running = setup.engine != "off"
    first: dict[str, str] = {}
    for element in circuit.elements.values():
        kind = element.kind
        runs = kind.follows_engine and (kind.charges or not charged)
        rest = setup.engine if runs else element.rest
        if running and charged and kind.beside:
            rest = kind.beside
        first[element.id] = controls.get(element.id, rest)
    return first


def _solve(
    circuit: Circuit,
    setup: SetupState,
    faults: tuple[Fault, ...],
    clips: tuple[Clip, ...],
    states: dict[str, str],
    blown: list[str],
    chatters: list[str],
    trail: tuple[OperatingPoint, ...],
) -> OperatingPoint:
    mesh = mesh_of(circuit, setup, clips)
    network = sound_network(circuit, setup, mesh, states)
    changes = changed_slots(circuit, setup, mesh, states, faults, clips)
    found = network.changed(changes) if changes else network.solution
    return OperatingPoint(
        circuit,
        setup,
        faults,
        network,
        changes,
        found.factor,
        found.volts,
        states,
        tuple(blown),
        tuple(chatters),
        found.settled,
        clips,
        trail,
    )


def _moves(point: OperatingPoint, held: Container[str]) -> dict[str, str]:
    """Elements that ask for another state than they are in."""
    moves: dict[str, str] = {}
    fixed = point.setup.apart
    for element in acting(point.circuit)[0]:
        if element.id not in point.chatters and element.id not in fixed and element.id not in held:
            felt = point.felt(element.id)
            assert element.kind.moves is not None
            wanted = element.kind.moves(element.values, felt, point.circuit.context)
            if wanted != felt.state:
                moves[element.id] = wanted
    return moves


def acting(circuit: Circuit) -> tuple[list[Element], list[Element]]:
    """Elements that change their state by themselves, and those that open under a current."""
    if "acting" not in circuit.cache:
        every = list(circuit.elements.values())
        circuit.cache["acting"] = (
            [e for e in every if e.kind.moves is not None],
            [e for e in every if e.kind.opens is not None],
        )
    return circuit.cache["acting"]  # type: ignore[no-any-return]


LEAST_OPENING_AMPS = 0.1
"""Below the smallest rating that a fuse can have nothing opens (`reference.fuse_times`)."""


def opening_seconds(point: OperatingPoint, element: Element) -> tuple[float, float] | None:
    """Shortest and longest time (s) until a protective element opens under the currents found; None
    where it carries them for good."""
    assert element.kind.opens is not None
    amps = max([abs(point.slot_amps(s)) for s in point.own_slots(element.id)], default=0.0)
    if amps < LEAST_OPENING_AMPS:
        return None
    return element.kind.opens(element.values, amps, point.circuit.context)


def _opening_first(point: OperatingPoint, held: Container[str]) -> str | None:
    """The fuse that would open first within a check, by the middle of its limits."""
    worst: tuple[float, str] | None = None
    for element in acting(point.circuit)[1]:
        limits = None if element.id in held else opening_seconds(point, element)
        if limits is not None and sqrt(limits[0] * limits[1]) <= CHECK_SECONDS:
            candidate = (sqrt(limits[0] * limits[1]), element.id)
            worst = min(worst, candidate) if worst else candidate
    return worst[1] if worst else None
