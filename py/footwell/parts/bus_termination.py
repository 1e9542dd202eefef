"""Terminating resistor at one end of a high-speed bus: 120 Ω between its two lines "H" and "L".

Two of them, one at each end, leave 60 Ω between the lines with the supply off (ISO 11898-2).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Resistance
from footwell.reference import sensors

SPREAD = 0.01


@dataclass(frozen=True)
class BusTermination:
    """Two of 120 Ω side by side leave 60 Ω, three of them 40 Ω (derived).

    >>> round(1 / (3 / BusTermination().ohms))
    40
    """

    ohms: Annotated[float, Field(gt=0, le=10_000)] = sensors.BUS_TERMINATION_OHMS.value


def _branches(values: BusTermination, state: State, context: Context) -> list[Branch]:
    return [Branch("", "H", "L", Resistance(values.ohms), SPREAD)]


KIND = Kind(
    name="bus_termination",
    title="bus termination",
    values=BusTermination,
    terminals=lambda _: ("H", "L"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("resistor", "open"), "open"),
        Mode("short", rate_of("resistor", "short_across"), "shorted"),
    ),
    line="data line",
)
