"""Heater element of constant resistance."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, power_share, rate_of
from footwell.parts.laws import Resistance


@dataclass(frozen=True)
class Heater:
    """`ohms` cold, or `watts` at `volts` (13.5 or 27 V where left open)."""

    watts: Annotated[float, Field(gt=0, le=5000)]
    volts: Annotated[float, Field(gt=0, le=60)] | None = None
    ohms: Annotated[float, Field(gt=0, le=1000)] | None = None


def _branches(values: Heater, state: State, context: Context) -> list[Branch]:
    volts = values.volts or context.system_volts * 1.125
    ohms = values.ohms or volts * volts / values.watts
    return [Branch("", "+", "-", Resistance(ohms), 0.05)]


def _shows(values: Heater, felt: Felt, context: Context) -> float:
    return power_share(felt, _branches(values, felt.state, context)[0], context)


KIND = Kind(
    name="heater",
    title="heater",
    values=Heater,
    terminals=lambda _: ("+", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("heater", "open"), "broken"),
        Mode("high_resistance", rate_of("heater", "drift"), "partly broken", sized=True),
    ),
    seen_as="heat",
    shows=_shows,
    feedable=True,
    seldom_given=("ohms", "volts"),
)
