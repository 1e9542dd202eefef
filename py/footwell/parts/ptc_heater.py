"""PTC heater: stones whose resistance rises as they warm, so that the current levels off.

I = G * U / sqrt(1 + (U / Uk)^2), warm and steady; the true current of a stone in moving air even falls
a little at high voltage, which no steady law with one answer can follow (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import (
    WARM_SHARE,
    Branch,
    Context,
    Felt,
    Kind,
    Mode,
    State,
    power_share,
    rate_of,
    shorted,
)
from footwell.parts.laws import levelling
from footwell.reference import loads

STONES_LEFT = 0.5
"""Share of the stones that still heat in a heater that is partly dead (common practice, no source)."""


@dataclass(frozen=True)
class PtcHeater:
    """`watts` warm, at `volts` (12.5 or 25 V where left open)."""

    watts: Annotated[float, Field(gt=0, le=5000)]
    volts: Annotated[float, Field(gt=0, le=60)] | None = None


def _branches(values: PtcHeater, state: State, context: Context) -> list[Branch]:
    volts = values.volts or WARM_SHARE * context.system_volts
    law = levelling(volts, values.watts / volts, loads.PTC_COLD_OVER_WARM.value)
    return [Branch("", "+", "-", law, 0.1)]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: PtcHeater,
    state: State,
    context: Context,
) -> list[Branch] | None:
    if mode.name == "short":
        return shorted(branches)
    if mode.name != "partly_dead":
        return None
    left = replace(values, watts=values.watts * STONES_LEFT)
    return _branches(left, state, context)


def _shows(values: PtcHeater, felt: Felt, context: Context) -> float:
    return power_share(felt, _branches(values, felt.state, context)[0], context)


KIND = Kind(
    name="ptc_heater",
    title="PTC heater",
    values=PtcHeater,
    terminals=lambda _: ("+", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("heater", "open"), "dead"),
        Mode("partly_dead", rate_of("heater", "drift"), "dead in some of its stones"),
        Mode("short", rate_of("heater", "short_across"), "shorted"),
    ),
    broken=_broken,
    seen_as="heat",
    shows=_shows,
    feedable=True,
    seldom_given=("volts",),
)
