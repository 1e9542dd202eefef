"""Circuit breaker: a bimetal that opens under too much current, by the types of SAE J553.

Type I closes again by itself once cool and goes on so: the operating point shows it tripped, for that is
where it stands most of the time under an overload.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, Seconds, State, rate_of
from footwell.parts.fuse import next_rating
from footwell.parts.laws import Law, Open, Resistance
from footwell.reference import breakers
from footwell.reference.contacts import contact
from footwell.reference.fuse_times import seconds_to_open


@dataclass(frozen=True)
class Breaker:
    """`amps` is the rating; left open it is that of the fuse the circuit would have."""

    amps: Annotated[float, Field(gt=0, le=300)] | None = None
    type: breakers.BreakerType = "I"


AFTERWARDS = {
    "I": "It closes again by itself once cool and trips again, over and over: what lies behind it "
    "comes and goes until the overload is found.",
    "II": "It stays open as long as it is fed, and closes again once switched off and cool.",
    "III": "It stays open until somebody presses it in; find the overload first.",
}


def rating(values: Breaker, context: Context) -> float:
    """Rating in A, assumed where the sheet leaves it open."""
    return values.amps or next_rating(context.default_amps)


def _branches(values: Breaker, state: State, context: Context) -> list[Branch]:
    amps, holder = rating(values, context), contact("fuse holder")
    shut = Resistance(breakers.breaker_ohms(amps) + holder.ohms)
    law: Law = Open() if state == "tripped" else shut
    return [Branch("", "1", "2", law, holder.relative_sigma, amps)]


def _opens(values: Breaker, amps: float, context: Context) -> Seconds | None:
    return seconds_to_open(breakers.TRIP_TIMES, rating(values, context), amps)


KIND = Kind(
    name="breaker",
    title="circuit breaker",
    values=Breaker,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("breaker", "open"), "open though nothing overloads it"),
        Mode(
            "high_resistance",
            rate_of("fuse", "high_resistance"),
            "burnt at its contact",
            sized=True,
        ),
    ),
    states=lambda _: ("closed", "tripped"),
    opens=_opens,
    opened="tripped",
    opens_as="trips",
    after_opening=lambda v: AFTERWARDS[v.type],
    pulls_out=True,
    metal=True,
    assumes={"amps": lambda v, c: f"{rating(v, c):g} A"},
)
