"""Standing load, and the battery that it empties."""

from __future__ import annotations

import pytest

from footwell.parts.battery import KIND as BATTERY
from footwell.parts.battery import Battery
from footwell.parts.standing_load import StandingLoad
from footwell.reference.supplies import QUIESCENT_AMPS

from .electrics_rig import EARTH, Part, circuit_of, run
from .parts_rig import NAME, TWELVE, fault, fed, resistor


def drawn(*faults: object, state: str = "asleep") -> float:
    point = fed("standing_load", StandingLoad(), *faults, controls={NAME: state})  # type: ignore[arg-type]
    return -point.amps("G1")


def test_asleep_it_stays_under_what_a_parked_car_may_draw_and_awake_far_above() -> None:
    # Below 50 mA: common practice, no source.
    assert 0.005 < drawn() < QUIESCENT_AMPS.value
    assert drawn(state="awake") > 1.0


def test_one_that_does_not_fall_asleep_draws_when_asleep_what_it_does_awake() -> None:
    awake = fault("stays_awake")
    assert drawn(awake) == pytest.approx(drawn(state="awake"), rel=1e-6)
    assert drawn(awake, state="awake") == pytest.approx(drawn(state="awake"), rel=1e-6)


@pytest.mark.parametrize("amps", [0.3, 2.0])
def test_a_drain_adds_to_what_it_draws_in_both_states(amps: float) -> None:
    for state in ("asleep", "awake"):
        extra = drawn(fault("drains", amps), state=state) - drawn(state=state)
        assert extra == pytest.approx(amps * 12.5 / 12.0, rel=0.02)


def resting(values: Battery, load_ohms: float = 1e6) -> float:
    parts = [
        Part("G1", "battery", values, {"+": "plus", "-": EARTH}),
        resistor("R", "plus", EARTH, load_ohms),
    ]
    return run(circuit_of(parts, joint_mm2=95.0)).at("G1.+")


# US Army TM 5-3805-262-20 p. 5-142 (seen).
@pytest.mark.parametrize(
    ("charge", "volts"), [(0, 11.7), (25, 12.0), (50, 12.2), (75, 12.4), (100, 12.6)]
)
def test_resting_voltage_follows_the_state_of_charge(charge: float, volts: float) -> None:
    assert resting(Battery(charge=charge)) == pytest.approx(volts, abs=0.001)


@pytest.mark.parametrize(("ohms", "falls"), [(0.005, 0.6), (0.02, 2.0)])
def test_under_a_hundred_amps_it_falls_by_its_internal_resistance(
    ohms: float, falls: float
) -> None:
    values = Battery(ohms=ohms, charge=100)
    load = 12.6 / 110.0
    drop = resting(values) - resting(values, load)
    assert drop == pytest.approx(12.6 * ohms / (load + ohms), rel=0.02)
    assert abs(drop - falls) < 0.15


def test_voltage_and_charge_together_are_objected_to() -> None:
    [(name, what, remedy)] = BATTERY.objections(Battery(12.5, charge=50), TWELVE)
    assert name == "charge" and "12.5 V" in what and remedy
    assert not list(BATTERY.objections(Battery(charge=50), TWELVE))
