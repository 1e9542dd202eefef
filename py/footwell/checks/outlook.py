"""What a circuit would show under a suspect in a set-up: voltages, seen resistances, currents, loads.

This is the compact memory of an operating point. Thousands are kept, so they hold plain arrays.
"""

from __future__ import annotations

from array import array
from dataclasses import dataclass

from footwell.circuit.chains import alike
from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.electrics.mesh import Mesh, resistances
from footwell.electrics.operating_point import OperatingPoint, is_apart, operate
from footwell.parts.laws import Armature, Law
from footwell.reference.lamps import light_share


@dataclass(slots=True)
class Outlook:
    """`volts` by node (earth last), `amps` by element carrying one branch, `activity` of each load:
    speed, light, heat as a share of nominal; 1.0 or 0.0 for a relay pulled or at rest."""

    volts: array[float]
    amps: dict[str, float]
    activity: dict[str, float]
    blown: tuple[str, ...]
    mesh: Mesh
    _reduced: array[float] | None
    _own: array[float] | None = None

    def ohms(self, node: int) -> float:
        """Resistance (Ω) that a probe sees from a node to earth; found when first asked for."""
        if self._own is None:
            assert self._reduced is not None
            self._own = array("d", resistances(self.mesh, self._reduced)[0])
            self._reduced = None
        return self._own[node]


def outlook(circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...]) -> Outlook:
    """The outlook of a suspect, computed once for a circuit."""
    key = ("outlook", setup, faults)
    found = circuit.cache.get(key)
    if found is None:
        found = circuit.cache[key] = summarised(operate(circuit, setup, faults))
    return found


def activities(circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...]) -> dict[str, float]:
    """What the loads do under a suspect: the same for every fault in one stretch of a chain."""
    return outlook(circuit, setup, alike(circuit, faults, broken_at(circuit, setup))).activity


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
    amps: dict[str, float] = {}
    for slot in point.slots:
        kind = (
            point.circuit.elements[slot.element].kind.name
            if slot.element in point.circuit.elements
            else ""
        )
        if kind in ("wire", "fuse"):
            if not slot.branch.name:
                amps[slot.element] = slot.branch.law.at(point.across(slot))[0]
        elif kind in ("motor", "heater", "lamp") and slot.branch.name == "":
            amps[slot.element] = slot.branch.law.at(point.across(slot))[0]
    loads = [
        *point.circuit.sheet.loads,
        *(e.id for e in point.circuit.elements.values() if e.kind.name == "relay"),
    ]
    activity = {
        load: activity_of(point, point.circuit.elements[load]) for load in dict.fromkeys(loads)
    }
    return Outlook(
        array("d", point.volts),
        amps,
        activity,
        point.blown,
        point.mesh,
        array("d", point.reduced),
    )


def activity_of(point: OperatingPoint, element: Element) -> float:
    """What a load does, as a share of its nominal speed, light or heat; a relay's contact as 1 or 0."""
    if element.kind.name == "relay":
        stuck = {f.mode for f in point.faults if f.element == element.id}
        return 1.0 if point.states[element.id] == "pulled" and "open:coil" not in stuck else 0.0
    for slot in point.slots:
        if slot.element == element.id and slot.branch.name == "":
            volts = abs(point.across(slot))
            sound = point.circuit.branches(element, point.states[element.id])[0].law
            supply = point.circuit.context.system_volts
            return activity(element, slot.branch.law, sound, volts, supply)
    return 0.0


def activity(element: Element, law: Law, sound: Law, volts: float, system_volts: int) -> float:
    """Share of nominal speed, light or heat that an element shows at a voltage (V); `sound` is its law
    when nothing is wrong with it."""
    if isinstance(law, Armature):
        return law.speed(volts)
    if element.kind.name == "motor":
        return 0.0
    if element.kind.name == "lamp":
        return light_share(volts, 13.5 if system_volts == 12 else 28.0)
    nominal = system_volts * 1.04
    return volts * law.at(volts)[0] / (nominal * sound.at(nominal)[0])
