"""Lamps of UN Regulation 37 against its category sheets."""

import pytest

from footwell.reference.lamp_ratings import LAMPS, Lamp, lamp

# UN Regulation 37 sheets (memory, medium to high; PY21/5W seen): category, V, filament, W; then
# test voltage, and W and lm at it.
R37 = [
    ("W3W", 12, "", 3, 13.5, 3.85, 22),
    ("W3W", 24, "", 3, 28, 4.6, 22),
    ("W5W", 12, "", 5, 13.5, 5.5, 50),
    ("W5W", 24, "", 5, 28, 7, 50),
    ("WY5W", 12, "", 5, 13.5, 5.5, 30),
    ("WY5W", 24, "", 5, 28, 7, 30),
    ("C5W", 12, "", 5, 13.5, 5.5, 45),
    ("C5W", 24, "", 5, 28, 7, 45),
    ("R5W", 12, "", 5, 13.5, 5.5, 50),
    ("R5W", 24, "", 5, 28, 7, 50),
    ("R10W", 12, "", 10, 13.5, 11, 125),
    ("R10W", 24, "", 10, 28, 14, 125),
    ("T4W", 12, "", 4, 13.5, 4.4, 35),
    ("T4W", 24, "", 4, 28, 5.5, 35),
    ("P21W", 12, "", 21, 13.5, 26.5, 460),
    ("P21W", 24, "", 21, 28, 29.7, 460),
    ("PY21W", 12, "", 21, 13.5, 26.5, 280),
    ("PY21W", 24, "", 21, 28, 29.7, 280),
    ("P21/5W", 12, "major", 21, 13.5, 26.5, 440),
    ("P21/5W", 12, "minor", 5, 13.5, 6.6, 35),
    ("P21/5W", 24, "major", 21, 28, 29.7, 440),
    ("P21/5W", 24, "minor", 5, 28, 10, 40),
    ("P21/4W", 12, "major", 21, 13.5, 26.5, 440),
    ("P21/4W", 12, "minor", 4, 13.5, 5.5, 15),
    ("P21/4W", 24, "major", 21, 28, 29.7, 440),
    ("P21/4W", 24, "minor", 4, 28, 8.8, 20),
    ("PY21/5W", 12, "major", 21, 13.5, 26.5, 270),
    ("PY21/5W", 12, "minor", 5, 13.5, 6.6, 21),
    ("W16W", 12, "", 16, 13.5, 21.35, 310),
    ("W21W", 12, "", 21, 13.5, 26.5, 460),
    ("W21/5W", 12, "major", 21, 13.5, 26.5, 440),
    ("W21/5W", 12, "minor", 5, 13.5, 6.6, 35),
    ("P27W", 12, "", 27, 13.5, 32.1, 475),
    ("H21W", 12, "", 21, 13.5, 26.95, 600),
    ("H21W", 24, "", 21, 28, 29.4, 600),
    ("H6W", 12, "", 6, 13.5, 7.35, 125),
    ("H1", 12, "", 55, 13.2, 68, 1550),
    ("H1", 24, "", 70, 28, 84, 1900),
    ("H3", 12, "", 55, 13.2, 68, 1450),
    ("H3", 24, "", 70, 28, 84, 1750),
    ("H4", 12, "main", 60, 13.2, 75, 1650),
    ("H4", 12, "dip", 55, 13.2, 68, 1000),
    ("H4", 24, "main", 75, 28, 85, 1900),
    ("H4", 24, "dip", 70, 28, 80, 1200),
    ("H7", 12, "", 55, 13.2, 58, 1500),
    ("H7", 24, "", 70, 28, 75, 1750),
    ("H8", 12, "", 35, 13.2, 43, 800),
    ("H9", 12, "", 65, 13.2, 73, 2100),
    ("H11", 12, "", 55, 13.2, 62, 1350),
    ("H11", 24, "", 70, 28, 80, 1600),
    ("HB3", 12, "", 60, 13.2, 73, 1860),
    ("HB4", 12, "", 51, 13.2, 62, 1095),
]

# Most A at the test voltage, first filament, as the same sheets print it.
R37_AMPS = [
    ("W3W", 12, "", 0.29),
    ("W3W", 24, "", 0.16),
    ("W5W", 12, "", 0.41),
    ("W5W", 24, "", 0.25),
    ("R10W", 12, "", 0.81),
    ("R10W", 24, "", 0.5),
    ("T4W", 12, "", 0.33),
    ("T4W", 24, "", 0.2),
    ("P21W", 12, "", 1.96),
    ("P21W", 24, "", 1.06),
    ("P21/5W", 12, "major", 1.96),
    ("P21/5W", 24, "major", 1.06),
    ("W16W", 12, "", 1.58),
    ("P27W", 12, "", 2.38),
    ("H21W", 12, "", 2),
    ("H21W", 24, "", 1.05),
    ("H6W", 12, "", 0.54),
    ("H1", 12, "", 5.15),
    ("H1", 24, "", 3),
    ("H3", 12, "", 5.15),
    ("H3", 24, "", 3),
    ("H4", 12, "main", 5.68),
    ("H4", 24, "main", 3.04),
    ("H7", 12, "", 4.39),
    ("H7", 24, "", 2.68),
    ("H9", 12, "", 5.53),
    ("H11", 12, "", 4.7),
    ("H11", 24, "", 2.86),
    ("HB3", 12, "", 5.53),
    ("HB4", 12, "", 4.7),
]


@pytest.mark.parametrize(
    ("category", "volts", "filament", "watts", "test_volts", "most", "lumens"), R37
)
def test_lamp_row_is_as_published(
    category: str,
    volts: float,
    filament: str,
    watts: float,
    test_volts: float,
    most: float,
    lumens: float,
) -> None:
    row = lamp(category, volts, filament)
    assert (row.rated_watts, row.test_volts) == (watts, test_volts)
    assert (row.max_watts_at_test, row.lumens_at_test) == (most, lumens)


def test_no_lamp_row_lacks_its_published_counterpart() -> None:
    assert set(LAMPS) == {(category, volts, filament) for category, volts, filament, *_ in R37}


@pytest.mark.parametrize(("category", "volts", "filament", "amps"), R37_AMPS)
def test_largest_current_of_a_lamp_is_that_of_its_sheet(
    category: str, volts: float, filament: str, amps: float
) -> None:
    row = lamp(category, volts, filament)
    assert row.max_watts_at_test / row.test_volts == pytest.approx(amps, abs=0.006)


@pytest.mark.parametrize(
    "row", LAMPS.values(), ids=lambda r: f"{r.category}{r.filament}{r.rated_volts:g}"
)
def test_typical_lamp_takes_its_rating_or_more_at_the_test_voltage_but_not_its_maximum(
    row: Lamp,
) -> None:
    # UN R37 tests above the rated voltage: 13.2 or 13.5 V, and 28 V.
    assert row.test_volts > row.rated_volts
    assert row.rated_watts <= row.typical_watts_at_test < row.max_watts_at_test


@pytest.mark.parametrize(
    "row", LAMPS.values(), ids=lambda r: f"{r.category}{r.filament}{r.rated_volts:g}"
)
def test_hot_over_cold_lies_within_the_tungsten_table(row: Lamp) -> None:
    # 2100 K to 2900 K: 10.6 to 15.6 (resistivity of tungsten, handbooks of chemistry and physics).
    assert 10.6 <= row.hot_over_cold <= 15.6


def test_an_unknown_category_is_refused_with_those_listed() -> None:
    with pytest.raises(ValueError, match="No X9Z lamp for 12 V in the table; it lists W3W, W5W"):
        lamp("X9Z", 12)
