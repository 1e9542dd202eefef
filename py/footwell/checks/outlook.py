"""What a circuit would show under a suspect in a set-up: voltages, seen resistances, currents, loads.

This is the compact memory of an operating point. Thousands are kept, so they hold plain arrays.
"""

from __future__ import annotations

from array import array
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from footwell.checks.clamped import WireEnd, wire_amps
from footwell.checks.idle import moves_no_current
from footwell.checks.phases import phases, seen_of
from footwell.checks.quiet import quiet_nodes, quiet_of, throughout
from footwell.circuit.chains import alike
from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.electrics.elimination import resistances
from footwell.electrics.laying import is_apart
from footwell.electrics.mesh import Mesh
from footwell.electrics.network import Groups, Network
from footwell.electrics.operating_point import OperatingPoint, felt, operate
from footwell.electrics.tipping import alternatives
from footwell.electrics.turns import Turn


@dataclass(frozen=True, slots=True)
class Flows:
    """Where the currents of an operating point are found once they are asked for."""

    circuit: Circuit
    network: Network
    changes: Groups
    states: Mapping[str, str]

    def amps(self, volts: Sequence[float]) -> dict[WireEnd, float]:
        """Current (A) that comes into each wire at each of its terminals."""
        return wire_amps(self.circuit, {**self.network.groups, **self.changes}, volts)

    def activity(self, volts: Sequence[float]) -> dict[str, float]:
        return {e.id: self._shown(e, volts) for e in shown_by(self.circuit)}

    def _shown(self, element: Element, volts: Sequence[float]) -> float:
        if element.kind.shows is None:
            return 0.0
        own = self.network.slots_of(element.id, self.changes)
        feels = felt(element, self.states[element.id], own, volts)
        return element.kind.shows(element.values, feels, self.circuit.context)


@dataclass(slots=True)
class Outlook:
    """`volts` by node, earth last, and the fuses blown; all else is found when it is first asked for."""

    volts: array[float]
    blown: tuple[str, ...]
    mesh: Mesh
    quiet: int
    """Nodes (bits) without voltage all the time from switch-off."""
    _flows: Flows
    _reduced: array[float] | None
    _own: array[float] | None = None
    _amps: dict[WireEnd, float] | None = None
    _activity: dict[str, float] | None = None

    @property
    def amps(self) -> dict[WireEnd, float]:
        """Current (A) that comes into each wire at each of its terminals."""
        if self._amps is None:
            self._amps = self._flows.amps(self.volts)
        return self._amps

    @property
    def activity(self) -> dict[str, float]:
        """What each load shows: speed, light, heat as a share of nominal; 1.0 or 0.0 for a relay pulled
        or at rest."""
        if self._activity is None:
            self._activity = self._flows.activity(self.volts)
        return self._activity

    @property
    def own_ohms(self) -> array[float]:
        """Resistance (Ω) that a probe sees from each node to earth."""
        if self._own is None:
            assert self._reduced is not None
            self._own = array("d", resistances(self.mesh, self._reduced)[0])
            self._reduced = None
        return self._own


@dataclass(frozen=True, slots=True)
class Seen:
    """The outlook of one of the states that can be, its chance, and how doubts turned out for it."""

    weight: float
    outlook: Outlook
    turns: tuple[Turn, ...] = ()


def outlook(circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...]) -> Outlook:
    """The outlook of a suspect with the middle of all limits, computed once for a circuit."""
    return outlooks(circuit, setup, faults)[0].outlook


def outlooks(circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...]) -> tuple[Seen, ...]:
    """The outlooks of all states that can be under a suspect, the one with the middle of all limits first."""
    key = ("outlook", setup, faults)
    found = circuit.cache.get(key)
    if found is None:
        found = circuit.cache[key] = _outlooks(circuit, setup, faults)
    return found


def _outlooks(circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...]) -> tuple[Seen, ...]:
    changing = phases(circuit, setup)
    if len(changing) == 1:
        every = alternatives(operate(circuit, setup, faults))
        return tuple(Seen(a.weight, summarised(a.point), a.turns) for a in every)
    return (Seen(1.0, averaged([(s, operate(circuit, each, faults)) for s, each in changing])),)


def averaged(rows: Sequence[tuple[float, OperatingPoint]]) -> Outlook:
    """The mean of some operating points, each with its share of the time, as meter and eye see it. What a
    probe sees in ohms is that of the longest."""
    every = [(share, summarised(point)) for share, point in rows]
    first, circuit = every[0][1], rows[0][1].circuit
    return Outlook(
        array("d", [sum(s * o.volts[n] for s, o in every) for n in range(len(first.volts))]),
        tuple(dict.fromkeys(fuse for _, o in every for fuse in o.blown)),
        first.mesh,
        throughout(o.quiet for _, o in every),
        first._flows,
        first._reduced,
        None,
        {end: sum(s * o.amps[end] for s, o in every) for end in every[0][1].amps},
        {
            e.id: seen_of(e, [(share, point.felt(e.id)) for share, point in rows], circuit)
            for e in shown_by(circuit)
        },
    )


def activities(circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...]) -> dict[str, float]:
    """What the loads do under a suspect."""
    return outlook(circuit, setup, from_outside(circuit, setup, faults)).activity


def from_outside(
    circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...]
) -> tuple[Fault, ...]:
    """Faults that stand for some as far as the loads show: all in one stretch of a chain are the same, and
    those in a stretch without voltage are none, and a single one that no current feels is none either."""
    key = ("outside", setup, faults)
    found = circuit.cache.get(key)
    if found is None:
        found = circuit.cache[key] = _fewer(circuit, setup, faults)
    return found


def _fewer(circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    moved = alike(circuit, faults, broken_at(circuit, setup))
    if len(moved) == 1 and moves_no_current(circuit, setup, moved[0]):
        return ()

    def nodes(under: tuple[Fault, ...]) -> int:
        return throughout(seen.outlook.quiet for seen in outlooks(circuit, setup, under))

    return quiet_of(circuit, setup, nodes).fewer(moved)


def broken_at(circuit: Circuit, setup: SetupState) -> frozenset[int]:
    """Nodes where a set-up takes things apart or puts a lamp in."""
    if not setup.apart:
        return frozenset()
    key = ("broken at", setup.apart)
    if key not in circuit.cache:
        circuit.cache[key] = frozenset(
            node
            for e in circuit.elements.values()
            if is_apart(e, setup.apart)
            for node in e.nodes.values()
        )
    return circuit.cache[key]  # type: ignore[no-any-return]


def summarised(point: OperatingPoint) -> Outlook:
    """The lasting part of an operating point."""
    return Outlook(
        array("d", point.volts),
        point.blown,
        point.mesh,
        quiet_nodes(point),
        Flows(point.circuit, point.network, point.changes, _same(point.circuit, point.states)),
        array("d", point.factor.g),
    )


def _same(circuit: Circuit, states: Mapping[str, str]) -> Mapping[str, str]:
    """The one mapping that is kept for equal ones: nearly all suspects leave every element in the state of
    the sound circuit. All name the elements in one order."""
    key = ("states", *states.values())
    return circuit.cache.setdefault(key, states)  # type: ignore[no-any-return]


def shown_by(circuit: Circuit) -> list[Element]:
    """The loads, and every relay that can be heard."""
    if "shown by" not in circuit.cache:
        clicking = [e.id for e in circuit.elements.values() if e.kind.seen_as == "click"]
        every = dict.fromkeys([*circuit.sheet.loads, *clicking])
        circuit.cache["shown by"] = [circuit.elements[e] for e in every]
    return circuit.cache["shown by"]  # type: ignore[no-any-return]
