"""Glow plug: a heating coil with a regulating coil, whose current halves as it warms.

Its body, terminal 31, has its earth through its thread: draw that joint as an earth point. Terminals are
named after the feed, G, and DIN 72552's 31. What is reckoned is the steady current after half a minute.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import (
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


@dataclass(frozen=True)
class GlowPlug:
    """`amps` warm at `volts` (11 or 22 V where left open: what the battery has left while glowing)."""

    amps: Annotated[float, Field(gt=0, le=100)] | None = None
    volts: Annotated[float, Field(gt=0, le=60)] | None = None


def warm_amps(values: GlowPlug, context: Context) -> float:
    return values.amps or loads.GLOW_AMPS[context.system_volts].value


def _branches(values: GlowPlug, state: State, context: Context) -> list[Branch]:
    volts = values.volts or loads.GLOW_VOLTS[context.system_volts].value
    law = levelling(volts, warm_amps(values, context), loads.GLOW_COLD_OVER_WARM.value)
    return [Branch("", "G", "31", law, 0.1)]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: GlowPlug,
    state: State,
    context: Context,
) -> list[Branch] | None:
    return shorted(branches) if mode.name == "short" else None


def _shows(values: GlowPlug, felt: Felt, context: Context) -> float:
    return power_share(felt, _branches(values, felt.state, context)[0], context)


KIND = Kind(
    name="glow_plug",
    title="glow plug",
    values=GlowPlug,
    terminals=lambda _: ("G", "31"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("heater", "open"), "burnt out"),
        Mode("short", rate_of("heater", "short_across"), "shorted to its body"),
        Mode(
            "high_resistance",
            rate_of("heater", "drift"),
            "corroded at its terminal",
            "clean and tighten",
            sized=True,
        ),
    ),
    broken=_broken,
    seen_as="heat",
    shows=_shows,
    feedable=True,
    assumes={
        "amps": lambda v, c: f"{warm_amps(v, c):g} A",
    },
    seldom_given=("volts",),
)
