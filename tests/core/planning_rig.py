"""Planning problems for tests, a slow and plain optimum, and a walk down the tree of a plan."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Sequence
from dataclasses import replace
from functools import lru_cache

from footwell.diagnosis.planning.next_check import next_check
from footwell.diagnosis.planning.problem import Option, Problem, sure

Live = frozenset[int]
Choose = Callable[[Problem, Live], int]
"""The option that a rule takes for the suspects that are left."""


def problem(
    shares: Sequence[float],
    outcomes: Sequence[Sequence[int]],
    repairs: Sequence[Hashable] | None = None,
    minutes: Sequence[float] | None = None,
) -> Problem:
    """`outcomes[j][s]`: what option j shows under suspect s for certain."""
    costs = minutes or [1.0] * len(outcomes)
    options = tuple(Option(sure(row), cost) for row, cost in zip(outcomes, costs, strict=True))
    return Problem(tuple(shares), tuple(repairs or range(len(shares))), options)


def chain(shares: Sequence[float], minutes: Sequence[float] | None = None) -> Problem:
    """One break in a chain of sections: option k tells whether it lies before or after joint k."""
    count = len(shares)
    outcomes = [[int(s > joint) for s in range(count)] for joint in range(count - 1)]
    return problem(shares, outcomes, minutes=minutes)


def divided(case: Problem, live: Live, option: int) -> list[Live]:
    """Suspects left by each outcome of an option, all outcomes being certain."""
    chances = case.options[option].chances
    found: dict[tuple[float, ...], set[int]] = {}
    for s in sorted(live):
        found.setdefault(chances[s], set()).add(s)
    return [frozenset(part) for part in found.values()]


def known(case: Problem, live: Live) -> bool:
    return len({case.repairs[s] for s in live}) < 2


def weight(case: Problem, live: Live) -> float:
    return sum(case.shares[s] for s in sorted(live))


def everyone(case: Problem) -> Live:
    return frozenset(range(len(case.shares)))


def took(case: Problem, option: int, station: int) -> float:
    there = case.options[option].station
    return case.options[option].minutes + case.travel[station][there]


def optimum(case: Problem) -> float:
    """Least expected minutes by trying every option in every state, for problems that can be solved."""

    @lru_cache(None)
    def least(live: Live, station: int) -> float:
        if known(case, live):
            return sum(case.shares[s] * case.ends[s][station] for s in live if case.ends)
        found = math.inf
        for j, option in enumerate(case.options):
            parts = divided(case, live, j)
            if len(parts) > 1:
                after = sum(least(part, option.station) for part in parts)
                found = min(found, weight(case, live) * took(case, j, station) + after)
        return found

    return least(everyone(case), case.start) / weight(case, everyone(case))


def minutes_of(case: Problem, choose: Choose) -> dict[int, float]:
    """Minutes until the repair is known for each suspect when a rule chooses every check."""
    found = dict.fromkeys(range(len(case.shares)), 0.0)

    def walk(live: Live, station: int) -> None:
        if known(case, live):
            return
        option = choose(replace(case, start=station), live)
        for s in live:
            found[s] += took(case, option, station)
        for part in divided(case, live, option):
            walk(part, case.options[option].station)

    walk(everyone(case), case.start)
    return found


def expected(case: Problem, minutes: dict[int, float]) -> float:
    total = sum(share * minutes[s] for s, share in enumerate(case.shares))
    return total / sum(case.shares)


def planned(case: Problem, live: Live) -> int:
    """The planner as a rule."""
    shares = tuple(share if s in live else 0.0 for s, share in enumerate(case.shares))
    plan = next_check(replace(case, shares=shares))
    assert plan is not None
    return plan.option


def most_telling(case: Problem, live: Live, of: Callable[[int], Hashable] | None = None) -> int:
    """The option with the most gain a minute on what `of` says of a suspect (its repair, if not given);
    ties to the lower number."""
    key = of or case.repairs.__getitem__
    before = entropy(case, live, key)
    rows = []
    for j in range(len(case.options)):
        parts = divided(case, live, j)
        gain = before - sum(entropy(case, part, key) for part in parts)
        rows.append((-round(gain / took(case, j, case.start), 9), j))
    return min(rows)[1]


def entropy(case: Problem, live: Live, of: Callable[[int], Hashable]) -> float:
    """Entropy (bits) of what `of` says, times the share of the suspects."""
    shares: dict[Hashable, float] = {}
    for s in sorted(live):
        shares[of(s)] = shares.get(of(s), 0.0) + case.shares[s]
    total = sum(shares.values())
    return sum(share * math.log2(total / share) for share in shares.values())
