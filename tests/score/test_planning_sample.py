"""A sample of the planning score, another with every commit: rows D1 and D2 hold their floors."""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from statistics import mean

import pytest
from parity.seed import commit
from planning_cases import (
    COSTS,
    ODDS,
    at_random,
    chain_problem,
    minutes_by,
    optima,
    planned_minutes,
    random_problem,
)

from footwell.diagnosis.planning.next_check import next_check
from footwell.diagnosis.planning.problem import Problem


def sample(count: int, make: Callable[[str, str, random.Random], Problem]) -> list[Problem]:
    chance = random.Random(f"planning {commit()}")
    return [make(odds, costs, chance) for odds in ODDS for costs in COSTS for _ in range(count)]


def small(odds: str, costs: str, chance: random.Random) -> Problem:
    suspects = chance.randint(4, 16)
    return random_problem(odds, costs, suspects, chance.randint(max(6, suspects), 40), chance)


def large(odds: str, costs: str, chance: random.Random) -> Problem:
    return random_problem(odds, costs, chance.randint(21, 30), 10, chance)


def large_chain(odds: str, costs: str, chance: random.Random) -> Problem:
    return chain_problem(odds, costs, chance.randint(21, 40), chance)


def p95(ratios: list[float]) -> float:
    return sorted(ratios)[math.ceil(0.95 * len(ratios)) - 1]


@pytest.mark.parametrize(
    ("make", "count", "worst"), [(small, 8, 1.12), (large, 2, 1.10), (large_chain, 1, 1.10)]
)
def test_planned_checks_cost_hardly_more_than_the_optimum(
    make: Callable[[str, str, random.Random], Problem], count: int, worst: float
) -> None:
    cases = sample(count, make)
    best = optima(cases)
    ratios = [planned_minutes(case) / least for case, least in zip(cases, best, strict=True)]
    assert min(ratios) >= 1.0 - 1e-9, commit()
    assert mean(ratios) <= 1.03 and p95(ratios) <= worst, commit()
    for case, least in zip(cases, best, strict=True):
        plan = next_check(case)
        assert plan is not None
        assert not plan.exact or plan.minutes == pytest.approx(least), commit()


def test_checks_in_any_order_cost_more_than_the_floors_allow() -> None:
    cases = sample(8, small)
    chance = random.Random(1)
    best = optima(cases)
    ratios = [
        minutes_by(at_random, c, chance) / least for c, least in zip(cases, best, strict=True)
    ]
    assert mean(ratios) > 1.03 and p95(ratios) > 1.12
