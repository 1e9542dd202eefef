"""The law of filament lamps against published values."""

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.reference.lamps import (
    cold_lamp_ohms,
    lamp_amps,
    lamp_law,
    lamp_siemens,
    light_share,
    light_word,
)

RATED_VOLTS = st.sampled_from([6.0, 12.0, 13.5, 24.0, 28.0])
RATED_WATTS = st.floats(1.0, 130.0)
RATIOS = st.floats(10.0, 16.0)
SHARES = st.floats(0.0, 1.3)


# Standard Handbook for Electrical Engineers, 11th ed., p. 22-8: exponents near the rated voltage.
@pytest.mark.parametrize("share", [0.5, 0.8, 0.9, 1.0, 1.1, 1.3])
def test_current_follows_the_handbook_exponent(share: float) -> None:
    assert lamp_amps(12 * share, 12, 21) / 1.75 == pytest.approx(share**0.55, rel=1e-4)


@pytest.mark.parametrize("share", [0.8, 0.9, 1.1, 1.2])
def test_power_follows_the_handbook_exponent(share: float) -> None:
    # Printed 1.6; rounded, so one part in fifty is left open.
    power = share * lamp_amps(12 * share, 12, 21) / 1.75
    assert power == pytest.approx(share**1.6, rel=0.02)


@pytest.mark.parametrize(("share", "light"), [(0.9, 0.699), (0.8, 0.468), (1.1, 1.383)])
def test_light_follows_the_handbook_exponent(share: float, light: float) -> None:
    assert light_share(12 * share, 12) == pytest.approx(light, abs=5e-4)


def test_headlamp_of_the_textbook_has_4_80_ohm_hot_and_34_3_amps_cold() -> None:
    # OpenStax College Physics, Ohm's Law and Electric Power: 12.0 V, 2.50 A; 0.350 ohm cold.
    ratio = 4.80 / 0.350
    assert 12.0 / lamp_amps(12.0, 12.0, 30.0, ratio) == pytest.approx(4.80)
    assert cold_lamp_ohms(12.0, 30.0, ratio) == pytest.approx(0.350)
    assert 12.0 / cold_lamp_ohms(12.0, 30.0, ratio) == pytest.approx(34.3, abs=0.05)


def test_temperature_law_carries_the_textbook_lamp_from_cold_to_hot() -> None:
    # OpenStax College Physics, Resistance and Resistivity: alpha 0.0045, rise 2830 degC, 4.8 ohm.
    hot = 0.350 * (1 + 0.0045 * 2830)
    assert lamp_law(12.0, 30.0, hot / 0.350).cold_siemens == pytest.approx(1 / 0.350, rel=2e-3)


# Resistivity of tungsten over that at 300 K, handbooks of chemistry and physics (1927 measurements;
# memory, confirmed by a published fit). Temperature goes with (V / V0)^0.42 (Standard Handbook).
# Below a fifth of the rated voltage the law is known to be coarser.
TUNGSTEN = {1100: 4.95, 1400: 6.58, 1800: 8.86, 2100: 10.63, 2400: 12.46, 2600: 13.72, 2800: 14.99}


@pytest.mark.parametrize("kelvin", list(TUNGSTEN))
def test_resistance_at_low_voltage_follows_the_tungsten_table(kelvin: int) -> None:
    ratio = TUNGSTEN[2800]
    volts = 12 * (kelvin / 2800) ** (1 / 0.42)
    law = volts / lamp_amps(volts, 12, 21, ratio) / cold_lamp_ohms(12, 21, ratio)
    assert law == pytest.approx(TUNGSTEN[kelvin], rel=0.10 if kelvin >= 1400 else 0.15)


# Common practice, no source: what a person calls a 12 V lamp at these voltages.
@pytest.mark.parametrize(
    ("volts", "word"),
    [
        (0, "dark"),
        (3, "glow"),
        (6, "dim"),
        (9, "dim"),
        (11, "normal"),
        (14.4, "normal"),
        (24, "bright"),
    ],
)
def test_a_lamp_is_called_what_people_call_it(volts: float, word: str) -> None:
    assert light_word(light_share(volts, 12.0)) == word


@given(RATED_VOLTS, RATED_WATTS, RATIOS)
def test_lamp_takes_its_rated_power_at_its_rated_voltage(
    v0: float, w0: float, ratio: float
) -> None:
    assert lamp_amps(v0, v0, w0, ratio) * v0 == pytest.approx(w0)


@given(RATED_VOLTS, RATED_WATTS, RATIOS)
def test_slope_at_zero_is_that_of_the_cold_filament(v0: float, w0: float, ratio: float) -> None:
    assert 1 / lamp_siemens(0.0, v0, w0, ratio) == pytest.approx(v0**2 / w0 / ratio)


@given(RATED_VOLTS, RATED_WATTS, RATIOS, SHARES, st.floats(0.001, 0.3))
def test_current_rises_with_voltage(
    v0: float, w0: float, ratio: float, share: float, more: float
) -> None:
    less = lamp_amps(v0 * share, v0, w0, ratio)
    assert lamp_amps(v0 * (share + more), v0, w0, ratio) > less


@given(RATED_VOLTS, RATED_WATTS, RATIOS, SHARES)
def test_current_is_odd_in_voltage(v0: float, w0: float, ratio: float, share: float) -> None:
    assert lamp_amps(-v0 * share, v0, w0, ratio) == -lamp_amps(v0 * share, v0, w0, ratio)


@given(RATED_VOLTS, RATED_WATTS, RATIOS, st.floats(-1.3, 1.3))
def test_slope_matches_a_finite_difference(
    v0: float, w0: float, ratio: float, share: float
) -> None:
    volts, step = v0 * share, 1e-6 * v0
    rise = lamp_amps(volts + step, v0, w0, ratio) - lamp_amps(volts - step, v0, w0, ratio)
    assert isclose(lamp_siemens(volts, v0, w0, ratio), rise / (2 * step), rel_tol=1e-4)


@given(RATED_VOLTS, RATED_WATTS, RATIOS, SHARES)
def test_filament_resistance_only_rises_with_voltage(
    v0: float, w0: float, ratio: float, share: float
) -> None:
    def ohms(volts: float) -> float:
        return volts / lamp_amps(volts, v0, w0, ratio)

    assert ohms(v0 * (share + 0.1)) > ohms(v0 * (share + 0.05))


@pytest.mark.parametrize(("volts", "watts"), [(0.0, 21.0), (12.0, 0.0), (float("nan"), 21.0)])
def test_an_impossible_rating_is_refused(volts: float, watts: float) -> None:
    with pytest.raises(ValueError, match="Rated"):
        lamp_law(volts, watts)
