"""Bands against lots drawn: a few readings of some sheets; all of them in tests/bench/spread_bench.py."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from statistics import mean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st
from parity.cases import load, random_cases, sample_sheets
from parity.seed import commit

from footwell.checks.check import VOLTS, Check
from footwell.checks.predict import Reading, expected
from footwell.circuit.fault import STEP_SPREAD, Fault, broken_branches
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.parts.laws import Resistance

from .electrics_random import CALMLY
from .random_circuits import random_circuit
from .spread_rig import Band, bands, is_skewed, resized

STEP = 1e-6
ALLOWED = 0.05
FAR_OFF = 0.12
SHEETS = 6
"""An edge may be off by these shares of the band's width: nearly every one, and any; on so many sheets."""


def test_edges_of_a_sample_of_bands_are_where_lots_put_them() -> None:
    """Of all readings 95 % must be within the limit (tests/bench/spread_bench.py counts them). Neighbours
    on one wire stand or fall together, so a sample is allowed twice as many, and none far off."""
    seed = commit()
    chance = Random(seed)
    circuits = [load(name) for name in chance.sample(sample_sheets(), SHEETS)]
    every = ((c, b) for c in circuits for b in bands(c, chance, 2000, 1, 2))
    found = [b for c, b in every if isinstance(b, Band) and not is_skewed(c, b)]
    astray = [(b.check.id, b.off) for b in found if b.off > ALLOWED]
    assert len(astray) <= max(2, 0.1 * len(found)), (seed, len(found), astray)
    assert all(off <= FAR_OFF for _, off in astray), (seed, astray)


@pytest.mark.parametrize("name", ["camper-split-charge", "estate-charging"])
def test_a_generators_field_winding_is_no_part_of_the_supply_at_the_charge_lamp(name: str) -> None:
    circuit = load(name)
    setup = set_up(circuit, {c.part: "on" for c in circuit.sheet.controls if c.part == "S0"})
    reading = expected(circuit, Check(VOLTS, "X2.1.a", "X2.2.a", setup), ())
    assert isinstance(reading, Reading)
    supply = circuit.branches(circuit.supply_element, "off")[0]
    assert reading.leans["supply", ""] <= supply.spread * reading.mean * 1.05
    assert reading.leans["G2", "field"] > 0.05


@pytest.mark.parametrize("size", [0.02, 0.6, 6.0, 60.0])
def test_a_poor_joint_is_known_to_half_a_step_and_the_heater_it_is_at_as_well_as_before(
    size: float,
) -> None:
    """Against lots: heater and joint each drawn by itself."""
    circuit, chance = load("saloon-seat-heater"), Random(f"joint {size}")
    heater = next(e for e in circuit.elements.values() if e.kind.name == "heater")
    (sound,) = circuit.branches(heater, "")
    (broken,) = broken_branches(circuit, heater, "", (Fault(heater.id, "high_resistance", size),))
    assert isinstance(sound.law, Resistance) and isinstance(broken.law, Resistance)
    own = sound.law.ohms
    lots = [
        own * chance.gauss(1.0, sound.spread) + size * (1.0 + STEP_SPREAD * chance.gauss(0.0, 1.0))
        for _ in range(20_000)
    ]
    assert broken.law.ohms == pytest.approx(own + size)
    assert broken.spread == pytest.approx(stdev(lots) / mean(lots), rel=0.03)
    assert broken.spread < STEP_SPREAD


def test_a_band_a_fifth_too_wide_is_told() -> None:
    circuit = load("minibus-saloon-fan")
    found = [b for b in bands(circuit, Random(1), 2000, 1, 3) if isinstance(b, Band)]
    right = next(b for b in found if b.off <= 0.02)
    leans = {key: 1.2 * lean for key, lean in right.reading.leans.items()}
    reading = replace(
        right.reading, leans=leans, instrument_sigma=1.2 * right.reading.instrument_sigma
    )
    assert replace(right, reading=reading).off > ALLOWED


@CALMLY
@given(st.integers(0, 10**9), st.integers(2, 20))
def test_the_nudge_of_every_law_is_the_change_of_its_current_with_its_size(
    seed: int, size: int
) -> None:
    chance = Random(seed)
    circuit = random_circuit(chance, size)
    case = chance.choice(random_cases(circuit, chance))
    point = operate(circuit, case.setup, case.faults, case.clips)
    for slot in point.slots:
        if slot.branch.spread:
            law, volts = slot.branch.law, point.across(slot)
            more, less = (resized(law, 1.0 + step).at(volts)[0] for step in (STEP, -STEP))
            change = abs(more - less) / (2.0 * STEP)
            # Across a knee the slope is that of one of its sides; a hundredth of a lean is nothing.
            sides = [abs(law.nudge(volts * (1.0 + step))) for step in (-2 * STEP, 0.0, 2 * STEP)]
            low, high = min(sides), max(sides)
            assert low * 0.99 - 1e-6 <= change <= high * 1.01 + 1e-6, (slot.element, law, volts)


def test_a_resistance_grows_with_its_size() -> None:
    assert resized(Resistance(2.0), 1.5).at(3.0) == (1.0, pytest.approx(1 / 3))
