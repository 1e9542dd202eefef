"""Blade fuses: colours, resistance and opening times against published values."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.reference.fuse_times import blows_within, opening_time_seconds
from footwell.reference.fuses import (
    BREAKING_AMPS,
    CONTINUOUS_SHARE,
    FUSES,
    FuseType,
    fuse,
    fuse_ohms,
    ratings,
)

TYPES = st.sampled_from(["C", "F", "E"])


# ISO 8820-3 colour list; 1 to 30 A read on a parts seller's page, the others from memory.
@pytest.mark.parametrize(
    ("kind", "rating", "colour"),
    [
        ("C", 1, "black"),
        ("C", 3, "violet"),
        ("C", 5, "tan"),
        ("C", 7.5, "brown"),
        ("C", 10, "red"),
        ("F", 15, "blue"),
        ("F", 20, "yellow"),
        ("F", 30, "green"),
        ("C", 40, "orange"),
        ("E", 50, "red"),
        ("E", 60, "blue"),
        ("E", 80, "clear"),
    ],
)
def test_fuse_has_its_colour_of_iso_8820(kind: FuseType, rating: float, colour: str) -> None:
    assert fuse(kind, rating).colour == colour


# Data sheet of a 32 V medium blade fuse (memory, +-20 %): rating, cold mohm, drop in mV at rating.
@pytest.mark.parametrize(
    ("rating", "cold", "drop"),
    [
        (1, 123, 176),
        (2, 53.5, 141),
        (3, 31.1, 137),
        (4, 22.8, 130),
        (5, 17.85, 128),
        (7.5, 10.91, 116),
        (10, 7.7, 109),
        (15, 4.8, 102),
        (20, 3.38, 98),
        (25, 2.52, 92),
        (30, 1.97, 84),
        (35, 1.61, 87),
        (40, 1.44, 96),
    ],
)
def test_medium_fuse_drops_the_printed_millivolts_at_its_rating(
    rating: float, cold: float, drop: float
) -> None:
    assert fuse_ohms("C", rating) == pytest.approx(cold / 1000)
    assert fuse_ohms("C", rating, rating) * rating == pytest.approx(drop / 1000)


# Data sheet of a 32 V miniature blade fuse (memory, low confidence): rating, cold mohm.
@pytest.mark.parametrize(
    ("rating", "cold"),
    [(2, 58.4), (3, 33.5), (4, 24.3), (5, 17.6), (7.5, 11.0), (10, 7.4), (15, 4.6), (20, 3.2)],
)
def test_miniature_fuse_has_the_printed_resistance(rating: float, cold: float) -> None:
    assert fuse_ohms("F", rating) == pytest.approx(cold / 1000)


def test_half_the_current_warms_the_element_a_quarter_as_much() -> None:
    # Heat goes with the square of the current.
    cold = fuse_ohms("C", 20)
    assert fuse_ohms("C", 20, 10.0) - cold == pytest.approx((fuse_ohms("C", 20, 20.0) - cold) / 4)


def test_beyond_600_percent_the_element_melts_by_current_squared_times_time() -> None:
    # No heat leaves the element in so short a time.
    assert opening_time_seconds("C", 10, 120.0) == pytest.approx((0.02 / 4, 0.1 / 4))


@pytest.mark.parametrize("row", FUSES.values(), ids=lambda r: f"{r.fuse_type}{r.rating_amps:g}")
def test_hot_element_has_1_3_to_1_7_times_its_cold_resistance(row) -> None:  # type: ignore[no-untyped-def]
    # The same data sheet: V = R I at rating against the cold figure.
    assert 1.3 <= row.hot_milliohms / row.cold_milliohms <= 1.9


def test_one_millivolt_across_a_cold_10_a_fuse_is_about_0_13_a() -> None:
    # Common practice: current from the drop across the fuse's test points; 7.7 mohm from memory.
    assert 0.001 / fuse_ohms("C", 10) == pytest.approx(0.13, abs=0.005)


def test_a_rating_off_the_list_lies_between_its_neighbours() -> None:
    assert fuse_ohms("C", 15) > fuse_ohms("C", 16) > fuse_ohms("C", 20)


# ISO 8820-3 operating times (memory): percent of rating, shortest and longest time in s.
ISO_8820_TIMES = [
    ("C", 110, 360_000, inf),
    ("C", 135, 0.75, 600),
    ("C", 160, 0.25, 50),
    ("C", 200, 0.15, 5),
    ("C", 350, 0.04, 0.5),
    ("C", 600, 0.02, 0.1),
    ("F", 135, 0.75, 600),
    ("F", 200, 0.15, 5),
    ("F", 600, 0.03, 0.1),
    ("E", 135, 60, 1800),
    ("E", 200, 2, 60),
    ("E", 350, 0.2, 7),
    ("E", 600, 0.04, 1),
]


@pytest.mark.parametrize(("kind", "percent", "shortest", "longest"), ISO_8820_TIMES)
def test_fuse_opens_within_the_times_of_iso_8820(
    kind: FuseType, percent: float, shortest: float, longest: float
) -> None:
    assert opening_time_seconds(kind, 20, 20 * percent / 100) == (shortest, longest)


def test_fuse_carries_its_rating_for_good_and_110_percent_for_100_hours() -> None:
    # ISO 8820-3 (memory).
    assert opening_time_seconds("C", 20, 20.0) is None
    assert blows_within(100 * 3600 - 1, "C", 20, 22.0) == "no"


def test_motor_drawing_120_percent_outlasts_any_check() -> None:
    # Common practice, no source: a stiff motor heats its plug while the fuse holds. The standard
    # promises no hour at 120 %, but ten minutes lie well inside its limits.
    assert blows_within(600, "C", 20, 24.0) == "no"
    assert blows_within(10 * 3600, "C", 20, 24.0) == "may"


def test_cold_headlamp_start_does_not_open_a_10_a_fuse() -> None:
    # OpenStax College Physics, Electric Power and Energy: 34.3 A cold; gone within some 20 ms.
    assert blows_within(0.02, "C", 10, 34.3) == "no"


def test_dead_short_opens_every_small_fuse_at_once() -> None:
    assert blows_within(0.1, "C", 10, 200.0) == "yes"
    assert blows_within(0.1, "F", 30, BREAKING_AMPS.value) == "yes"


def test_between_the_limits_the_standard_leaves_it_open() -> None:
    assert blows_within(1.0, "C", 10, 20.0) == "may"


def test_a_time_equal_to_the_longest_counts_as_opened() -> None:
    assert blows_within(5.0, "C", 10, 20.0) == "yes"


def test_continuous_load_stays_within_70_to_80_percent() -> None:
    # Common practice, no source.
    assert 0.7 <= CONTINUOUS_SHARE.value <= 0.8


@given(TYPES, st.sampled_from([5.0, 10.0, 20.0, 30.0]), st.floats(1.1, 50.0), st.floats(1.0, 3.0))
def test_more_current_never_opens_later(
    kind: FuseType, rating: float, share: float, more: float
) -> None:
    early = opening_time_seconds(kind, rating, rating * share * 1.000001)
    late = opening_time_seconds(kind, rating, rating * share * more * 1.000001)
    assert early is not None and late is not None
    assert late[0] <= early[0] * (1 + 1e-9) and late[1] <= early[1] * (1 + 1e-9)


@given(TYPES, st.floats(0.0, 5000.0))
def test_shortest_time_is_never_above_the_longest(kind: FuseType, amps: float) -> None:
    times = opening_time_seconds(kind, 20, amps)
    assert times is None or 0 < times[0] <= times[1]


@given(TYPES, st.floats(0.0, 500.0), st.floats(0.001, 1e6))
def test_direction_of_current_does_not_matter(kind: FuseType, amps: float, seconds: float) -> None:
    assert blows_within(seconds, kind, 20, amps) == blows_within(seconds, kind, 20, -amps)


@given(TYPES, st.floats(0.0, 100.0), st.floats(0.0, 100.0))
def test_a_fuse_warms_but_never_cools_with_current(
    kind: FuseType, one: float, other: float
) -> None:
    less, more = sorted((one, other))
    assert fuse_ohms(kind, 20, less) <= fuse_ohms(kind, 20, more)


@pytest.mark.parametrize("kind", ["C", "F", "E"])
def test_larger_fuses_of_a_type_have_less_resistance(kind: FuseType) -> None:
    listed = [fuse_ohms(kind, rating) for rating in ratings(kind)]
    assert listed == sorted(listed, reverse=True)


def test_a_rating_nobody_makes_is_refused_with_those_that_exist() -> None:
    with pytest.raises(ValueError, match="No high-current blade fuse of 15 A; ratings are 20, 25"):
        fuse("E", 15)


@pytest.mark.parametrize("rating", [0.0, -5.0, float("nan")])
def test_an_impossible_rating_is_refused(rating: float) -> None:
    with pytest.raises(ValueError, match="Fuse rating is"):
        opening_time_seconds("C", rating, 10.0)
