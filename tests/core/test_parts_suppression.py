"""What clips the coil's kick: Zener or suppressor, diode or resistor across a relay's coil."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.parts.relay import KIND as RELAY
from footwell.parts.relay import Relay
from footwell.parts.zener import Breakdown, Zener
from footwell.reference.relays import SUPPRESSION_RESISTOR_OHMS

from .electrics_rig import EARTH, Part, circuit_of, run
from .parts_rig import NAME, TWELVE, battery, fault, fed, resistor


def zener(*faults: object, through: float = 0.5, **values: float) -> float:
    """Amps out of the battery with the diode across it behind half an ohm."""
    volts = values.pop("volts", 12.5)
    return -fed("zener", Zener(**values), *faults, through=through, volts=volts).amps("G1")  # type: ignore[arg-type]


def test_sound_one_is_not_there_at_the_vehicles_voltage() -> None:
    assert abs(zener()) < 1e-6
    assert abs(zener(both_ways=True)) < 1e-6


def test_it_clips_what_rises_above_its_breakdown() -> None:
    assert zener(volts=40.0) > 10.0
    assert abs(zener(volts=24.0)) < 1e-3


def test_it_holds_its_voltage_behind_a_resistor() -> None:
    # 45 V, 1,000 ohm and a Zener of 12.6 V give 32.4 mA and 32.4 V over the resistor: Lessons In
    # Electric Circuits vol. III ch. 3 (seen).
    point = fed("zener", Zener(12.6), volts=45.0, through=1000.0)
    assert point.at(f"{NAME}.K") == pytest.approx(12.6, rel=0.04)
    assert -point.amps("G1") == pytest.approx(0.0324, rel=0.02)


def test_wrong_way_round_it_shorts_the_supply_and_one_for_both_ways_does_not() -> None:
    def turned(values: Zener) -> float:
        part = Part(NAME, "zener", values, {"A": "fed", "K": EARTH})
        return -run(circuit_of([battery(), part, resistor("R", "plus", "fed", 0.5)])).amps("G1")

    assert turned(Zener()) > 20.0
    assert abs(turned(Zener(both_ways=True))) < 1e-6


def test_shorted_it_draws_all_the_feed_can_give_and_conducting_early_some_of_it() -> None:
    assert zener(fault("short")) == pytest.approx(24.0, rel=0.05)
    assert 0.2 < zener(fault("drifted", 0.42)) < 5.0


def test_open_it_clips_nothing_more() -> None:
    assert abs(zener(fault("open"), volts=40.0)) < 1e-6 < zener(volts=40.0)


@given(st.floats(2, 60), st.floats(-80, 80), st.floats(1e-6, 20))
def test_breakdown_current_never_falls_as_voltage_rises(
    breakdown: float, volts: float, more: float
) -> None:
    law = Breakdown(breakdown, 0.01 * breakdown)
    low, slope = law.at(volts)
    assert slope > 0.0 and law.at(volts + more)[0] >= low
    assert law.at(0.0)[0] == pytest.approx(0.0, abs=1e-12)


def coil(values: Relay, plus: str = "86") -> float:
    """Amps out of the battery with the coil fed at one of its ends behind 2 Ω."""
    minus = {"86": "85", "85": "86"}[plus]
    nets = {"30": "x", "87": "y", plus: "fed", minus: EARTH}
    part = Part(NAME, "relay", values, nets)
    return -run(circuit_of([battery(), part, resistor("R", "plus", "fed", 2.0)])).amps("G1")


def test_resistor_across_a_coil_takes_some_20_milliamps_whichever_way_round() -> None:
    # 560 to 680 ohm across a 12 V coil: common practice, no source.
    extra = 12.0 / SUPPRESSION_RESISTOR_OHMS[12].mean
    plain, both = coil(Relay(85.0)), coil(Relay(85.0, resistor=True))
    assert both - plain == pytest.approx(extra, rel=0.05)
    assert coil(Relay(85.0, resistor=True), "85") == pytest.approx(both)


def test_diode_across_a_coil_shorts_the_feed_the_wrong_way_round_only() -> None:
    assert coil(Relay(85.0, diode=True)) == pytest.approx(coil(Relay(85.0)), abs=1e-6)
    assert coil(Relay(85.0, diode=True), "85") > 4.0


def test_a_relay_with_both_is_objected_to() -> None:
    [(name, _, remedy)] = RELAY.objections(Relay(diode=True, resistor=True), TWELVE)
    assert name == "resistor" and remedy
    assert not list(RELAY.objections(Relay(resistor=True), TWELVE))
