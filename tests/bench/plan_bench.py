"""Whole jobs with the checks planned ahead beside today's choice, on the same cases of all sheets.

Cases are single faults that show and pairs of a slip and a break, drawn by seed from every sheet of
fixtures/circuits. Printed for each way of planning: right, good parts, readings, minutes, the minutes more
than today's choice on the same job with their standard error, the share of decisions that were solved
exactly. Each case is told as soon as it is done, with its minutes in each way.
"""

from __future__ import annotations

import argparse
import math
import sys
import time
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from statistics import mean, stdev

sys.path.insert(0, str(Path(__file__).parents[1]))

from core.loop_rig import Result, Trial, complaining, pair_trials, sampled, single_trials, tried
from core.sample_circuits import FOLDER
from planned_order import Planned
from table import print_table

WAYS = {
    "today": None,
    "planned, no end": {"ends": False},
    "planned, with end": {"ends": True},
    "planned, few groups": {"ends": True, "limit": 20},
}
HEAD = ["", "jobs", "right", "good parts", "readings", "minutes", "minutes more", "plans", "exact"]


@dataclass(frozen=True)
class Worked:
    """One job in one way; of the plans made in it, how many and how many of them exact."""

    result: Result
    plans: int
    exact: int


def worked(task: tuple[str, Trial]) -> Worked:
    name, trial = task
    how = WAYS[name]
    order = None if how is None else Planned(**how)
    result = tried(trial, order=order)
    plans = order.plans if order else []
    return Worked(result, len(plans), sum(p.exact for p in plans))


def drawn(singles: int, pairs: int, seed: int) -> list[Trial]:
    """Cases of a seed from all sheets; faults that show nowhere are left out."""
    names = sorted(path.stem for path in FOLDER.glob("*.json"))
    some = sampled([t for name in names for t in single_trials(name)], 2 * singles, seed)
    both = [t for name in names for t in sampled(pair_trials(name), pairs, seed)]
    return [*complaining(some)[:singles], *sampled(both, pairs, seed)]


def row(name: str, found: Sequence[Worked], today: Sequence[Worked]) -> list[str]:
    results = [w.result for w in found]
    more = [w.result.minutes - t.result.minutes for w, t in zip(found, today, strict=True)]
    error = stdev(more) / math.sqrt(len(more)) if len(more) > 1 else math.nan
    plans = sum(w.plans for w in found)
    return [
        name,
        str(len(found)),
        f"{mean(r.right for r in results):.3f}",
        f"{mean(bool(r.good_parts) for r in results):.3f}",
        f"{mean(r.readings for r in results):.2f}",
        f"{mean(r.minutes for r in results):.2f}",
        f"{mean(more):+.2f} ± {error:.2f}",
        str(plans),
        f"{sum(w.exact for w in found) / plans:.0%}" if plans else "",
    ]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--singles", type=int, default=60, help="single faults of each seed")
    parser.add_argument("--pairs", type=int, default=10, help="pairs of each seed")
    parser.add_argument("--seeds", type=int, nargs="+", default=[1, 2, 3])
    parser.add_argument("--ways", nargs="+", choices=[*WAYS][1:], default=[*WAYS][1:])
    parser.add_argument("--workers", type=int, default=2)
    asked = parser.parse_args()
    began = time.monotonic()
    trials = [t for seed in asked.seeds for t in drawn(asked.singles, asked.pairs, seed)]
    print("Seeds", *asked.seeds)
    ways = ["today", *asked.ways]
    done: list[Worked] = []
    with ProcessPoolExecutor(asked.workers) as pool:
        for one in pool.map(worked, [(name, trial) for trial in trials for name in ways]):
            done.append(one)
            if len(done) % len(ways) == 0:
                minutes = " ".join(f"{w.result.minutes:.1f}" for w in done[-len(ways) :])
                print(f"{one.result.trial}: {minutes}", flush=True)
    by_way = {name: done[n :: len(ways)] for n, name in enumerate(ways)}
    for title, kind in (("One fault", False), ("A slip and a break", True), ("All", None)):
        keep = [n for n, t in enumerate(trials) if kind is None or bool(t.rewired) is kind]
        if keep:
            today = [by_way["today"][n] for n in keep]
            rows = [row(name, [by_way[name][n] for n in keep], today) for name in ways]
            print_table(title, HEAD, rows)
    print(f"{time.monotonic() - began:.0f} s in all")


if __name__ == "__main__":
    main()
