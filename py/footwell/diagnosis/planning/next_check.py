"""The check to do next, by planning alone.

Below about twenty suspects nearly every plan is exact. Above, and where the count of states is used up
before, it is the best of a rollout and of what the search found.
"""

from __future__ import annotations

from dataclasses import dataclass

from footwell.diagnosis.planning.board import board
from footwell.diagnosis.planning.problem import Problem
from footwell.diagnosis.planning.search import Search

STATES = 1000
"""States weighed for one decision: a count, never a time, so that a slow phone chooses the same check."""


@dataclass(frozen=True, slots=True)
class Plan:
    """The option to take first, the minutes expected until the repair is known, whether it is proven that
    no plan expects less, and how many states were weighed."""

    option: int
    minutes: float
    exact: bool
    states: int


def next_check(problem: Problem, states: int = STATES) -> Plan | None:
    """Plan the checks for a problem; None where no option tells more of the repair than is known.

    A problem whose shares are all zero raises ValueError.
    """
    if not any(share > 0.0 for share in problem.shares):
        raise ValueError("No suspect has any share.")
    search = Search(board(problem), states)
    best = search.best()
    if best is None:
        return None
    option, minutes, exact = best
    return Plan(option, minutes, exact, search.weighed)
