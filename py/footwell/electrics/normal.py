"""The standard normal distribution."""

from __future__ import annotations

from collections.abc import Callable
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


POINTS = [0.25 * n for n in range(-14, 15)]
DENSITY = [exp(-0.5 * z * z) for z in POINTS]
SURE = 1e-6
MOST = 0.98


def spread_over(
    score: Callable[[float], float], quantity: float, sigma: float
) -> tuple[float, float]:
    """The score of a quantity that is itself normal, and how the two go together.

    Where a number of at most `score(quantity)` tips a part, the first is the score of its chance taken
    over the spread of the quantity, and the second the correlation by which the mean of the quantity
    moves once the part is known to have tipped: slope of the chance over the density (Stein's lemma).

    >>> s, r = spread_over(lambda volts: (volts - 6.6) / 0.6, 6.9, 0.8)
    >>> round(s, 3), round(r, 3)
    (0.3, 0.8)
    """

    def chance_at(middle: float) -> float:
        chances = [below(score(middle + sigma * z)) for z in POINTS]
        return sum(w * c for w, c in zip(DENSITY, chances, strict=True)) / sum(DENSITY)

    chance = chance_at(quantity)
    if sigma <= 0.0 or not SURE < chance < 1.0 - SURE:
        return score_of(chance), 0.0
    step = 0.05 * sigma
    slope = (chance_at(quantity + step) - chance_at(quantity - step)) / (2.0 * step)
    found = score_of(chance)
    density = exp(-0.5 * found * found) / sqrt(2.0 * pi)
    return found, min(max(slope * sigma / density, -MOST), MOST)
