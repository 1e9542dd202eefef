"""Planning alone: rows D1, D2 and D3, places, and wrong base rates.

Every figure of D1 and D2 is expected minutes over the optimum. Other orders see the same cases.
"""

from __future__ import annotations

import argparse
import math
import random
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from statistics import mean

from planning_cases import (
    COSTS,
    ODDS,
    RULES,
    at_random,
    chain_problem,
    divided,
    minutes_by,
    optima,
    planned_minutes,
    random_problem,
    with_places,
)
from table import print_table

from footwell.diagnosis.planning.doubt import DOUBT, corrections
from footwell.diagnosis.planning.next_check import next_check
from footwell.diagnosis.planning.problem import Problem

CHAINS = {4: 2.000, 8: 3.000, 12: 3.667, 16: 4.000, 20: 4.400, 30: 4.933, 40: 5.400, 60: 5.933}
HEAD = ("class", "cases", "mean", "of seeds", "p95", "worst", "exact", "ms", *RULES)
FOR_OTHERS = 15
"""Cases of each seed and class on which the other orders are tried."""

Make = Callable[[str, str, random.Random], Problem]


@dataclass(frozen=True)
class Measured:
    """Cases of a class and a seed: ratios to the optimum, first decisions that were exact, milliseconds
    of a first decision, mean ratio of each other order."""

    ratios: list[float]
    exact: float
    milliseconds: float
    others: dict[str, float]


def measured(cases: Sequence[Problem], chance: random.Random) -> Measured:
    best = optima(cases)
    start = time.process_time()
    plans = [next_check(case) for case in cases]
    milliseconds = 1e3 * (time.process_time() - start) / len(cases)
    ratios = [planned_minutes(case) / least for case, least in zip(cases, best, strict=True)]
    some = list(zip(cases, best, strict=True))[:FOR_OTHERS]
    others = {
        name: mean(minutes_by(rule, case, chance) / least for case, least in some)
        for name, rule in RULES.items()
    }
    return Measured(ratios, mean(p is None or p.exact for p in plans), milliseconds, others)


def row(name: str, seeds: Sequence[Measured]) -> list[str]:
    ratios = sorted(ratio for m in seeds for ratio in m.ratios)
    means = [mean(m.ratios) for m in seeds]
    return [
        name,
        str(len(ratios)),
        f"{mean(ratios):.4f}",
        f"{min(means):.4f}-{max(means):.4f}",
        f"{ratios[math.ceil(0.95 * len(ratios)) - 1]:.4f}",
        f"{ratios[-1]:.3f}",
        f"{mean(m.exact for m in seeds):.1%}",
        f"{mean(m.milliseconds for m in seeds):.0f}",
        *(f"{mean(m.others[rule] for m in seeds):.2f}" for rule in RULES),
    ]


def print_classes(title: str, goals: str, count: int, seeds: Sequence[int], make: Make) -> None:
    """The six classes of odds and costs, so many cases of each seed."""
    rows = []
    for odds in ODDS:
        for costs in COSTS:
            of = []
            for seed in seeds:
                chance = random.Random(f"{title} {odds} {costs} {seed}")
                cases = [make(odds, costs, chance) for _ in range(count)]
                of.append(measured(cases, chance))
            rows.append(row(f"{odds}, {costs}", of))
    print_table(f"{title}: expected minutes over the optimum", HEAD, rows)
    print(goals)


def small(odds: str, costs: str, chance: random.Random) -> Problem:
    suspects = chance.randint(4, 20)
    return random_problem(odds, costs, suspects, chance.randint(max(6, suspects), 60), chance)


def large(odds: str, costs: str, chance: random.Random) -> Problem:
    return random_problem(odds, costs, chance.randint(21, 40), chance.randint(11, 12), chance)


def large_chain(odds: str, costs: str, chance: random.Random) -> Problem:
    return chain_problem(odds, costs, chance.randint(21, 40), chance)


def placed(odds: str, costs: str, chance: random.Random) -> Problem:
    suspects = chance.randint(4, 11)
    case = random_problem(odds, costs, suspects, chance.randint(max(6, suspects), 40), chance)
    return with_places(case, chance.randint(2, 5), chance.randint(1, 3), chance)


def chain_row(count: int) -> list[str]:
    case = chain_problem("uniform", "unit", count, random.Random(0))
    counts = checks_of(case)
    checks = mean(counts)
    return [
        str(count),
        f"{checks:.3f}",
        f"{CHAINS[count]:.3f}",
        str(max(counts)),
        str(math.ceil(math.log2(count))),
        f"{minutes_by(at_random, case, random.Random(0)):.2f}",
    ]


def checks_of(case: Problem) -> list[int]:
    """Checks until the repair is known, for each suspect, every check planned anew."""
    found = [0] * len(case.shares)

    def walk(part: Problem) -> None:
        plan = next_check(part)
        if plan is None:
            return
        for s, share in enumerate(part.shares):
            found[s] += share > 0.0
        for left in divided(part, plan.option):
            walk(left)

    walk(case)
    return found


def wrong_rates(count: int, seed: int, doubt: float) -> list[str]:
    """Checks under right and wrong rates: off by ten either way, and a chain with the steepest odds."""
    chance = random.Random(f"rates {seed}")
    right, wrong = [], []
    for _ in range(count):
        suspects = chance.randint(10, 20)
        case = random_problem("skewed", "unit", suspects, 40, chance)
        case = replace(case, repairs=tuple(range(suspects)))
        truth = [share * 10.0 ** chance.randint(-1, 1) for share in case.shares]
        counts = checks_of(doubted(case, doubt))
        right.append(sum(c * p for c, p in zip(counts, case.shares, strict=True)))
        wrong.append(sum(c * p for c, p in zip(counts, truth, strict=True)) / sum(truth))
        wrong[-1] -= sum(c * p for c, p in zip(told(case, truth), truth, strict=True)) / sum(truth)
    extra = []
    for sections in (10, 20, 40):
        steep = replace(
            chain_problem("uniform", "unit", sections, chance),
            shares=tuple(10.0**-s for s in range(sections)),
        )
        extra.append(max(checks_of(doubted(steep, doubt))) - math.ceil(math.log2(sections)))
    return [f"{doubt:.2f}", f"{mean(right):.3f}", f"{mean(wrong):.3f}", *map(str, extra)]


def told(case: Problem, truth: Sequence[float]) -> list[int]:
    """Checks of each suspect when the true rates are known."""
    return checks_of(replace(case, shares=tuple(truth)))


def doubted(case: Problem, doubt: float) -> Problem:
    factors = corrections(dict(enumerate(case.shares)), doubt) if doubt else {}
    shares = tuple(share * factors.get(s, 1.0) for s, share in enumerate(case.shares))
    return replace(case, shares=shares)


def full_size(seed: int) -> list[str]:
    """Milliseconds and exactness of one decision at 20 suspects and 60 checks."""
    rows = []
    for costs in COSTS:
        chance = random.Random(f"size {costs} {seed}")
        cases = [random_problem(odds, costs, 20, 60, chance) for odds in ODDS for _ in range(10)]
        times, exact = [], []
        for case in cases:
            start = time.process_time()
            plan = next_check(case)
            times.append(1e3 * (time.process_time() - start))
            exact.append(plan is None or plan.exact)
        rows.append(
            f"{costs}: {mean(times):.0f} ms, worst {max(times):.0f} ms, exact {mean(exact):.0%}"
        )
    return rows


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--cases", type=int, default=50, help="cases of each class and seed")
    asked.add_argument("--seeds", type=int, nargs="+", default=[1, 2, 3, 4])
    options = asked.parse_args()
    count, few, seeds = options.cases, max(1, options.cases // 4), options.seeds
    print("Seeds", *seeds)
    goals = "Floor: mean 1.03, p95 1.12. Goal: mean 1.000."
    print_classes("D1, 4 to 20 suspects, 6 to 60 checks", goals, count, seeds, small)
    goals = "Floor: mean 1.03, p95 1.10. Goal: mean 1.01."
    print_classes("D2, 21 to 40 suspects, 11 or 12 checks", goals, count, seeds, large)
    print_classes("D2, chains of 21 to 40 sections", goals, few, seeds, large_chain)
    title = "Places, 4 to 11 suspects, 2 to 5 places, 1 to 3 set-ups"
    print_classes(title, "No floor is set.", few, seeds, placed)
    head = ("sections", "mean", "exact mean", "worst", "log2", "random order")
    print_table("D3, chain of equal sections: checks", head, [chain_row(n) for n in CHAINS])
    head = ("doubt", "right rates", "added when off by ten", "chain of 10", "of 20", "of 40")
    rows = [wrong_rates(count, seeds[0], d) for d in (0.0, 0.05, DOUBT, 0.2, 0.5)]
    print_table("Wrong base rates: mean checks; worst checks above halving", head, rows)
    print("20 suspects, 60 checks, one decision:", "; ".join(full_size(seeds[0])))


if __name__ == "__main__":
    main()
