"""Whether a fuse opens within the time of a check, where its limits leave that open."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, log, sqrt

from footwell.circuit.circuit import Element
from footwell.electrics.operating_point import CHECK_SECONDS, OperatingPoint, opening_seconds
from footwell.parts.base import Seconds, Tipping

WIDEST = 800.0
"""Longest over shortest time where no longest is promised: that of a blade fuse at 135 %, the least
current at which one is (ISO 8820-3, reference.fuse_times)."""

SIGMAS_WITHIN = 4.0
"""The limits of a time hold nearly all parts: two standard deviations of its logarithm on either side of
the middle (assumption)."""


def may_open(point: OperatingPoint, element: Element, share: float) -> bool:
    """Whether a fuse might open in time if its current were some share of what is found."""
    amps = max((abs(f.amps) for f in point.felt(element.id).flows.values()), default=0.0)
    assert element.kind.opens is not None
    seconds = element.kind.opens(element.values, share * amps, point.circuit.context)
    return seconds is not None and seconds[0] <= CHECK_SECONDS


def opening(point: OperatingPoint, element: Element, opened: str) -> Tipping:
    """A fuse that may open within a check; where another one has `opened`, that may do so before it."""
    felt = point.felt(element.id)
    branch = max(felt.flows, key=felt.amps, default="")
    score = _within_a_check(point, element)
    if opened not in ("", element.id):
        rival = opening_seconds(point, point.circuit.elements[opened])
        score = _before(opening_seconds(point, element), rival)
    gone = element.kind.opened
    return Tipping(gone, branch, "A", score, "limit", f"has {gone}", "holds")


def _within_a_check(point: OperatingPoint, element: Element) -> Callable[[float], float]:
    context, opens = point.circuit.context, element.kind.opens
    assert opens is not None

    def score(amps: float) -> float:
        seconds = opens(element.values, amps, context)
        if seconds is None:
            return -inf
        middle, sigma = _log_time(seconds)
        return (log(CHECK_SECONDS) - middle) / sigma

    return score


def _before(element_seconds: Seconds | None, rival: Seconds | None) -> Callable[[float], float]:
    """Of two fuses with the same current the later never opens: which it is hangs on both."""
    if element_seconds is None or rival is None:
        return lambda _: -inf
    own, other = _log_time(element_seconds), _log_time(rival)
    lead = (other[0] - own[0]) / sqrt(own[1] ** 2 + other[1] ** 2)
    return lambda _: lead


def _log_time(seconds: Seconds) -> tuple[float, float]:
    """Mean and standard deviation of the logarithm of the time until a fuse opens."""
    shortest = seconds[0]
    longest = seconds[1] if seconds[1] < inf else shortest * WIDEST
    width = max(log(longest / shortest), 1e-6)
    return log(shortest) + width / 2.0, width / SIGMAS_WITHIN
