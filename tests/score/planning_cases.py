"""Planning problems drawn by a seed, their optimum by a program of its own, and other orders of checks."""

from __future__ import annotations

import json
import math
import random
import subprocess
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

from footwell.diagnosis.planning.next_check import next_check
from footwell.diagnosis.planning.problem import Option, Problem, sure

OPTIMUM = Path(__file__).parent / "planning_optimum.mjs"
ODDS = ("uniform", "skewed", "70 % healthy")
COSTS = ("unit", "1-10")

Rule = Callable[[Problem, random.Random], int]
"""The option that an order of measuring takes next; suspects that are out have no share."""


def drawn_odds(kind: str, count: int, chance: random.Random) -> list[float]:
    """Shares that add up to one."""
    if kind == "uniform":
        return [1.0 / count] * count
    if kind == "skewed":
        weights = [chance.random() ** 3 + 1e-3 for _ in range(count)]
        return [w / sum(weights) for w in weights]
    rest = [chance.random() + 1e-3 for _ in range(count - 1)]
    return [0.7, *(0.3 * w / sum(rest) for w in rest)]


def drawn_minutes(kind: str, count: int, chance: random.Random) -> list[float]:
    return [1.0 if kind == "unit" else float(chance.randint(1, 10)) for _ in range(count)]


def random_problem(
    odds: str, costs: str, suspects: int, checks: int, chance: random.Random
) -> Problem:
    """Checks of two outcomes, one in five of three, each outcome's share of the suspects drawn; one case
    in three has repairs in common. Drawn again until every two suspects are told apart."""
    shares = drawn_odds(odds, suspects, chance)
    rows: list[list[int]] = []
    while len(set(zip(*rows, strict=True))) < suspects:
        rows = [_outcomes(suspects, chance) for _ in range(checks)]
    many = suspects if chance.random() < 2 / 3 else max(2, suspects // 2)
    repairs = tuple(range(suspects)) if many == suspects else _dealt(suspects, many, chance)
    minutes = drawn_minutes(costs, checks, chance)
    options = tuple(Option(sure(row), cost) for row, cost in zip(rows, minutes, strict=True))
    return Problem(tuple(shares), repairs, options)


def _dealt(suspects: int, repairs: int, chance: random.Random) -> tuple[int, ...]:
    """Repairs dealt to the suspects, each repair at least once."""
    dealt = [*range(repairs), *(chance.randrange(repairs) for _ in range(suspects - repairs))]
    chance.shuffle(dealt)
    return tuple(dealt)


def _outcomes(suspects: int, chance: random.Random) -> list[int]:
    outcomes = 3 if chance.random() < 0.2 else 2
    weights = [chance.uniform(0.1, 0.9) for _ in range(outcomes)]
    row = [0] * suspects
    while len(set(row)) < 2:
        row = chance.choices(range(outcomes), weights, k=suspects)
    return [sorted(set(row)).index(outcome) for outcome in row]


def chain_problem(odds: str, costs: str, sections: int, chance: random.Random) -> Problem:
    """One break in a chain: check k tells on which side of joint k it lies."""
    rows = [[int(s > joint) for s in range(sections)] for joint in range(sections - 1)]
    minutes = drawn_minutes(costs, sections - 1, chance)
    options = tuple(Option(sure(row), cost) for row, cost in zip(rows, minutes, strict=True))
    return Problem(tuple(drawn_odds(odds, sections, chance)), tuple(range(sections)), options)


def with_places(case: Problem, places: int, setups: int, chance: random.Random) -> Problem:
    """The checks at places and in set-ups: half a minute to three to another place, a fifth to a whole one
    to another set-up; a reading takes half its cost; the person begins at the first place."""
    reach = [chance.choice((0.5, 1.0, 2.0, 3.0)) for _ in range(places)]
    change = [chance.choice((0.2, 0.2, 1.0)) for _ in range(setups)]
    stations = [(p, s) for p in range(places) for s in range(setups)]
    travel = tuple(
        tuple(reach[b] * (a != b) + max(change[s], change[t]) * (s != t) for b, t in stations)
        for a, s in stations
    )
    options = tuple(
        replace(o, minutes=0.5 * o.minutes, station=chance.randrange(len(stations)))
        for o in case.options
    )
    return replace(case, options=options, travel=travel)


def optima(cases: Sequence[Problem]) -> list[float]:
    """Least expected minutes of each case, by trying everything."""
    text = json.dumps(
        [
            {
                "shares": case.shares,
                "repairs": case.repairs,
                "outcomes": [[row.index(1.0) for row in o.chances] for o in case.options],
                "minutes": [o.minutes for o in case.options],
                "station": [o.station for o in case.options],
                "travel": case.travel,
                "start": case.start,
            }
            for case in cases
        ]
    )
    asked = subprocess.run(
        ["node", str(OPTIMUM)], input=text, capture_output=True, text=True, check=True
    )
    found: list[float] = json.loads(asked.stdout)
    return found


def divided(case: Problem, option: int) -> list[Problem]:
    """What each outcome of an option leaves, the person standing where the option left them."""
    outcomes = [row.index(1.0) for row in case.options[option].chances]
    parts = []
    for outcome in sorted(set(outcomes)):
        left = tuple(
            share if mine == outcome else 0.0
            for share, mine in zip(case.shares, outcomes, strict=True)
        )
        if sum(left) > 0.0:
            parts.append(replace(case, shares=left, start=case.options[option].station))
    return parts


def known(case: Problem) -> bool:
    live = (s for s, share in enumerate(case.shares) if share > 0.0)
    return len({case.repairs[s] for s in live}) < 2


def took(case: Problem, option: int) -> float:
    return case.options[option].minutes + case.travel[case.start][case.options[option].station]


def planned_minutes(case: Problem) -> float:
    """Minutes expected when every check is planned anew, times the probability of the case. Below a plan
    that is exact its promise is what it costs; a law in the tests holds it."""
    plan = next_check(case)
    if plan is None:
        return 0.0
    if plan.exact:
        return plan.minutes * sum(case.shares)
    after = sum(planned_minutes(part) for part in divided(case, plan.option))
    return took(case, plan.option) * sum(case.shares) + after


def minutes_by(rule: Rule, case: Problem, chance: random.Random) -> float:
    """Minutes expected by another order, times the probability of the case."""
    if known(case):
        return 0.0
    option = rule(case, chance)
    after = sum(minutes_by(rule, part, chance) for part in divided(case, option))
    return took(case, option) * sum(case.shares) + after


def useful(case: Problem) -> list[int]:
    return [j for j in range(len(case.options)) if len(divided(case, j)) > 1]


def in_order(case: Problem, chance: random.Random) -> int:
    """The checks in one fixed order, leaving out what can tell nothing more."""
    return useful(case)[0]


def halving(case: Problem, chance: random.Random) -> int:
    """The check that divides the number of suspects most evenly."""
    return min((max(_alive(p) for p in divided(case, j)), j) for j in useful(case))[1]


def at_random(case: Problem, chance: random.Random) -> int:
    return chance.choice(useful(case))


def by_gain(case: Problem, chance: random.Random) -> int:
    """The check with the most gain on the repair a minute, one step ahead."""
    before = _bits(case)
    return min(
        (-round((before - sum(map(_bits, divided(case, j)))) / took(case, j), 9), j)
        for j in useful(case)
    )[1]


RULES: dict[str, Rule] = {
    "gain/min": by_gain,
    "half-split": halving,
    "fixed": in_order,
    "random": at_random,
}


def _alive(case: Problem) -> int:
    return sum(share > 0.0 for share in case.shares)


def _bits(case: Problem) -> float:
    shares: dict[object, float] = {}
    for share, repair in zip(case.shares, case.repairs, strict=True):
        shares[repair] = shares.get(repair, 0.0) + share
    total = sum(shares.values())
    return sum(share * math.log2(total / share) for share in shares.values() if share > 0.0)
