"""A row that fails says so; one that nothing measures is never said to hold."""

from __future__ import annotations

from pathlib import Path

from rows import ROWS
from torture import Found, told, verdict

ROOT = Path(__file__).parents[2]
LIMITED = next(row for row in ROWS if row.id == "R13")


def test_every_row_is_there_once_and_its_tests_exist() -> None:
    wanted = [f"R{n}" for n in range(1, 14)] + [f"C{n}" for n in (1, 2, 3)]
    assert [row.id for row in ROWS] == [*wanted, "Q1", "Q2", "Q3"]
    assert all((ROOT / test).is_file() for row in ROWS for test in row.tests)


def test_a_row_without_tests_says_what_is_not_measured() -> None:
    assert all(row.missing for row in ROWS if not row.tests)
    assert verdict(ROWS[0], Found()) == "not measured"


def test_a_failed_test_puts_its_row_below_the_floor() -> None:
    assert verdict(ROWS[0], Found(passed=9)) == "holds"
    assert verdict(ROWS[0], Found(passed=9, failed=["it"])) == "BELOW THE FLOOR: it"


def test_a_figure_above_its_limit_or_not_taken_puts_its_row_below_the_floor() -> None:
    assert verdict(LIMITED, Found(passed=1, figures={"p99 ms": 49})) == "holds"
    assert "above 50" in verdict(LIMITED, Found(passed=1, figures={"p99 ms": 51}))
    assert "above 50" in verdict(LIMITED, Found(passed=1))


def test_a_row_tells_floor_goal_and_what_it_lacks() -> None:
    words = told(ROWS[1], Found(passed=2, bugs=1), 0.5)
    assert "1 planted bugs found" in words
    assert "floor 0 of 20, two engines; goal 0 of 500; 0.5 minutes" in words
    assert "holds as far as it is measured" in words
    assert "torture -- firefox" in words
