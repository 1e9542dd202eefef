"""Sliding resistor in series with its load: the dimmer of the dash lamps, an old fan control."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.names import Composed
from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Open, Resistance

Position = Annotated[Composed, Field(min_length=1, max_length=24)]
Ohms = Annotated[float, Field(gt=0, le=10_000)]


@dataclass(frozen=True)
class Rheostat:
    """`ohms_at` maps each position, the one of rest first, to the resistance left in the circuit, None
    where the slider leaves its track. 10 Ω before a lamp of 5 W at 13.5 V take a fifth of its voltage.

    >>> from footwell.parts.laws import Filament
    >>> lamp = Filament.rated(13.5, 5.0)
    >>> round(lamp.at(10.4)[0] * 10.0 + 10.4, 1)
    13.6
    """

    ohms_at: Annotated[dict[Position, Ohms | None], Field(min_length=1, max_length=12)]
    rating_watts: Annotated[float, Field(gt=0)] | None = None


SPREAD = 0.1
"""Of the resistance left in a position: nobody sets a slider twice alike (common practice, no source)."""


def _branches(values: Rheostat, state: State, context: Context) -> list[Branch]:
    ohms = values.ohms_at.get(state)
    return [Branch("", "1", "2", Open() if ohms is None else Resistance(ohms), SPREAD)]


KIND = Kind(
    name="rheostat",
    title="sliding resistor",
    values=Rheostat,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("potentiometer", "open"), "open"),
        Mode(
            "high_resistance",
            rate_of("potentiometer", "worn_track"),
            "making poor contact at its slider",
            sized=True,
        ),
        Mode("short", rate_of("potentiometer", "short_across"), "shorted"),
    ),
    states=lambda v: tuple(v.ohms_at),
    positions=lambda v: tuple(v.ohms_at),
    seldom_given=("rating_watts",),
)
