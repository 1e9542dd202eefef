"""Battery and charging voltages and allowed drops against published values."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.reference import supplies as s
from footwell.reference.drops import CRANKING_VOLTS_PER_100_AMPS, DROP_LIMITS, drop_limit_volts


# US Army TM 5-3805-262-20 p. 5-142: resting voltage of a 12 V battery against charge.
@pytest.mark.parametrize(
    ("percent", "volts"), [(0, 11.7), (25, 12.0), (50, 12.2), (75, 12.4), (100, 12.6)]
)
def test_resting_voltage_is_that_of_the_army_table(percent: float, volts: float) -> None:
    assert s.open_circuit_volts(percent) == pytest.approx(volts)
    assert s.charge_percent(volts) == pytest.approx(percent)
    assert s.open_circuit_volts(percent, 24) == pytest.approx(2 * volts)


# Battery-industry service list (memory): lists differ by up to 0.1 V, and by 0.2 V when flat.
@pytest.mark.parametrize(
    ("percent", "volts"), [(25, 12.06), (50, 12.24), (75, 12.45), (100, 12.65)]
)
def test_another_published_list_differs_by_no_more_than_a_tenth_of_a_volt(
    percent: float, volts: float
) -> None:
    assert s.open_circuit_volts(percent) == pytest.approx(volts, abs=0.1)


def test_cell_rule_gives_the_resting_voltage_of_a_full_battery() -> None:
    # Handbook rule (memory): volts per cell = specific gravity + 0.84; 1.265 when full.
    assert s.open_circuit_volts(100) == pytest.approx(6 * (1.265 + 0.84), abs=0.05)


# ISO 16750-2:2010 tables 1 and 2.
@pytest.mark.parametrize(
    ("code", "low", "high"),
    [
        ("A", 6, 16),
        ("B", 8, 16),
        ("C", 9, 16),
        ("D", 10.5, 16),
        ("E", 10, 32),
        ("F", 16, 32),
        ("G", 22, 32),
        ("H", 18, 32),
    ],
)
def test_supply_range_is_that_of_iso_16750(code: str, low: float, high: float) -> None:
    assert s.SUPPLY_RANGES[code] == (low, high)


@pytest.mark.parametrize(("nominal", "volts"), [(12, 14.0), (24, 28.0)])
def test_running_supply_agrees_with_the_test_voltage_of_iso_16750(
    nominal: int, volts: float
) -> None:
    running = s.supply(nominal).engine_running
    assert s.TEST_VOLTS_RUNNING[nominal].value == volts
    assert abs(running.mean - volts) <= 2 * running.sigma


# Common practice, no source: 13.8 to 14.5 V, 27.6 to 28.8 V with a conventional regulator.
@pytest.mark.parametrize(("nominal", "low", "high"), [(12, 13.8, 14.5), (24, 27.6, 28.8)])
def test_charging_range_lies_within_two_sigma_of_the_running_supply(
    nominal: int, low: float, high: float
) -> None:
    running = s.supply(nominal).engine_running
    assert running.mean - 2 * running.sigma <= low < high <= running.mean + 2 * running.sigma


@pytest.mark.parametrize("nominal", [12, 24])
def test_engine_off_and_running_cannot_be_mistaken_for_each_other(nominal: int) -> None:
    usual = s.supply(nominal)
    gap = usual.engine_running.mean - usual.engine_off.mean
    assert gap > 3 * (usual.engine_running.sigma + usual.engine_off.sigma)


def test_healthy_battery_passes_the_load_test() -> None:
    # Battery-industry load test (memory): 9.6 V or more after 15 s at half the cranking current.
    ohms = s.supply(12).off_ohms
    assert s.open_circuit_volts(100) - 300 * (ohms.mean + 2 * ohms.sigma) > 9.6
    assert s.load_test_ohms(600) == pytest.approx(0.010)


def test_24_volts_is_two_batteries_in_series() -> None:
    one, two = s.supply(12), s.supply(24)
    assert two.engine_off.mean == 2 * one.engine_off.mean
    assert two.off_ohms.mean == 2 * one.off_ohms.mean


def test_sound_resting_battery_lies_between_half_and_full_charge() -> None:
    # US Army TM 5-3805-262-20: 12.2 V at 50 %; a full one may hold a surface charge above 12.6 V.
    off = s.supply(12).engine_off
    assert off.mean - 2 * off.sigma >= 12.2 and 12.6 <= off.mean + 2 * off.sigma <= 12.9


def test_limits_of_the_army_manuals() -> None:
    # TM 5-3805-262-20: load test below 12.4 V. TM 9-6140-200-14 par. 2-4: harmed below 10.5 V.
    assert s.LOAD_TEST_BELOW_VOLTS_12.value == 12.4
    assert s.DISCHARGE_LIMIT_VOLTS_12.value == 10.5


@given(st.floats(0, 100))
def test_charge_and_voltage_are_each_other_s_inverse(percent: float) -> None:
    for nominal in (12, 24):
        volts = s.open_circuit_volts(percent, nominal)
        assert s.charge_percent(volts, nominal) == pytest.approx(percent, abs=1e-6)


def test_a_supply_of_another_voltage_is_refused() -> None:
    with pytest.raises(ValueError, match="Supply of 36 V is not in the table"):
        s.supply(36)


# Limits: FAA AC 43.13-1B table 11-6; US Army TM 10-3930-671-24; TM 9-2320-211-20; common practice.
@pytest.mark.parametrize(
    ("stretch", "nominal", "volts"),
    [
        ("bus to load, continuous, 14 V", 12, 0.5),
        ("bus to load, intermittent, 14 V", 12, 1.0),
        ("bus to load, continuous, 28 V", 24, 1.0),
        ("bus to load, intermittent, 28 V", 24, 2.0),
        ("cranking, battery post to starter terminal", 12, 0.4),
        ("cranking, earth cable to frame, 24 V", 24, 0.1),
        ("cranking, battery cable, 24 V", 24, 0.2),
        ("feed, whole", 12, 0.5),
        ("one length of wire", 12, 0.2),
        ("sensor earth", 12, 0.05),
        ("whole circuit, repair", 12, 1.0),
    ],
)
def test_allowed_drop_is_the_published_one(stretch: str, nominal: int, volts: float) -> None:
    assert drop_limit_volts(stretch, nominal) == pytest.approx(volts)


def test_whole_feed_limit_of_the_trade_agrees_with_aircraft_practice_on_both_voltages() -> None:
    for nominal, aircraft in ((12, "14 V"), (24, "28 V")):
        published = drop_limit_volts(f"bus to load, continuous, {aircraft}", nominal)
        assert drop_limit_volts("feed, whole", nominal) == published


def test_cranking_limit_is_two_milliohm() -> None:
    # US Army TM 10-3930-671-24 p. F-303: 0.20 V per 100 A.
    assert CRANKING_VOLTS_PER_100_AMPS.volts / 100 == pytest.approx(0.002)


def test_no_part_of_a_circuit_may_drop_more_than_the_whole_of_it() -> None:
    parts = ["feed, whole", "earth, motors", "switch or relay contact", "high-current cable"]
    whole = drop_limit_volts("whole circuit, repair", 12)
    assert all(drop_limit_volts(part, 12) < whole for part in parts)


def test_an_unknown_stretch_is_refused_with_those_listed() -> None:
    with pytest.raises(ValueError, match="No drop limit for 'roof'; the table lists feed, whole;"):
        drop_limit_volts("roof", 12)
    assert len(DROP_LIMITS) == 19
