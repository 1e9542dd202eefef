"""Blade fuse: a small resistance that opens by its time-current limits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, Seconds, State, rate_of
from footwell.parts.laws import Open, Resistance
from footwell.reference import fuses
from footwell.reference.contacts import contact
from footwell.reference.fuse_times import opening_time_seconds


@dataclass(frozen=True)
class Fuse:
    """`amps` is the rating; left open it is the next standard rating above the circuit's current."""

    amps: Annotated[float, Field(gt=0, le=100)] | None = None
    type: Literal["C", "F", "E"] = "C"


HOLDER = contact("fuse holder")


def next_rating(amps: float) -> float:
    """Smallest standard rating (A) that a continuous current loads to its usual share."""
    wanted = amps / fuses.CONTINUOUS_SHARE.value
    return next((r for r in fuses.ratings("C") if r >= wanted), fuses.ratings("C")[-1])


def rating(values: Fuse, context: Context) -> float:
    """Rating in A, assumed where the sheet leaves it open."""
    return values.amps or next_rating(context.default_amps)


def _branches(values: Fuse, state: State, context: Context) -> list[Branch]:
    amps = rating(values, context)
    law = (
        Open() if state == "blown" else Resistance(fuses.fuse_ohms(values.type, amps) + HOLDER.ohms)
    )
    return [Branch("", "1", "2", law, HOLDER.relative_sigma, amps)]


def _opens(values: Fuse, amps: float, context: Context) -> Seconds | None:
    return opening_time_seconds(values.type, rating(values, context), amps)


KIND = Kind(
    name="fuse",
    title="fuse",
    values=Fuse,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("fuse", "open"), "blown", "renew"),
        Mode(
            "high_resistance",
            rate_of("fuse", "high_resistance"),
            "making poor contact",
            "clean and tighten",
            sized=True,
            in_holder=True,
        ),
    ),
    states=lambda _: ("whole", "blown"),
    opens=_opens,
    pulls_out=True,
    metal=True,
    assumes={"amps": lambda v, c: f"{rating(v, c):g} A"},
)
