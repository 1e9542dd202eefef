"""Plain resistor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Resistance


@dataclass(frozen=True)
class Resistor:
    ohms: Annotated[float, Field(gt=0, le=1e9)]
    tolerance: Annotated[float, Field(gt=0, le=0.5)] = 0.05
    rating_watts: Annotated[float, Field(gt=0)] | None = None


def _branches(values: Resistor, state: State, context: Context) -> list[Branch]:
    return [Branch("", "1", "2", Resistance(values.ohms), values.tolerance / 2)]


KIND = Kind(
    name="resistor",
    title="resistor",
    values=Resistor,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("resistor", "open"), "open"),
        Mode("high_resistance", rate_of("resistor", "drift"), "drifted high", sized=True),
        Mode("short", rate_of("resistor", "short_across"), "shorted"),
    ),
)
