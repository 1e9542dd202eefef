"""Small cases for the comparison with a Bayesian network: the family of circuits, and two sheets."""

from __future__ import annotations

import math
import random
import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from footwell.checks import sights
from footwell.checks.catalogue import catalogue, working_setups
from footwell.checks.check import LOOK, OHMS, VOLTS, Check
from footwell.checks.clipped import part_of
from footwell.checks.hands import Tools
from footwell.checks.outlook import outlook
from footwell.checks.predict import Nuisance, Reading, expected, seen_as
from footwell.circuit.circuit import Circuit, build
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState, set_up
from footwell.diagnosis.case import Case, Epoch, Sighting, Taken
from footwell.parts.base import EARTH
from footwell.sheet.reading import read_sheet

from .cases import CIRCUITS
from .network import Faults

sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

from family import SWITCHES, drawn, fault_sets


def sightings(circuit: Circuit, setup: SetupState, faults: Faults) -> list[Sighting]:
    """The likeliest word for every load."""
    found: list[Sighting] = []
    for load in circuit.sheet.loads:
        now, usual = (outlook(circuit, setup, f).activity[load] for f in (faults, ()))
        chances = sights.chances(seen_as(circuit, load), now, usual, 0.0)
        word = max(chances, key=lambda each: chances[each])
        found.append(Sighting(0, 0, setup, load, word, "me"))
    return found


def readings(
    circuit: Circuit, checks: Iterable[Check], faults: Faults, chance: random.Random
) -> list[Taken]:
    """What checks read, each tolerance drawn once and the meter's scatter each time; of words the
    likeliest."""
    drawn_once: dict[Nuisance, float] = {}
    found: list[Taken] = []
    for n, check in enumerate(checks):
        said = expected(circuit, check, faults)
        if isinstance(said, dict):
            word = max(said, key=lambda each: said[each])
            found.append(Taken(0, 0, check, None, word, n))
            continue
        assert isinstance(said, Reading)
        value = said.mean
        if math.isfinite(value):
            for key, lean in said.leans.items():
                value += lean * drawn_once.setdefault(key, chance.gauss(0.0, 1.0))
            value += chance.gauss(0.0, said.instrument_sigma)
        found.append(Taken(0, 0, check, value, "", n))
    return found


def case_of(circuit: Circuit, *evidence: Sequence[Sighting | Taken]) -> Case:
    return Case(lambda _: circuit, (Epoch(),), tuple(item for rows in evidence for item in rows))


def family_case(seed: int, faults: int, count: int) -> Case:
    """Two branches with faults that people notice, and some node voltages; every other one with
    tolerances."""
    chance = random.Random(seed)
    circuit = drawn(2, chance, tolerant=seed % 2 == 1).circuit
    setup = set_up(circuit, {SWITCHES: "on"})
    well = sightings(circuit, setup, ())
    sets = list(fault_sets(circuit, faults))
    true = chance.choice(sets)
    while sightings(circuit, setup, true) == well:
        true = chance.choice(sets)
    checks = [Check(VOLTS, p, EARTH, setup) for p in chance.sample(circuit.points, count)]
    return case_of(
        circuit, sightings(circuit, setup, true), readings(circuit, checks, true, chance)
    )


@dataclass(frozen=True)
class Bench:
    """A sample sheet with a handful of suspects and some checks. `volts` are places, in the position
    `on`; `ohms` is a part out of the circuit, `look` a fuse."""

    sheet: str
    suspects: tuple[Fault, ...]
    on: dict[str, str]
    volts: tuple[str, ...]
    ohms: str
    look: str

    @property
    def circuit(self) -> Circuit:
        return _circuit(self.sheet)

    def case(self, true: Fault, *checks: Check) -> Case:
        """What the loads do in every position under a fault, and some readings."""
        circuit, chance = self.circuit, random.Random(str(true))
        every = [sightings(circuit, setup, (true,)) for setup in working_setups(circuit)]
        return case_of(circuit, *every, readings(circuit, checks, (true,), chance))

    def on_volts(self) -> list[Check]:
        setup = set_up(self.circuit, self.on)
        return [Check(VOLTS, place, EARTH, setup) for place in self.volts]

    def by_eye(self) -> Check:
        return Check(LOOK, self.look, "", set_up(self.circuit))

    def on_ohms(self) -> Check:
        every = catalogue(self.circuit, Tools(("meter",)))
        return next(
            c for c in every if c.instrument == OHMS and part_of(self.circuit, c) == self.ohms
        )


@cache
def _circuit(name: str) -> Circuit:
    read = read_sheet((CIRCUITS / f"{name}.json").read_text("utf-8"))
    return build(read.sheet, read.values)


FAN = Bench(
    "minibus-saloon-fan",
    (
        Fault("F1", "open"),
        Fault("R1", "open:thermal fuse"),
        Fault("W10", "open"),
        Fault("W10", "high_resistance", 0.632),
        Fault("M1", "open"),
        Fault("E1", "high_resistance", 0.632),
    ),
    {"S1": "3"},
    ("X4.1.a", "X4.2.a", "F1.2"),
    "R1",
    "F1",
)
SCREEN = Bench(
    "van-rear-screen",
    (
        Fault("F2", "open"),
        Fault("K1", "stuck_open"),
        Fault("W4", "high_resistance", 0.632),
        Fault("X2.1", "high_resistance", 0.632),
        Fault("H1", "open"),
        Fault("E1", "open"),
        Fault("W5", "high_resistance", 0.632),
        Fault("E1", "high_resistance", 0.632),
    ),
    {"S0": "on", "S1": "on"},
    ("H1.+", "H1.-", "F2.2"),
    "K1",
    "F2",
)
