"""Earth point: a bolted joint from a wire's ring to the vehicle's body."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import EARTH, Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Resistance
from footwell.reference.contacts import contact

CLEAN = "clean to bright metal and tighten"


@dataclass(frozen=True)
class EarthPoint:
    ohms: Annotated[float, Field(gt=0, le=1)] | None = None


def _branches(values: EarthPoint, state: State, context: Context) -> list[Branch]:
    sound = contact("earth point")
    return [Branch("", "1", EARTH, Resistance(values.ohms or sound.ohms), sound.relative_sigma)]


KIND = Kind(
    name="earth_point",
    title="earth point",
    values=EarthPoint,
    terminals=lambda _: ("1",),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("earth_point", "open"), "open", CLEAN),
        Mode(
            "high_resistance",
            rate_of("earth_point", "high_resistance"),
            "with a poor joint",
            CLEAN,
            sized=True,
        ),
    ),
    measured_alone=False,
    metal=True,
    seldom_given=("ohms",),
)
