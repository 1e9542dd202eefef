"""Operating point: voltages and currents of a circuit in a set-up, under any faults.

Laws that bend are iterated (Newton), relays are let settle from rest, fuses that the current would
open within the time of a check are opened, and the state that results is told.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import sqrt

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import Fault, broken_branches
from footwell.circuit.setup import SetupState
from footwell.electrics.mesh import Mesh, Step, plan, remove, resistances, restore
from footwell.electrics.newton import Bent, iterate
from footwell.parts import fuse as fuse_part
from footwell.parts import lamp as lamp_part
from footwell.parts import relay as relay_part
from footwell.parts.base import Branch
from footwell.parts.laws import Filament, Law, Open
from footwell.reference.fuse_times import opening_time_seconds

CHECK_SECONDS = 10.0
"""How long a check leaves the circuit switched on; a fuse that opens sooner counts as blown."""


@dataclass(frozen=True, slots=True)
class Clip:
    """Something laid between two points for a moment: an instrument's law from node a to node b."""

    a: int
    b: int
    law: Law


@dataclass(frozen=True, slots=True)
class Slot:
    """A branch at its place in the network."""

    element: str
    branch: Branch
    a: int
    b: int
    edge: int


@dataclass(frozen=True)
class OperatingPoint:
    """What was found. `volts[node]` against earth; `slots` with `amps` from a to b."""

    circuit: Circuit
    setup: SetupState
    faults: tuple[Fault, ...]
    mesh: Mesh
    reduced: list[float]
    volts: list[float]
    slots: list[Slot]
    states: dict[str, str]
    blown: tuple[str, ...]
    chatters: tuple[str, ...]
    settled: bool
    clips: tuple[Clip, ...] = ()

    def held(self, states: Mapping[str, str]) -> OperatingPoint:
        """The same with relays and fuses held in some states, whatever they would do by
        themselves."""
        held = self.states | dict(states)
        return _solve(self.circuit, self.setup, self.faults, self.clips, self.mesh, held, [], [])

    def at(self, point: str) -> float:
        """Voltage (V) of a point against the body."""
        return self.volts[self.circuit.node_of[point]]

    def across(self, slot: Slot) -> float:
        return self.volts[slot.a] - self.volts[slot.b]

    def amps(self, element: str, branch: str = "") -> float:
        """Current (A) through a branch of an element, from its first end to its second."""
        return sum(
            s.branch.law.at(self.across(s))[0]
            for s in self.slots
            if s.element == element and s.branch.name == branch
        )

    @cached_property
    def seen_resistance(self) -> tuple[list[float], dict[tuple[int, int], float]]:
        """Ohms a probe sees from each node to earth, and between neighbours in the order."""
        return resistances(self.mesh, self.reduced)

    def loaded(self, a: int, b: int, meter_ohms: float) -> float:
        """Volts a meter of `meter_ohms` reads between two nodes: the circuit gives way a little."""
        open_volts = self.volts[a] - self.volts[b]
        return open_volts * meter_ohms / (meter_ohms + self.resistance_between(a, b))

    def resistance_between(self, a: int, b: int) -> float:
        """Resistance (Ω) that a small current meets between two nodes at this operating point."""
        own, mutual = self.seen_resistance
        earth = self.mesh.n
        if earth in (a, b):
            return own[a] + own[b]
        key = (a, b) if a < b else (b, a)
        if key in mutual:
            return max(own[a] + own[b] - 2.0 * mutual[key], 0.0)
        lifted = self.response(a, b)
        return max(lifted[a] - lifted[b], 0.0)

    def response(self, a: int, b: int) -> list[float]:
        """Voltages (V) that one ampere from outside, into a and out of b, would add everywhere."""
        current = [0.0] * (self.mesh.n + 1)
        current[a] += 1.0
        current[b] -= 1.0
        _carry(self.mesh.steps, self.reduced, current)
        volts = [0.0] * (self.mesh.n + 1)
        restore(self.mesh.steps, self.reduced, current, volts)
        return volts


def _carry(steps: Iterable[Step], g: list[float], current: list[float]) -> None:
    for step in steps:
        injected = current[step.node]
        if injected != 0.0:
            total = sum([g[e] for e in step.edges])
            for e, x in zip(step.edges, step.neighbours, strict=True):
                current[x] += g[e] / total * injected


def operate(
    circuit: Circuit,
    setup: SetupState,
    faults: tuple[Fault, ...] = (),
    clips: tuple[Clip, ...] = (),
    hold_fuses: bool = False,
) -> OperatingPoint:
    """Find the operating point reached from switch-off.

    `settled` is False where the iteration found no rest; `chatters` names relays that pull and
    drop. `hold_fuses` asks for the moment before any fuse opens.
    """
    mesh = _mesh(circuit, setup, clips)
    states = _first_states(circuit, setup)
    blown: list[str] = []
    chatters: list[str] = []
    seen: set[tuple[str, ...]] = set()
    while True:
        point = _solve(circuit, setup, faults, clips, mesh, states, blown, chatters)
        moved = _relay_moves(point)
        if moved:
            pattern = tuple(states[r] for r in sorted(states))
            if pattern in seen:
                chatters.extend(moved)
            else:
                states = states | moved
            seen.add(pattern)
            continue
        burnt = None if hold_fuses else _overloaded_fuse(point)
        if burnt is None:
            return point
        blown.append(burnt)
        states = states | {burnt: "blown"}
        # Without that fuse the relays may come to rest.
        chatters.clear()
        seen.clear()


def _first_states(circuit: Circuit, setup: SetupState) -> dict[str, str]:
    controls = dict(setup.controls)
    first: dict[str, str] = {}
    for element in circuit.elements.values():
        if element.kind.name == "battery":
            first[element.id] = setup.engine
        else:
            first[element.id] = controls.get(element.id, element.kind.states(element.values)[0])
    return first


def _mesh(circuit: Circuit, setup: SetupState, clips: tuple[Clip, ...]) -> Mesh:
    key = ("mesh", setup.stand_in, tuple((c.a, c.b, c.law.linear) for c in clips))
    if key not in circuit.cache:
        circuit.cache[key] = _plan(circuit, setup, clips)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _plan(circuit: Circuit, setup: SetupState, clips: tuple[Clip, ...]) -> Mesh:
    pairs: list[tuple[int, int]] = []
    iterated: set[int] = set()
    for element in circuit.elements.values():
        for state in element.kind.states(element.values):
            for branch in circuit.branches(element, state):
                ends = (element.nodes[branch.a], element.nodes[branch.b])
                pairs.append(ends)
                if not (branch.law.linear):
                    iterated.update(ends)
    for a, b, law in [*_stand_ins(circuit, setup), *((c.a, c.b, c.law) for c in clips)]:
        pairs.append((a, b))
        if not law.linear:
            iterated.update((a, b))
    return plan(circuit.earth, pairs, iterated)


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
    for connector, watts in setup.stand_in:
        a, b = load_ways(circuit, connector)
        law = Filament.rated(lamp_volts(circuit), watts)
        found.append((circuit.node_of[a], circuit.node_of[b], law))
    return found


def lamp_volts(circuit: Circuit) -> float:
    """Test voltage (V) of the lamps an electrician carries for this vehicle."""
    return lamp_part.test_volts(circuit.context.system_volts)


def _element_slots(
    circuit: Circuit,
    element: Element,
    state: str,
    faults: tuple[Fault, ...],
    mesh: Mesh,
    apart: bool,
) -> list[Slot]:
    mine = tuple(f for f in faults if f.element == element.id)
    key = ("slots", id(mesh), element.id, state, mine, apart)
    if key not in circuit.cache:
        circuit.cache[key] = _make_slots(circuit, element, state, mine, mesh, apart)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _make_slots(
    circuit: Circuit, element: Element, state: str, mine: tuple[Fault, ...], mesh: Mesh, apart: bool
) -> list[Slot]:
    if apart:
        return []
    found: list[Slot] = []
    for branch in broken_branches(circuit, element, state, mine):
        a, b = element.nodes[branch.a], element.nodes[branch.b]
        if a != b and not isinstance(branch.law, Open):
            found.append(Slot(element.id, branch, a, b, mesh.edge(a, b)))
    return found


def is_apart(element: Element, apart: tuple[str, ...]) -> bool:
    """Whether an element is pulled out, or a contact of an unplugged connector."""
    return element.id in apart or (
        element.kind.name == "contact" and element.id.split(".")[0] in apart
    )


def _slots(
    circuit: Circuit,
    setup: SetupState,
    faults: tuple[Fault, ...],
    clips: tuple[Clip, ...],
    mesh: Mesh,
    states: dict[str, str],
) -> list[Slot]:
    found: list[Slot] = []
    for element in circuit.elements.values():
        apart = bool(setup.apart) and is_apart(element, setup.apart)
        found += _element_slots(circuit, element, states[element.id], faults, mesh, apart)
    for a, b, law in _stand_ins(circuit, setup):
        found.append(Slot("stand-in", Branch("", "", "", law), a, b, mesh.edge(a, b)))
    for clip in clips:
        found.append(
            Slot("clip", Branch("", "", "", clip.law), clip.a, clip.b, mesh.edge(clip.a, clip.b))
        )
    return found


def _solve(
    circuit: Circuit,
    setup: SetupState,
    faults: tuple[Fault, ...],
    clips: tuple[Clip, ...],
    mesh: Mesh,
    states: dict[str, str],
    blown: list[str],
    chatters: list[str],
) -> OperatingPoint:
    slots = _slots(circuit, setup, faults, clips, mesh, states)
    g = mesh.blank()
    current = [0.0] * (mesh.n + 1)
    bent: list[Bent] = []
    for slot in slots:
        law = slot.branch.law
        if law.linear:
            g[slot.edge] += law.siemens  # type: ignore[attr-defined]
            flow = law.amps_at_zero  # type: ignore[attr-defined]
            if flow != 0.0:
                current[slot.a] -= flow
                current[slot.b] += flow
        else:
            bent.append(Bent(law, slot.a, slot.b, slot.edge))
    remove(mesh.steps[: mesh.kept], g, current)
    nought = [0.0] * (mesh.n + 1)
    start = (_starts(circuit, setup, states) if faults or clips else None) or nought
    volts, settled = iterate(mesh, g, current, bent, start)
    if not faults and not clips:
        circuit.cache["starts", setup, tuple(states.values())] = volts
    return OperatingPoint(
        circuit,
        setup,
        faults,
        mesh,
        g,
        volts,
        slots,
        states,
        tuple(blown),
        tuple(chatters),
        settled,
        clips,
    )


def _starts(circuit: Circuit, setup: SetupState, states: dict[str, str]) -> list[float] | None:
    """Voltages (V) of the sound circuit in the same states: where to look first under a fault.

    Always those of the sound circuit, never of the fault solved last, so that a figure does not
    depend on what was asked before.
    """
    if ("starts", setup) not in circuit.cache:
        circuit.cache["starts", setup] = True
        operate(circuit, setup)
    return circuit.cache.get(("starts", setup, tuple(states.values())))


def _relay_moves(point: OperatingPoint) -> dict[str, str]:
    """Relays whose coil asks for another state than they are in."""
    moves: dict[str, str] = {}
    for element in point.circuit.elements.values():
        if (
            element.kind.name != "relay"
            or element.id in point.chatters
            or element.id in point.setup.apart
        ):
            continue
        coil = abs(point.volts[element.nodes["86"]] - point.volts[element.nodes["85"]])
        if any(f.element == element.id and f.mode == "open:coil" for f in point.faults):
            coil = 0.0
        state = point.states[element.id]
        if state == "rest" and coil >= relay_part.pulls_at(point.circuit.context):
            moves[element.id] = "pulled"
        elif state == "pulled" and coil < relay_part.drops_at(point.circuit.context):
            moves[element.id] = "rest"
    return moves


def _overloaded_fuse(point: OperatingPoint) -> str | None:
    """The fuse that would open first within a check, by the middle of its limits (ISO 8820-3)."""
    worst: tuple[float, str] | None = None
    for slot in point.slots:
        element = point.circuit.elements.get(slot.element)
        if element is None or element.kind.name != "fuse":
            continue
        amps = abs(slot.branch.law.at(point.across(slot))[0])
        rating = fuse_part.rating(element.values, point.circuit.context)
        limits = opening_time_seconds(element.values.type, rating, amps)
        if limits is not None and sqrt(limits[0] * limits[1]) <= CHECK_SECONDS:
            candidate = (sqrt(limits[0] * limits[1]), element.id)
            worst = min(worst, candidate) if worst else candidate
    return worst[1] if worst else None
