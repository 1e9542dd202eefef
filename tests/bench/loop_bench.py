"""Whole jobs by a simulated electrician: Footwell's choice beside other orders on the same cases.

Singles are every mode of every element of the three sample circuits, sizes at three steps of their ladder,
as far as they show in some position; pairs are a mirrored face or two wires exchanged in a connector that
was wired anew, with a break somewhere; pairs are drawn by seed. All tools at hand, no noise of the meter.
The other orders choose the narrowing checks alone: belief, confirming and repairs are the same. "Good
parts" is the share of jobs in which something sound was replaced or made anew, joints and wires included.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from statistics import mean

sys.path.insert(0, str(Path(__file__).parents[1]))

from core.loop_rig import Result, Trial, complaining, pair_trials, sampled, single_trials, tried
from core.sample_circuits import NAMES
from planned_order import Planned
from table import print_table

from footwell.practice.orders import Order, half_split, load_to_supply

ORDERS: dict[str, Order] = {
    "from load to supply": load_to_supply,
    "half-split": half_split,
    "planned ahead": Planned(),
}
MOST_WORST = 12
HEAD = ["", "cases", "right", "good parts", "readings", "p95", "minutes", "p95", "s a job"]


def main() -> None:
    asked = arguments()
    began = time.monotonic()
    singles = [t for name in NAMES for t in single_trials(name)]
    shown = complaining(singles)
    pairs = [t for name in NAMES for t in pair_trials(name)]
    chosen = sampled(shown, asked.sample or len(shown), asked.seed)
    drawn = sampled(pairs, asked.pairs, asked.seed)
    print(f"{len(singles)} single faults, {len(shown)} of them show; {len(chosen)} tried.")
    print(f"{len(pairs)} pairs of a slip and a break; {len(drawn)} tried (seed {asked.seed}).")
    report("One fault", chosen, asked)
    report("A slip in the wiring and a break", drawn, asked)
    print(f"\n{time.monotonic() - began:.0f} s in all")


def arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sample", type=int, default=0, help="single faults, 0 for all")
    parser.add_argument("--pairs", type=int, default=60, help="pairs")
    parser.add_argument("--others", type=int, default=25, help="cases for the other orders")
    parser.add_argument("--seed", type=int, default=1)
    return parser.parse_args()


def report(title: str, trials: Sequence[Trial], asked: argparse.Namespace) -> None:
    """Work the trials, some of them in the other orders too; print figures and the worst cases."""
    found, seconds = worked(trials, None)
    rows = [row("Footwell, all", found, seconds)]
    some = set(sampled(trials, asked.others, asked.seed))
    if some:
        rows.append(row("Footwell", [r for r in found if r.trial in some], seconds))
        same = [t for t in trials if t in some]
        rows += [row(name, *worked(same, order)) for name, order in ORDERS.items()]
    print_table(title, HEAD, rows)
    worst(found)


def worked(trials: Sequence[Trial], order: Order | None) -> tuple[list[Result], float]:
    """Results, and seconds for each job."""
    began = time.monotonic()
    found: list[Result] = []
    for trial in trials:
        found.append(tried(trial, order=order))
    return found, (time.monotonic() - began) / max(len(trials), 1)


def row(name: str, found: Sequence[Result], seconds: float) -> list[str]:
    readings, minutes = sorted(r.readings for r in found), sorted(r.minutes for r in found)
    return [
        name,
        str(len(found)),
        f"{mean(r.right for r in found):.3f}",
        f"{mean(bool(r.good_parts) for r in found):.3f}",
        f"{mean(readings):.2f}",
        f"{p95(readings):.0f}",
        f"{mean(minutes):.1f}",
        f"{p95(minutes):.0f}",
        f"{seconds:.2f}",
    ]


def p95(rows: Sequence[float]) -> float:
    return rows[min(int(0.95 * len(rows)), len(rows) - 1)]


def worst(found: Sequence[Result]) -> None:
    """Cases not solved, with good parts replaced, or long, each with its reason."""
    bad = [r for r in found if not r.right or r.good_parts]
    bad.sort(key=lambda r: (r.right, -len(r.good_parts)))
    print(f"\nNot right or a good part replaced: {len(bad)}")
    for r in bad[:MOST_WORST]:
        parts = f"; good parts {', '.join(r.good_parts)}" if r.good_parts else ""
        print(f"  {r.trial}\n      {r.why or 'solved'}{parts}; {r.readings} readings")
    print("Longest")
    for r in sorted(found, key=lambda r: -r.minutes)[:3]:
        print(f"  {r.trial}: {r.readings} readings, {r.minutes:.0f} min")


if __name__ == "__main__":
    main()
