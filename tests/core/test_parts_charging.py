"""Charging source: what the meter reads at the battery with the engine off and running, each fault."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.spread import volts_leans
from footwell.parts.battery import Battery
from footwell.parts.charging_source import ChargingSource
from footwell.parts.lamp import Lamp
from footwell.parts.sources import Charging, Regulated
from footwell.reference.supplies import supply

from .electrics_rig import EARTH, Part, circuit_of
from .parts_rig import resistor, shown

PLUS = "G1.+"


def vehicle(
    *faults: Fault, engine: str = "on", load_ohms: float = 1.0, d_plus: bool = False
) -> OperatingPoint:
    """Battery, alternator of 90 A, a load, and a charge lamp from the battery to D+."""
    ends = {"B+": "plus", "B-": EARTH} | ({"D+": "d"} if d_plus else {})
    parts = [
        Part("G1", "battery", Battery(12.5, 0.008), {"+": "plus", "-": EARTH}),
        Part("G2", "charging_source", ChargingSource(d_plus=d_plus), ends),
        resistor("R1", "plus", EARTH, load_ohms),
    ]
    if d_plus:
        parts.append(Part("H1", "lamp", Lamp(2.0, 12.0), {"1": "plus", "2": "d"}))
    circuit = circuit_of(parts, joint_mm2=25.0)
    return operate(circuit, set_up(circuit, engine=engine), faults)


def test_running_it_holds_the_regulated_voltage_and_charges_the_battery_with_a_few_amps() -> None:
    # 13.8 to 14.5 V: common practice, no source.
    point = vehicle()
    assert point.at(PLUS) == pytest.approx(supply(12).engine_running.mean, abs=0.15)
    assert point.amps("G1") == pytest.approx(5.0, abs=1.0)


def test_engine_off_the_battery_feeds_all_and_the_alternator_leaks_a_milliamp() -> None:
    point = vehicle(engine="off")
    assert point.at(PLUS) < 12.5 and point.amps("G1") < -11.0
    assert 0.0 < point.amps("G2") < 0.002


def test_dead_it_leaves_the_battery_to_feed_all_though_the_engine_runs() -> None:
    point = vehicle(Fault("G2", "dead"))
    assert point.at(PLUS) < 12.5 and point.amps("G1") < -11.0


def test_beyond_its_limit_the_battery_gives_the_rest() -> None:
    within, beyond = vehicle(load_ohms=0.2), vehicle(load_ohms=0.1)
    assert within.amps("G1") > 0.0 > beyond.amps("G1")
    assert beyond.amps("G2") == pytest.approx(-90.0, abs=1.0)


@pytest.mark.parametrize(("size", "charges"), [(0.5, True), (0.1, False)])
def test_giving_too_little_shows_once_the_load_asks_for_more(size: float, charges: bool) -> None:
    low = Fault("G2", "low", size)
    assert vehicle(low, load_ohms=100.0).at(PLUS) > 13.5
    assert (vehicle(low, load_ohms=0.5).at(PLUS) > 13.0) is charges


def test_over_voltage_lifts_the_supply_above_16_volts_only_while_running() -> None:
    over = Fault("G2", "over_voltage")
    assert vehicle(over).at(PLUS) > 16.0
    assert vehicle(over, engine="off").at(PLUS) < 12.5


@pytest.mark.parametrize(("ohms", "amps"), [(100.0, 0.125), (15.0, 0.83)])
def test_shorted_diode_drains_the_battery_at_rest(ohms: float, amps: float) -> None:
    drained = vehicle(Fault("G2", "short_diode", ohms), engine="off", load_ohms=1e5)
    assert drained.amps("G1") == pytest.approx(-amps, rel=0.02)
    assert abs(vehicle(engine="off", load_ohms=1e5).amps("G1")) < 0.002


@pytest.mark.parametrize(
    ("mode", "engine", "lit"),
    [
        ("", "off", True),
        ("", "on", False),
        ("dead", "on", True),
        ("open:field", "off", False),
        ("open:field", "on", False),
    ],
)
def test_charge_lamp_is_lit_with_the_engine_off_and_out_while_it_charges(
    mode: str, engine: str, lit: bool
) -> None:
    point = vehicle(*([Fault("G2", mode)] if mode else []), engine=engine, d_plus=True)
    assert (shown(point, "H1") > 0.3) is lit


def test_what_the_regulated_voltage_scatters_is_the_supplys_and_not_the_parts() -> None:
    point = vehicle()
    slot = next(s for s in point.slots if s.element == "R1")
    leans = volts_leans(point, slot)
    assert leans["supply", ""] == pytest.approx(supply(12).engine_running.sigma, rel=0.1)
    assert ("G2", "") not in leans and ("G1", "") not in leans
    off = volts_leans(vehicle(engine="off"), slot)
    assert off["supply", ""] == pytest.approx(supply(12).engine_off.sigma, rel=0.1)


@pytest.mark.parametrize("law", [Regulated(14.2, 0.005, 90.0), Charging(12.5, 0.005, 0.33)])
@given(volts=st.floats(-20.0, 40.0), more=st.floats(1e-6, 20.0))
def test_current_never_falls_as_voltage_rises(
    law: Regulated | Charging, volts: float, more: float
) -> None:
    assert law.at(volts)[1] > 0.0
    assert law.at(volts + more)[0] > law.at(volts)[0]


def test_a_weak_battery_beside_it_stays_weak() -> None:
    weak, sound = (
        vehicle(*faults, Fault("G2", "dead")) for faults in ([Fault("G1", "weak", 0.85)], [])
    )
    assert weak.at(PLUS) < 10.7 < 12.3 < sound.at(PLUS)
