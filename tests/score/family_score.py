"""Diagnosis on drawn circuits, node voltages only: rows D4 to D9 and D11 to D13.

Every figure is the mean over several seeds, whose smallest and largest are shown beside it. The other
orders choose the checks alone; belief is the same.
"""

from __future__ import annotations

import argparse
import math
import random
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from statistics import mean

sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

from family import FAULT_RATE, Family, drawn, single_faults
from family_jobs import (
    NAMED_FROM,
    Choose,
    Job,
    begun,
    confirmed,
    group,
    marginals,
    named,
    narrowed,
    ours,
    prepared,
    reported,
)
from orders import fixed, halves, randomly
from table import print_table

from footwell.circuit.fault import Fault

Figures = dict[str, float]
CASES_A_CIRCUIT = 10
MOST_REPAIRS = 6


def jobs(
    branches: int, faults: int, cases: int, seed: int, tolerant: bool = False
) -> Iterator[Job]:
    """So many complaints of so many faults each, on circuits drawn by a seed."""
    chance = random.Random(f"{branches} {faults} {tolerant} {seed}")
    found = 0
    while found < cases:
        family = prepared(drawn(branches, chance, tolerant))
        for _ in range(min(CASES_A_CIRCUIT, cases - found)):
            job = None
            while job is None:
                job = begun(family, _faults(family, faults, chance), chance)
            found += 1
            yield job


def _faults(family: Family, count: int, chance: random.Random) -> tuple[Fault, ...]:
    while True:
        chosen = chance.sample(single_faults(family.circuit), count)
        if len({f.element for f in chosen}) == count:
            return tuple(sorted(chosen))


def prior_jobs(branches: int, cases: int, seed: int, errs: bool = False) -> Iterator[Job]:
    """Complaints as they come: every part fails by its rate, most often one alone. Who works them `errs` as
    belief counts on, or not at all."""
    chance = random.Random(f"prior {branches} {seed}")
    found = 0
    while found < cases:
        family = prepared(drawn(branches, chance))
        for _ in range(60 * CASES_A_CIRCUIT):
            faults = _by_rate(family, chance)
            job = begun(family, faults, chance, errs) if faults else None
            if job is not None and found < cases:
                found += 1
                yield job


def _by_rate(family: Family, chance: random.Random) -> tuple[Fault, ...]:
    found: list[Fault] = []
    for part in family.parts:
        if chance.random() < FAULT_RATE:
            found.append(
                chance.choice([f for f in single_faults(family.circuit) if f.element == part])
            )
    return tuple(sorted(found))


def one_pass(found: Iterator[Job], choose: Choose = ours) -> Figures:
    """Named right, truth in the reported group, checks until named."""
    rows = [(job, narrowed(job, choose)) for job in found]
    return {
        "right": mean(named(belief)[0] == job.truth.parts for job, belief in rows),
        "in group": mean(job.truth.parts in group(belief) for job, belief in rows),
        "reported": mean(reported(job.case(), belief, job.truth.parts) for job, belief in rows),
        "sets in group": mean(len(group(belief)) for _, belief in rows),
        "checks": mean(job.checks for job, _ in rows),
    }


def until_clear(found: Iterator[Job], slip: bool = False) -> Figures:
    """Read, renew, look again until nothing complains; how often it ends well, good parts renewed."""
    ends = [_worked(job, slip) for job in found]
    return {
        "cleared": mean(clear for clear, _, _ in ends),
        "good parts": mean(good for _, good, _ in ends),
        "checks": mean(checks for _, _, checks in ends),
    }


def _worked(job: Job, slip: bool) -> tuple[bool, int, int]:
    good = 0
    slip_at = job.truth.chance.randrange(3) if slip else -1
    for _ in range(MOST_REPAIRS):
        parts = confirmed(job, slip_at)
        good += len(parts - job.truth.parts)
        job.renew(parts)
        if not job.look():
            return True, good, job.checks
    return False, good, job.checks


def calibration(found: Iterator[Job]) -> Figures:
    """How well the shares claimed are kept: Spiegelhalter's z, expected calibration error, Brier scores."""
    claims: list[tuple[float, bool]] = []
    briers: list[float] = []
    foreseen: list[float] = []
    for job in found:
        belief = narrowed(job)
        parts, share = named(belief)
        claims.append((share, parts == job.truth.parts))
        for part, chance in marginals(belief, job.family.parts).items():
            briers.append((chance - (part in job.truth.parts)) ** 2)
            foreseen.append(chance * (1.0 - chance))
    return {
        "z": spiegelhalter(claims),
        "ece": calibration_error(claims),
        "brier": mean(briers),
        "brier ratio": mean(briers) / max(mean(foreseen), 1e-12),
    }


def spiegelhalter(claims: Sequence[tuple[float, bool]]) -> float:
    """z of the claims' Brier score against its own expectation (Spiegelhalter 1986)."""
    top = sum((x - p) * (1.0 - 2.0 * p) for p, x in claims)
    below = sum((1.0 - 2.0 * p) ** 2 * p * (1.0 - p) for p, _ in claims)
    return top / math.sqrt(below) if below else 0.0


def calibration_error(claims: Sequence[tuple[float, bool]], bins: int = 10) -> float:
    """Mean distance of claimed share and share that came true, over bins of equal width."""
    cells: dict[int, list[tuple[float, bool]]] = {}
    for p, x in claims:
        cells.setdefault(min(int(p * bins), bins - 1), []).append((p, x))
    return sum(
        abs(mean(p for p, _ in cell) - mean(x for _, x in cell)) * len(cell)
        for cell in cells.values()
    ) / len(claims)


Row = tuple[str, Callable[[int, int], Figures], dict[str, tuple[str, str]]]

CALIBRATED = {"z": ("2.5", "1.96"), "ece": ("0.05", "0.03"), "brier ratio": ("0.9-1.1", "")}
ROWS: tuple[Row, ...] = (
    (
        "D4 one fault, 11 parts",
        lambda n, s: one_pass(jobs(2, 1, n, s)),
        {"right": ("0.98", "0.995"), "checks": ("2.2", "1.8")},
    ),
    (
        "D5 one fault, 23 parts",
        lambda n, s: one_pass(jobs(5, 1, n, s)),
        {"right": ("0.97", "0.995"), "checks": ("3.2", "2.7")},
    ),
    (
        "D6 one fault, tolerances",
        lambda n, s: one_pass(jobs(2, 1, n, s, True)),
        {"right": ("0.93", "0.965")},
    ),
    (
        "D7 two faults, one pass",
        lambda n, s: one_pass(jobs(2, 2, n, s)),
        {"right": ("0.55", "0.61"), "reported": ("0.95", "0.98")},
    ),
    (
        "D8 three faults, one pass",
        lambda n, s: one_pass(jobs(2, 3, n, s)),
        {"right": ("0.35", "0.39"), "reported": ("0.90", "0.93")},
    ),
    (
        "D9 one fault, until clear",
        lambda n, s: until_clear(jobs(2, 1, n, s)),
        {"cleared": ("0.99", "1.000"), "good parts": ("0.02", "0.00")},
    ),
    (
        "D9 two faults, until clear",
        lambda n, s: until_clear(jobs(2, 2, n, s)),
        {"cleared": ("0.99", "1.000"), "good parts": ("0.05", "0.02")},
    ),
    (
        "D9 three faults, until clear",
        lambda n, s: until_clear(jobs(2, 3, n, s)),
        {"cleared": ("0.99", "1.000"), "good parts": ("0.10", "0.05")},
    ),
    (
        "D11/12 calibration, 11 parts",
        lambda n, s: calibration(prior_jobs(2, n, s)),
        CALIBRATED | {"brier": ("0.005", "0.0037")},
    ),
    (
        "D11/12 calibration, 23 parts",
        lambda n, s: calibration(prior_jobs(5, n, s)),
        CALIBRATED | {"brier": ("0.005", "0.0026")},
    ),
    (
        "D11/12 calibration, 11 parts, hand and eye err",
        lambda n, s: calibration(prior_jobs(2, n, s, errs=True)),
        CALIBRATED,
    ),
    (
        "D13 one slip",
        lambda n, s: until_clear(jobs(2, 1, n, s), slip=True),
        {"cleared": ("0.90", "0.97")},
    ),
)
OTHERS: dict[str, Choose] = {"fixed": fixed, "half-split": halves, "random": randomly}


HEADS = ["figure", "mean", "seeds", "floor", "goal", "time"]


def measured(row: Row, cases: int, seeds: Sequence[int]) -> list[list[str]]:
    """The table's lines of one row: each figure with its range over the seeds, floor and goal."""
    _, figures, bounds = row
    began = time.monotonic()
    found = [figures(cases, seed) for seed in seeds]
    spent = time.monotonic() - began
    lines: list[list[str]] = []
    for n, figure in enumerate(found[0]):
        every = [f[figure] for f in found]
        floor, goal = bounds.get(figure, ("", ""))
        spread = f"{min(every):.3f}..{max(every):.3f}" if len(every) > 1 else ""
        took = f"{spent:.0f} s" if n == 0 else ""
        lines.append([figure, f"{mean(every):.4f}", spread, floor, goal, took])
    return lines


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=int, default=200, help="a row and seed")
    parser.add_argument("--seeds", type=int, nargs="+", default=[1, 2, 3])
    parser.add_argument("--rows", nargs="+", default=[], help="such as D4 D11")
    parser.add_argument("--others", type=int, default=100, help="cases for the other orders")
    asked = parser.parse_args()
    print(f"{asked.cases} cases a row and seed, seeds {asked.seeds}; named from {NAMED_FROM}")
    for row in ROWS:
        # Each as soon as it is known: all of them take twenty minutes.
        if not asked.rows or row[0].split()[0].split("/")[0] in asked.rows:
            print_table(row[0], HEADS, measured(row, asked.cases, asked.seeds))
    if asked.others:
        compare(asked.others, asked.seeds[0])


def compare(cases: int, seed: int) -> None:
    """Checks until named, by Footwell and by other orders on the same cases."""
    lines: list[list[str]] = []
    for name, branches, faults in (("11 parts", 2, 1), ("23 parts", 5, 1), ("11 parts, two", 2, 2)):
        for order, choose in {"Footwell": ours, **OTHERS}.items():
            found = one_pass(jobs(branches, faults, cases, seed), choose)
            lines.append([name, order, f"{found['checks']:.2f}", f"{found['right']:.3f}"])
    print_table("Orders of measuring", ["", "order", "checks", "right"], lines)


if __name__ == "__main__":
    main()
