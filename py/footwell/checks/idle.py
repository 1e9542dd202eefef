"""Faults that no current feels: a poor joint in a feed that nothing draws from leaves every load as it is.

Where the sound circuit drives no current through what a fault changes, and what the fault puts there would
carry none at the same voltages either, then the voltages of the sound circuit satisfy Kirchhoff with the
fault in it as well. What is off by the leak of a few nodes stays so small everywhere: in a network without
sources of its own no branch carries more than what is driven through it.
"""

from __future__ import annotations

from collections.abc import Sequence

from footwell.checks.phases import phases
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.electrics.laying import changed_slots
from footwell.electrics.network import Slot
from footwell.electrics.operating_point import OperatingPoint, felt, operate
from footwell.electrics.tipping import alternatives

STRAY_AMPS = 2e-8
"""What leaks away from a stretch of some nodes (A): seven at 24 V. A load of 1 MΩ takes 500 times as much."""

SAME_SHOWN = 1e-6
"""Shares of nominal speed, light or heat that are the same."""


def moves_no_current(circuit: Circuit, setup: SetupState, fault: Fault) -> bool:
    """Whether a fault alone leaves all that loads, relays and fuses do in a set-up as it is; places that
    nothing draws from may stand at another voltage."""
    points = _visited(circuit, setup)
    return bool(points) and all(_is_idle(point, fault) for point in points)


def _visited(circuit: Circuit, setup: SetupState) -> tuple[OperatingPoint, ...]:
    """The operating points of the sound circuit in all states that can be, from switch-off; none where it
    finds no rest."""
    key = ("visited", setup)
    if key not in circuit.cache:
        every = tuple(
            point
            for _, each in phases(circuit, setup)
            for can_be in alternatives(operate(circuit, each))
            for point in (*can_be.point.trail, can_be.point)
        )
        rests = all(point.settled and not point.chatters for point in every)
        circuit.cache[key] = every if rests else ()
    return circuit.cache[key]  # type: ignore[no-any-return]


def _is_idle(point: OperatingPoint, fault: Fault) -> bool:
    """Whether an element with a fault carries what it carries without, and does the same by it, at the
    voltages of the sound circuit."""
    sound = point.own_slots(fault.element)
    every = changed_slots(point.circuit, point.setup, point.mesh, point.states, (fault,), ())
    if fault.element not in every:
        return False
    broken = every[fault.element]
    return _carries_alike(point, sound, broken) and _does_alike(point, fault.element, broken)


def _carries_alike(point: OperatingPoint, sound: Sequence[Slot], broken: Sequence[Slot]) -> bool:
    amps: dict[tuple[int, int], float] = {}
    for slots, sign in ((sound, 1.0), (broken, -1.0)):
        for slot in slots:
            ends = (slot.a, slot.b)
            amps[ends] = amps.get(ends, 0.0) + sign * point.slot_amps(slot)
    return all(abs(left) < STRAY_AMPS for left in amps.values())


def _does_alike(point: OperatingPoint, element: str, broken: Sequence[Slot]) -> bool:
    part, context = point.circuit.elements[element], point.circuit.context
    kind, before = part.kind, point.felt(element)
    after = felt(part, before.state, broken, point.volts)
    if kind.moves is not None:
        wanted = [kind.moves(part.values, feels, context) for feels in (before, after)]
        if wanted[0] != wanted[1]:
            return False
    if kind.shows is None:
        return True
    shown = [kind.shows(part.values, feels, context) for feels in (before, after)]
    return abs(shown[0] - shown[1]) < SAME_SHOWN
