"""Operating point: voltages and currents of a circuit in a set-up, under any faults.

Laws that bend are iterated (Newton), relays are let settle from rest, fuses that the current would
open within the time of a check are opened, and the state that results is told.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import sqrt
from types import MappingProxyType

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import Fault, broken_branches
from footwell.circuit.setup import SetupState
from footwell.electrics.mesh import LEAK_SIEMENS, Mesh, Step, plan, remove, resistances, restore
from footwell.electrics.newton import Bent, iterate
from footwell.parts import lamp as lamp_part
from footwell.parts.base import Branch, Felt, Flow
from footwell.parts.laws import Filament, Law, Open

CHECK_SECONDS = 10.0
"""How long a check leaves the circuit switched on; a fuse that opens sooner counts as blown."""

FLOATS_SIEMENS = 1e-7
"""A stretch held by less than a meter's 10 MΩ would show the rounding of large currents."""


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
    trail: tuple[OperatingPoint, ...] = ()
    """The points gone through from switch-off: at each something moved, or a fuse opened."""

    def held(self, states: Mapping[str, str]) -> OperatingPoint:
        """The same with relays and fuses held in some states, whatever they would do by
        themselves."""
        held = self.states | dict(states)
        return _solve(self.circuit, self.setup, self.faults, self.clips, self.mesh, held, [], [], ())

    def at(self, point: str) -> float:
        """Voltage (V) of a point against the body."""
        return self.volts[self.circuit.node_of[point]]

    def across(self, slot: Slot) -> float:
        return self.volts[slot.a] - self.volts[slot.b]

    def felt(self, element: str) -> Felt:
        """What an element feels: its state, the voltages at its terminals, its branches at work."""
        if element not in self._felt:
            nodes, own = self.circuit.elements[element].nodes, self._own_slots(element)
            flows = {s.branch.name: Flow(s.branch, self.across(s)) for s in own}
            volts = {t: self.volts[n] for t, n in nodes.items()}
            self._felt[element] = Felt(self.states[element], volts, flows)
        return self._felt[element]

    @cached_property
    def _felt(self) -> dict[str, Felt]:
        return {}

    def _own_slots(self, element: str) -> list[Slot]:
        return self._slots_of.get(element, [])

    @cached_property
    def _slots_of(self) -> dict[str, list[Slot]]:
        found: dict[str, list[Slot]] = {}
        for slot in self.slots:
            found.setdefault(slot.element, []).append(slot)
        return found

    def slot_amps(self, slot: Slot) -> float:
        """Current (A) through a branch at its place, from a to b."""
        return slot.branch.law.at(self.across(slot))[0]

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
        return _response(self.mesh, self.reduced, current)


def _response(mesh: Mesh, g: list[float], current: list[float]) -> list[float]:
    """Voltages (V) that currents (A) from outside add; `current` is used up."""
    _carry(mesh.steps, g, current)
    volts = [0.0] * (mesh.n + 1)
    restore(mesh.steps, g, current, volts)
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
    held: Mapping[str, str] = MappingProxyType({}),
) -> OperatingPoint:
    """Find the operating point reached from switch-off.

    `settled` is False where the iteration found no rest; `chatters` names relays that pull and
    drop. `hold_fuses` asks for the moment before any fuse opens; `held` keeps elements in a state
    whatever they would do by themselves, while all others do what follows.
    """
    mesh = _mesh(circuit, setup, clips)
    states = _first_states(circuit, setup) | dict(held)
    blown = [e for e, state in held.items() if _is_open(circuit.elements[e], state)]
    trail: list[OperatingPoint] = []
    chatters: list[str] = []
    seen: set[tuple[str, ...]] = set()
    while True:
        gone = tuple(trail)
        point = _solve(circuit, setup, faults, clips, mesh, states, blown, chatters, gone)
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
    controls = dict(setup.controls)
    charged = any(e.kind.charges for e in circuit.elements.values())
    first: dict[str, str] = {}
    for element in circuit.elements.values():
        kind = element.kind
        runs = kind.follows_engine and (kind.charges or not charged)
        rest = setup.engine if runs else element.rest
        first[element.id] = controls.get(element.id, rest)
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
    trail: tuple[OperatingPoint, ...],
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
    volts, settled, least = iterate(mesh, g, current, bent, start)
    if least < FLOATS_SIEMENS:
        volts = _balanced(mesh, g, slots, volts)
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
        trail,
    )


def _balanced(mesh: Mesh, g: list[float], slots: list[Slot], volts: list[float]) -> list[float]:
    """The voltages (V) after one more step, from the currents that are left over at each node.

    A battery stands in the equations as its short-circuit current, and the last digit of some
    kiloamperes on 10 GΩ is a millivolt. What is left over comes from the currents that flow, which on
    a stretch that hangs on the leak are picoamperes: its last digit is nothing.
    """
    left = [-LEAK_SIEMENS * v for v in volts]
    for slot in slots:
        amps, _ = slot.branch.law.at(volts[slot.a] - volts[slot.b])
        left[slot.a] -= amps
        left[slot.b] += amps
    moved = _response(mesh, g, left)
    return [v + move for v, move in zip(volts, moved, strict=True)]


def _starts(circuit: Circuit, setup: SetupState, states: dict[str, str]) -> list[float] | None:
    """Voltages (V) of the sound circuit in the same states: where to look first under a fault.

    Always those of the sound circuit, never of the fault solved last, so that a figure does not
    depend on what was asked before.
    """
    if ("starts", setup) not in circuit.cache:
        circuit.cache["starts", setup] = True
        operate(circuit, setup)
    return circuit.cache.get(("starts", setup, tuple(states.values())))


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


def opening_seconds(point: OperatingPoint, element: Element) -> tuple[float, float] | None:
    """Shortest and longest time (s) until a protective element opens under the currents found; None
    where it carries them for good."""
    assert element.kind.opens is not None
    amps = max((abs(f.amps) for f in point.felt(element.id).flows.values()), default=0.0)
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
