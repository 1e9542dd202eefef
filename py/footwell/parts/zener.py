"""Zener or suppressor diode: nothing up to its breakdown voltage, from K to A, and plenty above it.

It clips what coils and alternators throw; at the vehicle's own voltage a sound one is not there. The
other way round it conducts as any diode, unless it is made for both ways.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.diode import SILICON
from footwell.parts.laws import Law
from footwell.reference import loads

BREAKDOWN = "breakdown"


@dataclass(frozen=True, slots=True)
class Breakdown(Law):
    """Conducts from a to b once `volts` are passed: `TEST_AMPS` there, e times as much every
    `width_volts`, and on a straight line from `TOP` widths on.

    >>> law = Breakdown(27.0, 0.27)
    >>> [float(f"{law.at(volts)[0]:.2g}") for volts in (12.5, 27.0, 28.0)]
    [4.8e-27, 0.001, 0.041]
    """

    volts: float
    width_volts: float

    TEST_AMPS = 1e-3
    TOP = 7.0

    def at(self, volts: float) -> tuple[float, float]:
        x = (volts - self.volts) / self.width_volts
        grown = self.TEST_AMPS * math.exp(min(max(x, -700.0), self.TOP))
        at_nought = self.TEST_AMPS * math.exp(-self.volts / self.width_volts)
        slope = grown / self.width_volts
        straight = max(x - self.TOP, 0.0) * self.width_volts * slope
        return grown + straight - at_nought, max(slope, 1e-15)

    def spice(self, name: str, a: str, b: str) -> str:
        x = f"((V({a},{b})-{self.volts:.12g})/{self.width_volts:.12g})"
        grown = f"{self.TEST_AMPS:.12g}*exp(min(max({x},-700),{self.TOP:.12g}))"
        at_nought = self.TEST_AMPS * math.exp(-self.volts / self.width_volts)
        return f"B{name} {a} {b} I={grown}*(1+max({x}-{self.TOP:.12g},0))-{at_nought:.12g}"


@dataclass(frozen=True)
class Zener:
    """`volts` of breakdown."""

    volts: Annotated[float, Field(ge=2, le=60)] | None = None
    both_ways: bool = False
    rating_amps: Annotated[float, Field(gt=0, le=500)] | None = 1.0


def breakdown_volts(values: Zener, context: Context) -> float:
    return values.volts or loads.SUPPRESSOR_VOLTS[context.system_volts].value


def _branches(values: Zener, state: State, context: Context) -> list[Branch]:
    volts = breakdown_volts(values, context)
    law = Breakdown(volts, loads.BREAKDOWN_WIDTH.value * volts)
    back: Law = law if values.both_ways else SILICON
    return [
        Branch(BREAKDOWN, "K", "A", law, 0.0, values.rating_amps),
        Branch("forward", "A", "K", back, 0.0, values.rating_amps),
    ]


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Zener, state: State, context: Context
) -> list[Branch] | None:
    if mode.name != "drifted":
        return None
    early = replace(values, volts=breakdown_volts(values, context) * size)
    return _branches(early, state, context)


KIND = Kind(
    name="zener",
    title="Zener or suppressor diode",
    values=Zener,
    terminals=lambda _: ("K", "A"),
    branches=_branches,
    modes=lambda _: (
        Mode("short", rate_of("zener", "short_across"), "shorted"),
        Mode("open", rate_of("zener", "open"), "open"),
        Mode(
            "drifted",
            rate_of("zener", "drift"),
            "conducting far below its voltage",
            factors=(0.42,),
        ),
    ),
    broken=_broken,
    assumes={"volts": lambda v, c: f"{breakdown_volts(v, c):g} V"},
)
