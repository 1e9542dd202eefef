"""Planning against examples with known answers, their sources named."""

from __future__ import annotations

import math
from itertools import permutations, product

import pytest

from footwell.diagnosis.planning.board import board
from footwell.diagnosis.planning.bounds import Bounds
from footwell.diagnosis.planning.next_check import next_check
from footwell.diagnosis.planning.problem import Problem
from footwell.diagnosis.planning.readings import chances
from footwell.diagnosis.planning.repairs import repair_order

from .planning_rig import (
    Live,
    chain,
    expected,
    minutes_of,
    most_telling,
    optimum,
    planned,
    problem,
)

# After Pattipati & Alexandridis (1990), "Application of heuristic search and information theory to
# sequential fault diagnosis", IEEE Trans. SMC 20(4): six states, five tests.
DICTIONARY = problem(
    (0.70, 0.01, 0.02, 0.10, 0.05, 0.12),
    list(
        zip(
            *(map(int, row) for row in ("00000", "01001", "00110", "10011", "11000", "11110")),
            strict=True,
        )
    ),
)


def one_step(case: Problem, live: Live) -> int:
    return most_telling(case, live)


def test_dictionary_of_six_states_is_solved_at_its_optimum() -> None:
    plan = next_check(DICTIONARY)
    assert plan is not None and plan.exact
    assert plan.minutes == pytest.approx(2.18, abs=1e-9)
    assert plan.option in (1, 3)
    assert expected(DICTIONARY, minutes_of(DICTIONARY, planned)) == pytest.approx(2.18, abs=1e-9)


def test_dictionary_of_six_states_has_the_published_bounds() -> None:
    states = board(DICTIONARY)
    bounds = Bounds(states)
    assert bounds.least(states.all) == pytest.approx(1.59, abs=1e-9)
    assert bounds.bits(states.all) == pytest.approx(1.4549, abs=5e-5)


def test_one_step_gain_costs_more_in_the_dictionary_of_six_states() -> None:
    assert expected(DICTIONARY, minutes_of(DICTIONARY, one_step)) == pytest.approx(2.86, abs=1e-9)


# de Kleer & Williams (1987), "Diagnosing multiple faults", Artificial Intelligence 32.
UNITS = ("M1", "M2", "M3", "A1", "A2")
RATE = 0.01


def explains(faulty: frozenset[str]) -> bool:
    """Whether F = 10 and G = 12 can be when just these units may give anything."""
    x = None if "M1" in faulty else 6
    y = None if "M2" in faulty else 6
    z = None if "M3" in faulty else 6
    free_y = [y] if y is not None else range(-50, 50)
    for value in free_y:
        first = "A1" in faulty or x is None or x + value == 10
        second = "A2" in faulty or z is None or value + z == 12
        if first and second:
            return True
    return False


def multiplier_odds() -> dict[frozenset[str], float]:
    sets = [
        frozenset(u for u, bad in zip(UNITS, bits, strict=True) if bad)
        for bits in product((0, 1), repeat=len(UNITS))
    ]
    odds = {s: RATE ** len(s) * (1 - RATE) ** (len(UNITS) - len(s)) for s in sets if explains(s)}
    total = sum(odds.values())
    return {s: share / total for s, share in odds.items()}


def test_multipliers_and_adders_have_the_published_odds() -> None:
    odds = multiplier_odds()
    minimal = {s for s in odds if not any(other < s for other in odds)}
    assert minimal == {
        frozenset({"A1"}),
        frozenset({"M1"}),
        frozenset({"A2", "M2"}),
        frozenset({"M2", "M3"}),
    }
    of = {u: sum(share for s, share in odds.items() if u in s) for u in UNITS}
    published = {"M1": 0.49764, "A1": 0.49764, "M2": 0.01961, "M3": 0.01478, "A2": 0.01478}
    assert of == pytest.approx(published, abs=6e-6)


def test_multipliers_and_adders_are_probed_at_x_first() -> None:
    odds = multiplier_odds()
    suspects = [
        frozenset({"A1"}),
        frozenset({"M1"}),
        frozenset({"A2", "M2"}),
        frozenset({"M2", "M3"}),
    ]
    # What stands at X, Y, Z under each: (6, 6, 6), (4, 6, 6), (6, 4, 6), (6, 4, 8).
    probes = [(0, 1, 0, 0), (0, 0, 1, 1), (0, 0, 0, 1)]
    plan = next_check(problem([odds[s] for s in suspects], probes))
    assert plan is not None and plan.exact and plan.option == 0


def test_repairs_go_by_probability_over_cost() -> None:
    # Search theory's classical rule; the figures are worked by hand.
    shares, minutes = (0.30, 0.25, 0.20, 0.15, 0.10), (10.0, 4.0, 1.0, 6.0, 2.0)
    order, cost = repair_order(shares, [{0}, {1}, {2}, {3}, {4}], minutes)
    assert [r + 1 for r in order] == [3, 2, 5, 1, 4]
    assert cost == pytest.approx(10.70, abs=1e-9)
    assert cost == pytest.approx(min(of_order(shares, minutes, o) for o in permutations(range(5))))


def of_order(
    shares: tuple[float, ...], minutes: tuple[float, ...], order: tuple[int, ...]
) -> float:
    return sum(shares[r] * sum(minutes[q] for q in order[: n + 1]) for n, r in enumerate(order))


def test_repairs_that_overlap_are_not_ordered_greedily() -> None:
    # Worked by hand: the greedy order a2, a1, a3 costs 1.55.
    order, cost = repair_order((0.20, 0.25, 0.40, 0.15), [{0, 1}, {0, 2}, {2, 3}], (1.0, 1.0, 1.0))
    assert [r + 1 for r in order] == [3, 1]
    assert cost == pytest.approx(1.45, abs=1e-9)
    assert pytest.approx(1.55) == 0.60 * 1 + 0.25 * 2 + 0.15 * 3


def sixteen() -> Problem:
    """Four bits; the repair is their parity, but 0001 belongs to the even ones; option 4 shows it."""
    bits = [[s >> (3 - b) & 1 for s in range(16)] for b in range(4)]
    parity = [0 if s == 1 else s.bit_count() % 2 for s in range(16)]
    return problem([1 / 16] * 16, [*bits, parity], repairs=parity)


def test_gain_is_about_repairs_and_not_about_hypotheses() -> None:
    plan = next_check(sixteen())
    assert plan is not None and plan.exact
    assert (plan.option, plan.minutes) == (4, pytest.approx(1.0))


def test_gain_about_hypotheses_would_cost_nearly_four_times_as_much() -> None:
    def by_hypothesis(case: Problem, live: Live) -> int:
        return most_telling(case, live, of=lambda s: s)

    assert expected(sixteen(), minutes_of(sixteen(), by_hypothesis)) == pytest.approx(3.875)


@pytest.mark.parametrize(
    ("apart", "error", "last_digit"),
    [
        (0.05, 0.266, 1e-3),
        (0.10, 0.106, 1e-3),
        (0.15, 0.0304, 1e-4),
        (0.20, 0.00621, 1e-5),
        (0.30, 9e-5, 1e-5),
    ],
)
def test_two_candidates_close_together_are_mistaken_as_the_meter_says(
    apart: float, error: float, last_digit: float
) -> None:
    # Half the meter's limit of ±(0.5 % of 12 V + 2 counts of 0.01 V) as standard deviation; normal law.
    sigma = 0.5 * (0.005 * 12.0 + 2 * 0.01)
    wrong = chances(12.0, sigma, (12.0 + apart / 2,))[1]
    assert wrong == pytest.approx(error, abs=last_digit / 2)


@pytest.mark.parametrize("count", [2, 3, 5, 8, 12])
def test_focused_tests_go_by_falling_probability(count: int) -> None:
    # Worked by hand: Σ pᵢ·min(i, n−1), the last defect being known without its test.
    shares = sorted((1.0 + (7 * s) % count for s in range(count)), reverse=True)
    total = sum(shares)
    turned = shares[1:] + shares[:1]
    case = problem(turned, [[int(s == k) for s in range(count)] for k in range(count)])
    plan = next_check(case)
    by_hand = sum(p * min(i, count - 1) for i, p in enumerate(shares, 1)) / total
    assert plan is not None and plan.exact
    assert plan.minutes == pytest.approx(by_hand)


CHAINS = {4: 2.000, 8: 3.000, 12: 3.667, 16: 4.000, 20: 4.400, 30: 4.933, 40: 5.400, 60: 5.933}
"""Mean checks in a chain of equal sections: the mean depth of a balanced tree, worked by hand."""


@pytest.mark.parametrize("count", CHAINS)
def test_a_chain_of_equal_sections_is_halved(count: int) -> None:
    case = chain([1 / count] * count)
    plan = next_check(case)
    walked = minutes_of(case, planned)
    assert plan is not None and plan.exact
    assert plan.minutes == pytest.approx(CHAINS[count], abs=5e-4)
    assert expected(case, walked) == pytest.approx(CHAINS[count], abs=5e-4)
    assert max(walked.values()) == math.ceil(math.log2(count))


def test_a_chain_checked_from_its_end_is_not_halved() -> None:
    def next_joint(case: Problem, live: Live) -> int:
        return min(live)

    case = chain([1 / 12] * 12)
    assert expected(case, minutes_of(case, next_joint)) > 1.5 * CHAINS[12]


def test_the_plain_optimum_of_the_tests_knows_the_examples_too() -> None:
    assert optimum(DICTIONARY) == pytest.approx(2.18)
    assert optimum(sixteen()) == pytest.approx(1.0)
    assert optimum(chain([1 / 12] * 12)) == pytest.approx(44 / 12)
