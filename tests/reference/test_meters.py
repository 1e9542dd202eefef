"""Instruments against published values."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.reference import meters as m
from footwell.reference.lamps import cold_lamp_ohms


def test_12_60_volts_on_the_20_volt_range_may_be_off_by_0_083() -> None:
    # +-(0.5 % + 2 counts) of a 2000-count meter, worked: 0.063 + 0.020.
    assert m.volts_limit(12.60) == pytest.approx(0.083)


def test_a_tenth_of_a_volt_is_read_on_the_millivolt_range() -> None:
    # The same rule: 0.0005 + 0.0002 V, against 0.0205 V on the 20 V range.
    assert m.volts_range(0.1) == 0.2
    assert m.volts_limit(0.1) == pytest.approx(0.0007)
    assert m.limit_of_error(0.1, 20.0) == pytest.approx(0.0205)


def test_digital_meter_loads_the_textbook_divider_as_printed() -> None:
    # Lessons In Electric Circuits vol. I ch. 8: 10 Mohm across one of two 250 Mohm, 24 V: 0.8889 V.
    lower = 1 / (1 / m.VOLTMETER_OHMS.value + 1 / 250e6)
    assert 24 * lower / (lower + 250e6) == pytest.approx(0.8889, abs=5e-5)


def test_analogue_meter_of_20_kilohm_per_volt_has_500_kilohm_on_25_volts() -> None:
    # Ohms-per-volt rule (memory, high).
    assert m.ANALOGUE_OHMS_PER_VOLT.value * 25 == pytest.approx(500e3)


# Practice of instrument makers (memory, medium): range, least and most test current in A.
@pytest.mark.parametrize(
    ("ohms", "least", "most"),
    [(85, 1e-3, 1e-3), (1500, 0.1e-3, 0.4e-3), (15e3, 0.01e-3, 0.07e-3), (1e6, 0.2e-6, 1e-6)],
)
def test_ohms_range_sends_the_published_current(ohms: float, least: float, most: float) -> None:
    row = m.ohms_range(ohms)
    assert row is not None and least <= row.test_amps <= most


@pytest.mark.parametrize("row", m.OHMS_RANGES, ids=lambda row: f"{row.full_scale_ohms:g}")
def test_ohmmeter_needs_no_more_than_3_volts_at_full_scale(row: m.OhmsRange) -> None:
    # Open-circuit voltage 0.25 to 3 V (practice; Lessons In Electric Circuits vol. III ch. 3).
    assert 0.05 <= row.full_scale_ohms * row.test_amps <= 3.0


def test_ohmmeter_shows_over_range_above_its_last_range() -> None:
    assert m.ohms_range(m.OVER_RANGE_OHMS) is not None
    assert m.ohms_range(m.OVER_RANGE_OHMS * 1.01) is None


def test_beeper_sounds_through_a_joint_that_is_open_for_a_5_amp_load() -> None:
    # Beeper threshold 20 to 50 ohm (memory): 20 ohm leaves a 5 A circuit dead.
    low = m.CONTINUITY_BELOW_OHMS.mean - 2 * m.CONTINUITY_BELOW_OHMS.sigma
    assert low * 5 > 12.6


# Practice of instrument makers (memory, medium) and of the trade: the usual value and its range.
@pytest.mark.parametrize(
    ("usual", "least", "most"),
    [
        (m.LEAD_OHMS.mean, 0.1, 0.5),
        (m.AMMETER_JACK_OHMS.mean, 0.01, 0.05),
        (m.MILLIAMMETER_JACK_OHMS.mean, 1, 10),
        (m.LOW_IMPEDANCE_VOLTMETER_OHMS.value, 2e3, 5e3),
        (m.DIODE_TEST_AMPS.value, 0.5e-3, 1.5e-3),
        (m.DIODE_TEST_OPEN_VOLTS.value, 2.0, 3.3),
        (m.LED_TESTER_AMPS.value, 1e-3, 20e-3),
    ],
)
def test_usual_value_lies_in_its_published_range(usual: float, least: float, most: float) -> None:
    assert least <= usual <= most


@pytest.mark.parametrize("nominal", [12, 24])
def test_test_lamp_takes_2_to_5_watts(nominal: int) -> None:
    # Common practice, no source; 12 V: 0.17 to 0.42 A and 25 to 75 ohm hot.
    assert 2 <= m.TEST_LAMP_WATTS[nominal].value <= 5


def test_cold_test_lamp_is_a_load_of_a_few_ohm() -> None:
    # Common practice, no source: several times its hot current while cold.
    assert cold_lamp_ohms(12, m.TEST_LAMP_WATTS[12].value) < 75 / 10


def test_clamp_cannot_tell_a_tenth_of_an_amp() -> None:
    # +-(2 % + 0.1 to 0.3 A), small clamp (memory, medium).
    assert 0.1 < m.clamp_limit_amps(0.1) <= 0.3 + 0.002


def test_ammeter_jack_loads_less_than_the_textbook_ammeter() -> None:
    # Lessons In Electric Circuits vol. I ch. 8 warns with 0.5 ohm in a 3 ohm branch.
    assert m.AMMETER_JACK_OHMS.mean < 0.5 / 10


@given(st.floats(-200.0, 200.0))
def test_chosen_range_shows_the_reading_and_the_next_lower_does_not(volts: float) -> None:
    scale = m.volts_range(volts)
    assert abs(volts) <= scale
    assert all(abs(volts) > lower for lower in m.VOLTS_RANGES if lower < scale)


@given(st.floats(0.0, 100.0))
def test_error_limit_ignores_the_sign(volts: float) -> None:
    assert m.volts_limit(-volts) == m.volts_limit(volts) > 0


@pytest.mark.parametrize("volts", [201.0, float("nan"), float("inf")])
def test_a_voltage_no_range_shows_is_refused(volts: float) -> None:
    with pytest.raises(ValueError, match="Voltage is"):
        m.volts_range(volts)
