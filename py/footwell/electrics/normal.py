"""The standard normal distribution."""

from __future__ import annotations

from math import erfc, exp, pi, sqrt


def below(z: float) -> float:
    """Chance of a number of at most z.

    >>> round(below(1.96), 3), round(below(-1.96), 3)
    (0.975, 0.025)
    """
    return 0.5 * erfc(-z / sqrt(2.0))


def score_of(chance: float) -> float:
    """The z with this chance below it, by halving the interval from -8 to 8.

    >>> round(score_of(0.975), 3), round(score_of(0.5), 3) + 0.0
    (1.96, 0.0)
    """
    low, high = -8.0, 8.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        if below(middle) < chance:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def cut(score: float, kept_below: bool) -> tuple[float, float]:
    """Mean and variance of the numbers on one side of a score (truncated normal distribution).

    >>> mean, variance = cut(0.0, True)
    >>> round(mean, 4), round(variance, 4)
    (-0.7979, 0.3634)
    """
    edge = score if kept_below else -score
    rate = exp(-0.5 * edge * edge) / sqrt(2.0 * pi) / max(below(edge), 1e-15)
    return (-rate if kept_below else rate), max(1.0 - rate * (rate + edge), 1e-6)
