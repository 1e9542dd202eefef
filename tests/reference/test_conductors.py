"""Wire resistance, temperature and the guide to current against published values."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.reference import conductors as c

# ISO 6722-1, bare copper, maximum at 20 degC, mohm/m (from memory, medium to high confidence).
ISO_6722 = [
    (0.13, 136),
    (0.22, 84.4),
    (0.35, 54.4),
    (0.5, 37.1),
    (0.75, 24.7),
    (1.0, 18.5),
    (1.25, 14.9),
    (1.5, 12.7),
    (2.0, 9.42),
    (2.5, 7.6),
    (3.0, 6.15),
    (4.0, 4.71),
    (5.0, 3.94),
    (6.0, 3.14),
    (8.0, 2.38),
    (10.0, 1.82),
    (12.0, 1.52),
    (16.0, 1.16),
    (20.0, 0.955),
    (25.0, 0.743),
    (30.0, 0.647),
    (35.0, 0.527),
    (40.0, 0.473),
    (50.0, 0.368),
    (60.0, 0.315),
    (70.0, 0.259),
    (95.0, 0.196),
    (120.0, 0.153),
]

# IEC 60228 class 5 plain copper, maximum at 20 degC, mohm/m (three copies of the table agree).
IEC_60228 = [
    (0.5, 39.0),
    (0.75, 26.0),
    (1.0, 19.5),
    (1.5, 13.3),
    (2.5, 7.98),
    (4.0, 4.95),
    (6.0, 3.3),
    (10.0, 1.91),
    (16.0, 1.21),
    (25.0, 0.78),
    (35.0, 0.554),
    (50.0, 0.386),
]

# Lessons In Electric Circuits vol. I ch. 12: gauge, area in mm2 (ASTM B258), amps in free air.
FREE_AIR = [
    (20, 0.5176, 9),
    (18, 0.8230, 13),
    (16, 1.3087, 18),
    (14, 2.0809, 25),
    (12, 3.3088, 30),
    (10, 5.2612, 40),
    (8, 8.3656, 60),
    (6, 13.3018, 80),
    (4, 21.1506, 105),
]

SECTIONS = st.floats(0.13, 120.0)


@pytest.mark.parametrize(("section", "milliohms"), ISO_6722)
def test_a_metre_of_wire_has_the_resistance_of_iso_6722(section: float, milliohms: float) -> None:
    assert c.wire_ohms(section, 1.0) == pytest.approx(milliohms / 1000)


@pytest.mark.parametrize(("section", "milliohms"), IEC_60228)
def test_vehicle_wire_lies_just_under_class_5_of_iec_60228(
    section: float, milliohms: float
) -> None:
    assert 0.94 < c.max_milliohms_per_metre(section) / milliohms < 0.96


@pytest.mark.parametrize("section", list(c.CONDUCTORS))
def test_no_row_is_better_than_ideal_copper_of_iec_60028(section: float) -> None:
    # Stranding, tolerance of the wires and rounding add 2 to 15 % in the standard's own rows.
    ideal = 1000 / 58 / section
    assert ideal < c.max_milliohms_per_metre(section) < 1.15 * ideal


@pytest.mark.parametrize("section", list(c.CONDUCTORS))
def test_a_typical_wire_lies_between_ideal_copper_and_the_maximum_within_its_spread(
    section: float,
) -> None:
    typical = c.typical_wire_ohms(section, 1.0)
    assert typical.mean < c.wire_ohms(section, 1.0)
    assert typical.mean + 2 * typical.sigma > c.wire_ohms(section, 1.0)
    assert typical.mean - 2 * typical.sigma < c.COPPER_RESISTIVITY.value / section


# FAA AC 43.13-1B tables 11-7 and 11-8, tin-plated aircraft wire: gauge, mohm/ft. Even gauges differ
# by a factor of 1.59, so within its square root the row still belongs to its own gauge.
@pytest.mark.parametrize(
    ("awg", "milliohms_per_foot"), [(14, 3.06), (12, 2.02), (10, 1.26), (6, 0.44)]
)
def test_aircraft_wire_agrees_better_with_its_own_gauge_than_with_the_next(
    awg: int, milliohms_per_foot: float
) -> None:
    published = milliohms_per_foot / 0.3048
    ours = c.max_milliohms_per_metre(c.awg_section_mm2(awg))
    assert 1 / 1.26 < published / ours < 1.26


@pytest.mark.parametrize(("awg", "area", "amps"), FREE_AIR)
def test_current_guide_gives_back_the_free_air_list(awg: int, area: float, amps: float) -> None:
    assert c.awg_section_mm2(awg) == pytest.approx(area, rel=2e-4)
    assert c.current_guide_amps(c.awg_section_mm2(awg)) == pytest.approx(amps)


# Lessons In Electric Circuits vol. I ch. 12: AWG 14 is 0.06408 in thick, AWG 10 0.1019 in.
@pytest.mark.parametrize(("awg", "inches"), [(14, 0.06408), (10, 0.1019)])
def test_gauge_areas_follow_the_printed_diameters(awg: int, inches: float) -> None:
    printed = 3.141592653589793 / 4 * (inches * 25.4) ** 2
    assert c.awg_section_mm2(awg) == pytest.approx(printed, rel=1e-3)


def test_textbook_wire_pair_grows_from_15_to_15_909_ohm_at_35_degrees() -> None:
    # Lessons In Electric Circuits vol. I ch. 12, Temperature coefficient: alpha 0.004041.
    assert c.ohms_at(15.0, 35.0, alpha=0.004041) == pytest.approx(15.909, abs=5e-4)


@pytest.mark.parametrize("celsius", [-40.0, 0.0, 50.0, 85.0, 120.0])
def test_copper_law_agrees_with_the_zero_resistance_intercept(celsius: float) -> None:
    # FAA AC 43.13-1B par. 11-66: R2/R1 = (234.5 + T2) / (234.5 + T1).
    assert c.ohms_at(1.0, celsius) == pytest.approx((234.5 + celsius) / 254.5, rel=2e-3)


@given(SECTIONS, st.floats(0.01, 100.0), st.floats(0.1, 9.0), st.floats(-40.0, 150.0))
def test_wire_resistance_grows_in_step_with_length(
    section: float, length: float, times: float, celsius: float
) -> None:
    once = c.wire_ohms(section, length, celsius)
    assert c.wire_ohms(section, length * times, celsius) == pytest.approx(once * times)


@given(SECTIONS, SECTIONS)
def test_thicker_wire_has_less_resistance_and_carries_more(one: float, other: float) -> None:
    thin, thick = sorted((one, other))
    assert c.wire_ohms(thick, 1.0) <= c.wire_ohms(thin, 1.0) * (1 + 1e-12)
    assert c.current_guide_amps(thick) >= c.current_guide_amps(thin) * (1 - 1e-12)


@given(SECTIONS)
def test_resistance_between_rows_stays_near_that_of_its_copper(section: float) -> None:
    ideal = 1000 / 58 / section
    assert ideal <= c.max_milliohms_per_metre(section) * 1.001 < 1.15 * ideal


@given(SECTIONS, st.floats(-60.0, 249.0))
def test_warm_copper_has_more_resistance(section: float, celsius: float) -> None:
    assert c.wire_ohms(section, 1.0, celsius + 1.0) > c.wire_ohms(section, 1.0, celsius)


@given(st.floats(0.0, 300.0))
def test_proposed_section_carries_the_current_and_the_next_smaller_does_not(amps: float) -> None:
    section = c.section_for_amps(amps)
    assert c.current_guide_amps(section) >= amps
    smaller = [s for s in c.CONDUCTORS if 0.5 <= s < section]
    assert all(c.current_guide_amps(s) < amps for s in smaller)


@pytest.mark.parametrize("section", [0.0, -1.0, 0.1, 121.0, float("nan"), float("inf")])
def test_a_section_off_the_table_is_refused_with_its_range(section: float) -> None:
    with pytest.raises(ValueError, match=r"Cross-section is .* mm2; the table covers 0\.13 to 120"):
        c.wire_ohms(section, 1.0)


@pytest.mark.parametrize("length", [-1.0, float("nan")])
def test_a_length_below_nothing_is_refused(length: float) -> None:
    with pytest.raises(ValueError, match="Length is"):
        c.wire_ohms(1.0, length)
