"""Every single fault of a circuit with its odds before any evidence, scaled by what the story says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import Fault, sizes
from footwell.parts.base import Mode

BASE_ODDS = 0.004
"""Chance that a mated contact of a vehicle brought in with this kind of complaint is at fault: the
scale of all rates, so that 40 elements give about two faults in ten vehicles elsewhere in the circuit
(common practice, no source)."""

Repair = tuple[str, str]
"""(element, act): what mends a fault. Faults with the same repair need not be told apart."""


@dataclass(frozen=True)
class Circumstances:
    """What the story says of each place, as factors on rates (common practice, no source)."""

    renewed: tuple[str, ...] = ()
    rewired: tuple[str, ...] = ()
    seen: tuple[tuple[str, str], ...] = ()

    @property
    def touched(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys([*self.renewed, *self.rewired]))


JUST_REPAIRED = 12.0
RENEWED_PART = 0.7
BENDS_IN_USE = 8.0
SEEN: Mapping[str, Mapping[str, float]] = {
    "burnt": {"high_resistance": 40.0, "open": 15.0},
    "melted": {"high_resistance": 40.0, "open": 15.0},
    "green": {"high_resistance": 25.0, "open": 10.0},
    "wet": {"high_resistance": 8.0, "open": 3.0, "short_to_earth": 3.0},
    "chafed": {"short_to_earth": 40.0, "open": 30.0, "high_resistance": 15.0},
    "loose": {"open": 30.0, "high_resistance": 30.0},
    "smell": {"high_resistance": 5.0, "stiff": 5.0, "seized": 5.0, "open": 2.0},
}


@dataclass(frozen=True, slots=True)
class SingleFault:
    """A fault, its odds, and the act that mends it."""

    fault: Fault
    odds: float
    repair: Repair = field(default=("", ""))


def single_faults(circuit: Circuit, story: Circumstances) -> list[SingleFault]:
    """All single faults in the order of the circuit's elements; sized modes once for each size."""
    ladder = sizes(circuit.context.system_volts, circuit.context.default_amps)
    found: list[SingleFault] = []
    for element in circuit.elements.values():
        for mode in element.modes.values():
            odds = BASE_ODDS * mode.rate * _factor(circuit, element, mode, story)
            steps = ladder if mode.sized else mode.factors or (0.0,)
            repair = (element.id, mode.repair)
            found += [
                SingleFault(Fault(element.id, mode.name, size), odds / len(steps), repair)
                for size in steps
            ]
    return found


def _factor(circuit: Circuit, element: Element, mode: Mode, story: Circumstances) -> float:
    general = mode.name.split(":")[0]
    factor = 1.0
    if element.kind.name == "contact":
        connector = circuit.connectors[element.id.split(".")[0]]
        if {connector.id, *connector.parts} & set(story.touched):
            factor *= JUST_REPAIRED
    elif element.id in story.renewed:
        factor *= RENEWED_PART
    if element.kind.name == "wire" and any(
        w.moves for w in circuit.sheet.wires if w.id == element.id
    ):
        factor *= BENDS_IN_USE
    for where, what in story.seen:
        if where in (element.id, element.id.split(".")[0]):
            factor *= SEEN[what].get(general, 1.0)
    return factor
