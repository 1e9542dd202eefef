"""Standing load: all that draws while the vehicle is parked, awake at first and then asleep.

Modules fall asleep some 20 to 60 minutes after the vehicle is locked; in which state they are is set
from outside, like a position.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Resistance
from footwell.reference import loads

AWAKE = "awake"


@dataclass(frozen=True)
class StandingLoad:
    """Current at nominal voltage asleep, and awake."""

    asleep_amps: Annotated[float, Field(gt=0, le=50)] | None = None
    awake_amps: Annotated[float, Field(gt=0, le=200)] | None = None


def amps(values: StandingLoad, state: State) -> float:
    """Current (A) in a state at nominal voltage."""
    if state == AWAKE:
        return values.awake_amps or loads.AWAKE_AMPS.value
    return values.asleep_amps or loads.ASLEEP_AMPS.value


def _branches(values: StandingLoad, state: State, context: Context) -> list[Branch]:
    law = Resistance(context.system_volts / amps(values, state))
    return [Branch("", "30", "31", law, loads.STANDING_RELATIVE_SIGMA.value)]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: StandingLoad,
    state: State,
    context: Context,
) -> list[Branch] | None:
    if mode.name == "stays_awake":
        return _branches(values, AWAKE, context)
    if mode.name != "drains":
        return None
    extra = Resistance(context.system_volts / size)
    return [*branches, Branch("drain", "30", "31", extra)]


KIND = Kind(
    name="standing_load",
    title="standing load",
    values=StandingLoad,
    terminals=lambda _: ("30", "31"),
    branches=_branches,
    modes=lambda _: (
        Mode(
            "stays_awake",
            rate_of("module_output", "stuck_closed"),
            "not falling asleep",
            "find what keeps it awake",
        ),
        Mode(
            "drains",
            rate_of("module_output", "stuck_closed"),
            "draining more than it should",
            factors=(0.3, 2.0),
        ),
        Mode("open", rate_of("module_output", "stuck_open"), "dead"),
    ),
    broken=_broken,
    states=lambda _: ("asleep", AWAKE),
    positions=lambda _: ("asleep", AWAKE),
    measured_alone=False,
    takes=("30",),
    assumes={
        "asleep_amps": lambda v, _: f"{amps(v, 'asleep'):g} A",
        "awake_amps": lambda v, _: f"{amps(v, AWAKE):g} A",
    },
)
