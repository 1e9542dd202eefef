"""Rows D7, D9 and D11 with a truth that is not the engine's own, D15's faults that come and go, rates off by
ten, and what the readings themselves allow. Drawn circuits of 11 parts, as in family_score.py.

"Own" rows are the same measure without the difference, on circuits drawn in the same way.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from itertools import islice
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

from family_limits import limits
from family_score import HEADS, Figures, Row, calibration, measured, one_pass, until_clear
from family_truths import ABSENT, SIZE_OFF, World, coming_and_going, jobs_in, prior_jobs_in
from table import print_table

PARTS_11 = 2
CALIBRATION_TIMES = 15
"""Cases of a calibration to those of other rows: 600 where these have 40."""

WORLDS = {
    "own": World(),
    "rates off by three": World(rates_off=3.0),
    "sizes off the list": World(size_off=SIZE_OFF),
    "simulator's voltages": World(simulated=True),
    "own, tolerances normal": World(tolerant=True),
    "tolerances even": World(tolerant=True, evenly=True),
}
PAIR = {"right": ("0.55", "0.61"), "reported": ("0.95", "0.98")}
CLEAR = {
    1: {"cleared": ("0.99", "1.000"), "good parts": ("0.02", "0.00")},
    2: {"cleared": ("0.99", "1.000"), "good parts": ("0.05", "0.02")},
}
CLAIMS = {"z": ("2.5", "1.96"), "ece": ("0.05", "0.03"), "brier ratio": ("0.9-1.1", "")}


def worlds() -> list[Row]:
    """D7, D9 and D11 in every world."""
    rows: list[Row] = []
    for name, world in WORLDS.items():
        rows.append((f"D7 two faults: {name}", _pass(world, 2), PAIR))
        rows += [(f"D9 {n} faults: {name}", _clear(world, n), CLEAR[n]) for n in (1, 2)]
        rows.append((f"D11 calibration: {name}", _claims(world), CLAIMS))
    return rows


def _pass(world: World, faults: int) -> Callable[[int, int], Figures]:
    return lambda n, s: one_pass(jobs_in(world, PARTS_11, faults, n, s))


def _clear(world: World, faults: int) -> Callable[[int, int], Figures]:
    return lambda n, s: until_clear(jobs_in(world, PARTS_11, faults, n, s))


def _claims(world: World) -> Callable[[int, int], Figures]:
    return lambda n, s: calibration(prior_jobs_in(world, PARTS_11, CALIBRATION_TIMES * n, s))


def intermittent() -> list[Row]:
    """D15: faults away at a share of the readings, and what would be if nobody noticed."""

    def row(unnoticed: bool) -> Callable[[int, int], Figures]:
        return lambda n, s: until_clear(
            coming_and_going(jobs_in(World(), PARTS_11, 1, n, s), unnoticed)
        )

    bounds = {"good parts": ("0.03", "0.01")}
    return [
        (f"D15 away at {ABSENT:.0%} of readings", row(False), bounds),
        ("D15 the same, not noticed", row(True), {}),
    ]


def wrong_rates() -> list[Row]:
    """One fault drawn by rates off by ten either way: the engine not told, and told."""
    return [
        ("rates off by ten, not told", _pass(World(rates_off=10.0), 1), {}),
        ("rates off by ten, told", _pass(World(rates_off=10.0, told=True), 1), {}),
    ]


def readable() -> list[Row]:
    """What all readings together allow, beside D7 and D8."""

    def row(faults: int) -> Callable[[int, int], Figures]:
        return lambda n, s: limits(list(islice(jobs_in(World(), PARTS_11, faults, n, s), n)))

    return [("limit D7 every node read", row(2), {}), ("limit D8 every node read", row(3), {})]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument(
        "--cases", type=int, default=40, help="a row and seed; D11 fifteen times that"
    )
    parser.add_argument("--seeds", type=int, nargs="+", default=[1])
    parser.add_argument("--rows", nargs="+", default=[], help="how rows begin, such as D11 limit")
    asked = parser.parse_args()
    print(f"{asked.cases} cases a row and seed, D11 {CALIBRATION_TIMES} times; seeds {asked.seeds}")
    for row in [*worlds(), *intermittent(), *wrong_rates(), *readable()]:
        if not asked.rows or row[0].startswith(tuple(asked.rows)):
            print_table(row[0], HEADS, measured(row, asked.cases, asked.seeds))


if __name__ == "__main__":
    main()
