"""Whether a fuse opens within the time of a check, where its limits leave that open."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, log, sqrt
from typing import Any

from footwell.circuit.circuit import Element
from footwell.electrics.operating_point import CHECK_SECONDS, OperatingPoint, opening_seconds
from footwell.parts.base import Context, Kind, Seconds, Tipping

WIDEST = 800.0
"""Longest over shortest time where no longest is promised: that of a blade fuse at 135 %, the least
current at which one is (ISO 8820-3, reference.fuse_times)."""

SIGMAS_WITHIN = 4.0
"""The limits of a time hold nearly all parts: two standard deviations of its logarithm on either side of
the middle (assumption)."""


def opening(kind: Kind, values: Any, context: Context, branch: str) -> Tipping:
    """A fuse that may open within a check by the current of a branch."""
    opens = kind.opens
    assert opens is not None

    def score(amps: float) -> float:
        seconds = opens(values, amps, context)
        if seconds is None:
            return -inf
        middle, sigma = _log_time(seconds)
        return (log(CHECK_SECONDS) - middle) / sigma

    return _tipping(kind, branch, score)


def opening_before(point: OperatingPoint, element: Element, branch: str, rival: Element) -> Tipping:
    """A fuse that may open before another one that did: the later one never opens."""
    seconds = [opening_seconds(point, each) for each in (element, rival)]
    if seconds[0] is None or seconds[1] is None:
        return _tipping(element.kind, branch, lambda _: -inf)
    (own, sigma), (other, others) = _log_time(seconds[0]), _log_time(seconds[1])
    lead = (other - own) / sqrt(sigma**2 + others**2)
    return _tipping(element.kind, branch, lambda _: lead)


def _tipping(kind: Kind, branch: str, score: Callable[[float], float]) -> Tipping:
    gone = kind.opened
    return Tipping(gone, branch, "A", score, "limit", f"has {gone}", "holds")


def _log_time(seconds: Seconds) -> tuple[float, float]:
    """Mean and standard deviation of the logarithm of the time until a fuse opens."""
    shortest = seconds[0]
    longest = seconds[1] if seconds[1] < inf else shortest * WIDEST
    width = max(log(longest / shortest), 1e-6)
    return log(shortest) + width / 2.0, width / SIGMAS_WITHIN
