"""Stress of every part in the set-ups that were used, and what it does to the odds of a second fault.

Stress is current over rating. A thermal fuse opens by temperature: heat goes with the square of the
current, cooling with the air that the motor moves, so its stress is I / (rating * sqrt(air)). The same
figures, read backwards, are the cause behind a cause.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.electrics.network import Slot
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.laws import Armature

STILL_AIR = 0.25
"""Cooling without the fan, as a share of that at full speed (common practice, no source)."""

MOST = 0.6
"""Chance of damage to a part loaded far over its rating for as long as a story lasts."""

MOST_BRIEF = 0.2
"""The same where a fuse opens within moments."""

BLOWN = 0.95
"""Chance that a fuse which the current opens is found open."""


@dataclass(frozen=True, slots=True)
class Stress:
    """A branch loaded over its rating: `ratio` of the stress, current and rating in A."""

    element: str
    branch: str
    ratio: float
    amps: float
    rating: float
    setup: SetupState
    blown: bool = False
    brief: bool = False


Key = tuple[str, str]


def stresses(
    circuit: Circuit, setups: tuple[SetupState, ...], faults: tuple[Fault, ...]
) -> dict[Key, Stress]:
    """Highest stress of each rated branch over the set-ups, where it exceeds its rating."""
    key = ("stresses", setups, faults)
    if key not in circuit.cache:
        circuit.cache[key] = _stresses(circuit, setups, faults)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _stresses(
    circuit: Circuit, setups: tuple[SetupState, ...], faults: tuple[Fault, ...]
) -> dict[Key, Stress]:
    worst: dict[Key, Stress] = {}
    for setup in setups:
        for stress in _in_setup(circuit, setup, faults):
            key = (stress.element, stress.branch)
            if key not in worst or stress.ratio > worst[key].ratio:
                worst[key] = stress
    return worst


def _in_setup(circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...]) -> list[Stress]:
    """Stress in the lasting state, and in the moment before a fuse opened."""
    lasting = operate(circuit, setup, faults)
    found = [Stress(f, "", 2.0, 0.0, 0.0, setup, blown=True) for f in lasting.blown]
    found += _at(lasting, brief=False)
    if lasting.blown:
        known = {(s.element, s.branch) for s in found}
        moment = _at(operate(circuit, setup, faults, hold_fuses=True), brief=True)
        found += [
            s for s in moment if (s.element, s.branch) not in known and not _is_wire(circuit, s)
        ]
    return found


def _is_wire(circuit: Circuit, stress: Stress) -> bool:
    """A fuse opens before the wire in line with it is hurt: it is chosen for that."""
    return circuit.elements[stress.element].kind.name == "wire"


def _at(point: OperatingPoint, brief: bool) -> list[Stress]:
    found: list[Stress] = []
    for slot in point.slots:
        rating = slot.branch.rating_amps
        if rating:
            amps = abs(slot.branch.law.at(point.across(slot))[0])
            ratio = amps / (rating * math.sqrt(_air(point, slot)))
            if ratio > 1.0 and not _is_fuse(point, slot):
                found.append(
                    Stress(
                        slot.element,
                        slot.branch.name,
                        ratio,
                        amps,
                        rating,
                        point.setup,
                        False,
                        brief,
                    )
                )
    return found


def _is_fuse(point: OperatingPoint, slot: Slot) -> bool:
    """A fuse carries its rating and more; only `blown` speaks for it."""
    return point.circuit.elements[slot.element].kind.name == "fuse"


def _air(point: OperatingPoint, slot: Slot) -> float:
    values = (
        point.circuit.elements[slot.element].values
        if slot.element in point.circuit.elements
        else None
    )
    motor = getattr(values, "cooled_by", "")
    if not motor or slot.branch.name != "thermal fuse":
        return 1.0
    speed = 0.0
    for other in point.slots:
        if other.element == motor and isinstance(other.branch.law, Armature):
            speed = other.branch.law.speed(point.across(other))
    return STILL_AIR + (1.0 - STILL_AIR) * min(speed, 1.0)


def chance(stress: Stress) -> float:
    """Chance that a stressed part was damaged.

    >>> round(chance(Stress("R1", "thermal fuse", 1.28, 6.6, 6.5, SetupState())), 2)
    0.26
    """
    if stress.blown:
        return BLOWN
    most = MOST_BRIEF if stress.brief else MOST
    return most * (1.0 - math.exp(-2.0 * max(stress.ratio - 1.0, 0.0)))


def damage_modes(circuit: Circuit, stress: Stress) -> list[Fault]:
    """The faults that a stress leaves behind, as far as the part has them."""
    element = circuit.elements[stress.element]
    wanted = ("open", "short", "high_resistance")
    found: list[Fault] = []
    for mode in element.modes.values():
        general, _, of = mode.name.partition(":")
        if general in wanted and (of or mode.of) in ("", stress.branch) and not mode.sized:
            found.append(Fault(element.id, mode.name))
    return found
