"""Odds that are not fully believed: a part of the weight is dealt out to all repairs alike."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import replace

from footwell.diagnosis.planning.problem import Problem


def doubted(problem: Problem, doubt: float) -> Problem:
    """The problem with the share `doubt` of its weight dealt out to all repairs alike, within a repair by
    the suspects' own odds.

    No repair is then rarer than `doubt` over their number, so that however wrong the odds are, the plan
    stays within a few checks of halving.
    """
    total = sum(problem.shares)
    of: dict[Hashable, float] = {}
    for share, repair in zip(problem.shares, problem.repairs, strict=True):
        of[repair] = of.get(repair, 0.0) + share
    live = sum(share > 0.0 for share in of.values())
    return replace(
        problem,
        shares=tuple(
            share * ((1.0 - doubt) / total + doubt / (live * of[repair])) if share > 0.0 else 0.0
            for share, repair in zip(problem.shares, problem.repairs, strict=True)
        ),
    )
