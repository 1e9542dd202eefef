"""A law of straight stretches, such as a consumer of a constant current."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise

from footwell.parts.laws import Law

Spot = tuple[float, float]
"""Voltage (V) and current (A)."""


@dataclass(frozen=True, slots=True)
class Polyline(Law):
    """Straight between `points` of rising voltage and rising current; beyond both ends it goes on
    with `beyond` (S). Its size, whose tolerance counts, is the voltage of its points.

    >>> law = Polyline(((0.0, 0.0), (4.0, 0.1)))
    >>> [round(law.at(volts)[0], 3) for volts in (-2.0, 2.0, 4.0, 12.0)]
    [-0.0, 0.05, 0.1, 0.1]
    """

    points: tuple[Spot, ...]
    beyond: float = 1e-6

    def _slopes(self) -> list[float]:
        """Slope (S) before the first point, between the points, and after the last."""
        inner = [(i1 - i0) / (u1 - u0) for (u0, i0), (u1, i1) in pairwise(self.points)]
        return [self.beyond, *inner, self.beyond]

    def at(self, volts: float) -> tuple[float, float]:
        n = bisect_right(self.points, volts, key=lambda point: point[0])
        slope = self._slopes()[n]
        corner, amps = self.points[max(n - 1, 0)]
        return amps + slope * (volts - corner), slope

    def nudge(self, volts: float) -> float:
        return -self.at(volts)[1] * volts

    def spice(self, name: str, a: str, b: str) -> str:
        v, slopes = f"V({a},{b})", self._slopes()
        (corner, amps), *_ = self.points
        bends = "".join(
            f"+{after - before:.12g}*max(0,{v}-{u:.12g})"
            for (u, _), before, after in zip(self.points, slopes, slopes[1:], strict=False)
        )
        return f"B{name} {a} {b} I={amps:.12g}+{slopes[0]:.12g}*({v}-{corner:.12g}){bends}"


def steady(amps: float, from_volts: float) -> Polyline:
    """A consumer of a constant current (A) from a voltage (V) on, either way round."""
    return Polyline(((-from_volts, -amps), (from_volts, amps)), amps * 1e-3)
