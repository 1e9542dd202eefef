"""Outcomes of a check that reads a number: ranges, and the chance of each under a suspect."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

WIDTH = 3.0
"""Width of a range in standard deviations of the reading at its lower end: two suspects further apart
share no range."""


def limits(numbers: Iterable[tuple[float, float]]) -> tuple[float, ...]:
    """Limits between the ranges of readings with these means and standard deviations, rising.

    A limit lies half way between two means; a meter out of range (inf) has a range of its own.

    >>> limits([(12.0, 0.05), (0.0, 0.01), (11.95, 0.05), (6.0, 0.3)])
    (3.0, 8.975)
    """
    found: list[float] = []
    start = before = width = math.nan
    for mean, sigma in sorted(numbers):
        if math.isnan(start):
            start, width = mean, sigma
        elif mean - start > WIDTH * max(width, sigma):
            found.append(0.5 * (before + mean) if mean < math.inf else math.inf)
            start, width = mean, sigma
        before = mean
    return tuple(found)


def chances(mean: float, sigma: float, between: Sequence[float]) -> tuple[float, ...]:
    """Chance of each range for a reading, the lowest range first.

    >>> [round(p, 3) for p in chances(12.0, 0.04, (12.025,))]
    [0.734, 0.266]
    """
    below = [0.0, *(_below(limit, mean, sigma) for limit in between), 1.0]
    return tuple(high - low for low, high in pairwise(below))


def _below(limit: float, mean: float, sigma: float) -> float:
    if math.isinf(limit) or math.isinf(mean) or sigma <= 0.0:
        return float(mean < limit)
    return 0.5 * math.erfc((mean - limit) / (sigma * math.sqrt(2.0)))
