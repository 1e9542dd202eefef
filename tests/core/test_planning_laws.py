"""Laws that every plan keeps, on problems drawn at random."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footwell.diagnosis.planning.board import board
from footwell.diagnosis.planning.bounds import Bounds
from footwell.diagnosis.planning.doubt import DOUBT, corrections
from footwell.diagnosis.planning.next_check import STATES, next_check
from footwell.diagnosis.planning.problem import Option, Problem, sure
from footwell.diagnosis.planning.repairs import repair_order

from .planning_rig import (
    Live,
    chain,
    divided,
    expected,
    minutes_of,
    optimum,
    planned,
    problem,
)

NEVER = 10**9
"""States that no small problem uses up."""


@st.composite
def problems(draw: st.DrawFn, travel: bool = True) -> Problem:
    """Up to seven suspects, some with a repair in common; every two can be told apart."""
    count = draw(st.integers(2, 7))
    shares = draw(st.lists(st.integers(1, 50), min_size=count, max_size=count))
    repairs = draw(st.lists(st.integers(0, count - 1), min_size=count, max_size=count))
    outcomes = st.lists(st.integers(0, 2), min_size=count, max_size=count)
    rows = draw(st.lists(outcomes, min_size=0, max_size=5))
    rows += [[s >> bit & 1 for s in range(count)] for bit in range(3)]
    minutes = draw(st.lists(st.integers(1, 10), min_size=len(rows), max_size=len(rows)))
    case = problem(shares, rows, repairs, [float(m) for m in minutes])
    return moving(draw, case) if travel and draw(st.booleans()) else case


@st.composite
def confirmed_problems(draw: st.DrawFn) -> Problem:
    """Problems in which the repair, once known, is still to be confirmed from where the person stands."""
    case = draw(problems())
    row = st.lists(
        st.integers(0, 9).map(float), min_size=len(case.travel), max_size=len(case.travel)
    )
    return replace(case, ends=tuple(tuple(draw(row)) for _ in case.shares))


def moving(draw: st.DrawFn, case: Problem) -> Problem:
    stations = draw(st.integers(2, 3))
    way = st.lists(st.integers(0, 5).map(float), min_size=stations, max_size=stations)
    travel = [draw(way) for _ in range(stations)]
    for here, row in enumerate(travel):
        row[here] = 0.0
    at = [draw(st.integers(0, stations - 1)) for _ in case.options]
    options = tuple(replace(o, station=s) for o, s in zip(case.options, at, strict=True))
    return replace(case, options=options, travel=tuple(map(tuple, travel)))


def minutes(case: Problem, states: int = NEVER) -> float:
    plan = next_check(case, states)
    return plan.minutes if plan else 0.0


@given(confirmed_problems())
@settings(deadline=None)
def test_a_plan_that_is_called_exact_is_the_optimum_with_the_confirming_check(
    case: Problem,
) -> None:
    plan = next_check(case, NEVER)
    if plan is not None:
        assert plan.exact and plan.minutes == pytest.approx(optimum(case), abs=1e-6)


def test_of_two_checks_the_one_that_leaves_less_to_confirm_comes_first() -> None:
    """And with what is left to confirm exchanged, the other."""
    case = problem([1.0, 1.0], [[0, 1], [0, 1]])
    options = tuple(replace(o, station=n) for n, o in enumerate(case.options, 1))
    case = replace(case, options=options, travel=((0.0,) * 3,) * 3)
    for ends, first in (((9.0, 4.0, 0.0), 1), ((9.0, 0.0, 4.0), 0)):
        plan = next_check(replace(case, ends=(ends, ends)))
        assert plan is not None and plan.option == first and plan.minutes == 1.0


@given(problems())
@settings(deadline=None)
def test_a_plan_that_is_called_exact_is_the_optimum(case: Problem) -> None:
    plan = next_check(case, NEVER)
    assert plan is None or plan.exact
    assert minutes(case) == pytest.approx(optimum(case), abs=1e-6)


@given(problems(), st.integers(0, 30))
@settings(deadline=None)
def test_however_few_states_are_weighed_a_plan_promises_no_less_than_the_optimum(
    case: Problem, states: int
) -> None:
    plan = next_check(case, states)
    best = optimum(case)
    assert plan is not None or best == 0.0
    if plan is not None:
        assert plan.minutes >= best - 1e-6
        assert not plan.exact or plan.minutes == pytest.approx(best, abs=1e-6)


@given(problems())
@settings(deadline=None, max_examples=50)
def test_walking_a_plan_costs_what_it_promises(case: Problem) -> None:
    assert expected(case, minutes_of(case, planned)) == pytest.approx(minutes(case), abs=1e-6)


@given(problems(), st.integers(0, 1000))
@settings(deadline=None)
def test_no_other_rule_costs_less(case: Problem, seed: int) -> None:
    chance = random.Random(seed)

    def anything(inner: Problem, live: Live) -> int:
        useful = [j for j in range(len(inner.options)) if len(divided(inner, live, j)) > 1]
        return chance.choice(useful)

    assert expected(case, minutes_of(case, anything)) >= minutes(case) - 1e-6


@given(problems(), st.data())
@settings(deadline=None)
def test_the_order_of_suspects_and_options_changes_no_minute(case: Problem, data: Any) -> None:
    who = data.draw(st.permutations(range(len(case.shares))))
    what = data.draw(st.permutations(range(len(case.options))))
    turned = replace(
        case,
        shares=tuple(case.shares[s] for s in who),
        repairs=tuple(case.repairs[s] for s in who),
        options=tuple(
            replace(case.options[j], chances=tuple(case.options[j].chances[s] for s in who))
            for j in what
        ),
    )
    assert minutes(turned) == pytest.approx(minutes(case), abs=1e-6)


@given(problems(), st.data())
@settings(deadline=None)
def test_one_more_option_never_costs_minutes(case: Problem, data: Any) -> None:
    count = len(case.shares)
    row = data.draw(st.lists(st.integers(0, 2), min_size=count, max_size=count))
    more = Option(sure(row), float(data.draw(st.integers(1, 10))))
    assert minutes(replace(case, options=(*case.options, more))) <= minutes(case) + 1e-6


@given(problems(travel=False))
@settings(deadline=None)
def test_the_lower_bounds_lie_below_the_optimum(case: Problem) -> None:
    states = board(case)
    bounds = Bounds(states)
    whole = states.all
    splits = [(j, p, 0.0) for j, p in enumerate(states.parts) if len(p) > 1]
    if not bounds.known(whole):
        huffman = bounds.least(whole)
        bounds.look_closer(whole, splits)
        assert huffman - 1e-9 <= bounds.least(whole) <= optimum(case) + 1e-6


@given(problems(), st.floats(0.01, 100.0))
@settings(deadline=None)
def test_the_scale_of_the_shares_changes_nothing(case: Problem, scale: float) -> None:
    scaled = replace(case, shares=tuple(share * scale for share in case.shares))
    assert minutes(scaled) == pytest.approx(minutes(case), abs=1e-6)


@given(st.integers(0, 10_000))
@settings(deadline=None, max_examples=10)
def test_a_plan_weighs_no_more_states_than_the_count_and_a_few_rollouts(seed: int) -> None:
    chance = random.Random(seed)
    rows = [[chance.randrange(2) for _ in range(30)] for _ in range(40)]
    costs = [float(chance.randint(1, 10)) for _ in rows]
    case = problem([chance.random() ** 3 for _ in range(30)], rows, minutes=costs)
    plan = next_check(case)
    assert plan is not None
    assert plan.states <= STATES + 10 * 30
    assert next_check(case) == plan


def test_nothing_is_proposed_where_the_repair_is_known() -> None:
    rows = [[0, 0, 1], [0, 1, 0]]
    assert next_check(problem([1, 1, 1], rows, repairs=["plug"] * 3)) is None
    assert next_check(problem([1, 1, 1], rows, repairs=["plug", "plug", "wire"])) is not None


def test_nothing_is_proposed_where_no_option_divides_the_suspects() -> None:
    assert next_check(problem([1, 1], [[0, 0], [0, 0]])) is None
    assert next_check(problem([1, 1], [[0, 0], [0, 1]])) is not None


def test_suspects_that_nothing_tells_apart_do_not_hide_the_others() -> None:
    plan = next_check(problem([3, 2, 5], [[0, 0, 1]]))
    assert plan is not None and plan.exact and plan.minutes == pytest.approx(1.0)


def test_shares_of_nothing_are_refused() -> None:
    with pytest.raises(ValueError, match="No suspect"):
        next_check(problem([0.0, 0.0], [[0, 1]]))


def test_of_two_equal_options_the_first_is_taken() -> None:
    case = problem([1, 1, 1, 1], [[0, 0, 1, 1], [0, 1, 0, 1], [0, 1, 1, 0]])
    plan = next_check(case)
    assert plan is not None and plan.option == 0


def uncertain(right: float) -> tuple[tuple[float, float], ...]:
    return ((right, 1 - right), (1 - right, right))


def test_a_check_that_is_often_wrong_is_worth_less_than_a_sure_one() -> None:
    doubtful, certain = Option(uncertain(0.75), 1.0), Option(uncertain(1.0), 1.0)
    plan = next_check(Problem((1.0, 1.0), ("a", "b"), (doubtful, certain)))
    assert plan is not None and plan.option == 1
    swapped = next_check(Problem((1.0, 1.0), ("a", "b"), (certain, doubtful)))
    assert swapped is not None and swapped.option == 0


def test_a_check_that_says_the_same_of_all_suspects_is_worth_nothing() -> None:
    coin = Option(((0.5, 0.5), (0.5, 0.5)), 0.1)
    assert next_check(Problem((1.0, 2.0), ("a", "b"), (coin,))) is None
    telling = Option(uncertain(0.75), 0.1)
    assert next_check(Problem((1.0, 2.0), ("a", "b"), (telling,))) is not None


def test_a_rare_slip_changes_no_plan() -> None:
    sure_ones = [Option(uncertain(right), 1.0) for right in (1.0, 0.98)]
    plans = [next_check(Problem((1.0, 1.0), ("a", "b"), (o,))) for o in sure_ones]
    assert plans[0] == plans[1]


def test_a_place_is_not_left_for_a_check_that_is_hardly_better() -> None:
    halves = [[0, 0, 1, 1], [0, 1, 0, 1], [0, 1, 1, 0]]
    case = problem([1, 1, 1, 1], halves)
    at = tuple(replace(o, station=s) for o, s in zip(case.options, (1, 0, 0), strict=True))
    far = replace(case, options=at, travel=((0.0, 5.0), (5.0, 0.0)))
    plan = next_check(far)
    assert plan is not None and plan.option == 1 and plan.minutes == pytest.approx(2.0)
    there = next_check(replace(far, start=1))
    assert there is not None and there.option == 0 and there.minutes == pytest.approx(7.0)


@given(st.lists(st.floats(0.0, 6.0), min_size=24, max_size=24))
@settings(deadline=None, max_examples=12)
def test_doubted_rates_cost_a_bounded_number_of_checks_in_a_chain(decades: list[float]) -> None:
    rates = [10.0**-d for d in decades]
    factors = corrections(dict(enumerate(rates)))
    doubted = chain([rate * factors[s] for s, rate in enumerate(rates)])
    # A leaf's depth grows with the logarithm of its rate in golden sections (as in Huffman's code).
    golden = (1 + math.sqrt(5)) / 2
    assert max(minutes_of(doubted, planned).values()) <= 1 + math.log(24 / DOUBT, golden)


def test_believed_rates_may_cost_every_check_of_a_chain() -> None:
    steep = [3.0**-s for s in range(24)]
    assert max(minutes_of(chain(steep), planned).values()) == 23
    factors = corrections(dict(enumerate(steep)))
    doubted = chain([rate * factors[s] for s, rate in enumerate(steep)])
    assert max(minutes_of(doubted, planned).values()) <= 5 + 4


@given(st.lists(st.integers(1, 20), min_size=1, max_size=6), st.data())
def test_repairs_that_share_nothing_go_by_chance_a_minute(shares: list[int], data: Any) -> None:
    count = len(shares)
    costs = data.draw(st.lists(st.integers(1, 9).map(float), min_size=count, max_size=count))
    total = sum(shares)
    order, cost = repair_order([s / total for s in shares], [{s} for s in range(count)], costs)
    worth = [round(shares[r] / total / costs[r], 9) for r in order]
    assert worth == sorted(worth, reverse=True)
    paid = [sum(costs[q] for q in order[: n + 1]) for n in range(count)]
    assert cost == pytest.approx(
        sum(shares[r] / total * p for r, p in zip(order, paid, strict=True))
    )
