"""Truths for the drawn circuits that are not the engine's own, and faults that come and go.

Rates off by a factor, sizes of a high resistance off the list, tolerances spread evenly instead of
normally, node voltages by a general-purpose simulator.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from family import FAULT_RATE, Family, drawn, single_faults
from family_jobs import Job, Parts, Truth, begun, prepared
from parity.simulator import by_currents, run

from footwell.checks.check import Check
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.electrics.operating_point import operate
from footwell.electrics.spice import netlist, node_names

Rates = Mapping[str, float]
"""Factor on every part's rate."""

SIZE_OFF = 1.6
ABSENT = 0.3
"""Share of readings at which a fault that comes and goes is away."""
CASES_A_CIRCUIT = 10


@dataclass(frozen=True)
class World:
    """How the vehicles differ from what the engine takes for granted. `told` puts the rates into the
    engine's circuit too."""

    rates_off: float = 1.0
    told: bool = False
    size_off: float = 1.0
    tolerant: bool = False
    evenly: bool = False
    simulated: bool = False


@dataclass
class Simulated(Truth):
    """A vehicle whose node voltages are those of ngspice. No meter hangs in its netlist: 10 MΩ beside the
    family's ohms is far below a count, and what floats is at 0 V with it or without it, but for the leak."""

    def reads(self, check: Check, slip: bool = False) -> float:
        by_us = super().reads(check, slip)
        node = self.circuit.node_of[check.red]
        point = operate(self.circuit, check.setup, self.faults)
        key = ("ngspice", self.faults)
        if key not in self.circuit.cache:
            self.circuit.cache[key] = run([by_currents(netlist(point))])[0]
        name = node_names(self.circuit)[node].lower()
        return by_us + self.circuit.cache[key][name] - point.volts[node]


@dataclass
class ComesAndGoes(Job):
    """A fault that is away at a share of the readings. Who reads sees the load work meanwhile and says so:
    such a reading is no evidence. Where it is `unnoticed`, it counts like any other."""

    unnoticed: bool = False

    def read(self, check: Check, slip: bool = False) -> None:
        away = self.truth.chance.random() < ABSENT
        standing = self.truth.faults
        self.truth.faults = () if away else standing
        super().read(check, slip)
        self.truth.faults = standing
        if away and not self.unnoticed:
            self.evidence.pop()


def jobs_in(world: World, branches: int, faults: int, cases: int, seed: int) -> Iterator[Job]:
    """Complaints of so many faults each, drawn by the world's rates."""
    return _jobs(world, branches, cases, seed, f"{faults}", lambda f, r, c: _some(f, r, faults, c))


def prior_jobs_in(world: World, branches: int, cases: int, seed: int) -> Iterator[Job]:
    """Complaints as they come by the world's rates."""
    return _jobs(world, branches, cases, seed, "prior", _by_rate)


Draw = Callable[[Family, Rates, random.Random], tuple[Fault, ...]]


def _jobs(
    world: World, branches: int, cases: int, seed: int, name: str, draw: Draw
) -> Iterator[Job]:
    chance = random.Random(f"{name} {branches} {seed}")
    found = 0
    while found < cases:
        family, rates = _family(world, branches, chance)
        here = 0
        for _ in range(60 * CASES_A_CIRCUIT):
            faults = tuple(_sized(f, world, chance) for f in draw(family, rates, chance))
            job = begun(family, faults, chance) if faults else None
            if job is not None and found < cases and here < CASES_A_CIRCUIT:
                if world.simulated:
                    job.truth = Simulated(job.truth.circuit, job.truth.faults, job.truth.chance)
                found, here = found + 1, here + 1
                yield job


def _family(world: World, branches: int, chance: random.Random) -> tuple[Family, Rates]:
    family = drawn(branches, chance, world.tolerant, world.evenly)
    off = (world.rates_off, 1.0 / world.rates_off)
    rates = {part: chance.choice(off) for part in family.parts}
    if world.told:
        family = Family(_rated(family.circuit, rates), family.vehicle)
    return prepared(family), rates


def _rated(circuit: Circuit, rates: Rates) -> Circuit:
    """The circuit with its parts' rates multiplied."""
    elements = {
        e.id: replace(e, values=replace(e.values, rate=rates.get(e.id, 1.0)))
        for e in circuit.elements.values()
    }
    return replace(circuit, elements=elements, cache={})


def _some(family: Family, rates: Rates, count: int, chance: random.Random) -> tuple[Fault, ...]:
    weights = [rates[part] for part in family.parts]
    parts: Parts = frozenset()
    while len(parts) < count:
        parts |= frozenset(chance.choices(family.parts, weights))
    return _modes(family, parts, chance)


def _by_rate(family: Family, rates: Rates, chance: random.Random) -> tuple[Fault, ...]:
    parts = frozenset(p for p in family.parts if chance.random() < FAULT_RATE * rates[p])
    return _modes(family, parts, chance)


def _modes(family: Family, parts: Parts, chance: random.Random) -> tuple[Fault, ...]:
    every = single_faults(family.circuit)
    return tuple(chance.choice([f for f in every if f.element == p]) for p in sorted(parts))


def _sized(fault: Fault, world: World, chance: random.Random) -> Fault:
    """The fault with its size off the list, above or below."""
    off = chance.choice((world.size_off, 1.0 / world.size_off))
    return fault._replace(size=fault.size * off)


def coming_and_going(jobs: Iterator[Job], unnoticed: bool = False) -> Iterator[Job]:
    """The same jobs with faults that come and go."""
    for job in jobs:
        yield ComesAndGoes(
            job.family, job.truth, job.evidence, job.epochs, job.checks, unnoticed=unnoticed
        )
