"""Refusing values outside a table, and reading between its rows."""

from collections.abc import Sequence
from itertools import pairwise
from math import exp, log


def require_between(name: str, value: float, low: float, high: float, unit: str) -> None:
    """Raise ValueError with a sentence unless low <= value <= high; NaN is refused too.

    >>> require_between("Cross-section", 500.0, 0.13, 120.0, "mm2")
    Traceback (most recent call last):
    ...
    ValueError: Cross-section is 500 mm2; the table covers 0.13 to 120 mm2.
    """
    if not low <= value <= high:
        raise ValueError(
            f"{name} is {value:g} {unit}; the table covers {low:g} to {high:g} {unit}."
        )


def linear(points: Sequence[tuple[float, float]], x: float) -> float:
    """y at x on straight lines between points in rising x; the end values hold outside.

    >>> linear([(0.0, 11.7), (25.0, 12.0)], 12.5)
    11.85
    >>> linear([(0.0, 11.7), (25.0, 12.0)], 99.0)
    12.0
    """
    if x <= points[0][0]:
        return points[0][1]
    for (x0, y0), (x1, y1) in pairwise(points):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]


def log_log(points: Sequence[tuple[float, float]], x: float) -> float:
    """y at x on straight lines between points drawn on logarithmic axes; x and y above zero.

    >>> round(log_log([(1.0, 1.0), (100.0, 10.0)], 10.0), 6)
    3.162278
    """
    # A row's own value comes back unrounded: verdicts compare against it with >=.
    for px, py in points:
        if px == x:
            return py
    return exp(linear([(log(px), log(py)) for px, py in points], log(x)))
