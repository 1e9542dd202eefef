"""Reed switch: a contact in glass that a magnet closes. Lamp inrush welds it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, Literal

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Open, Resistance
from footwell.reference import sensors

AWAY, NEAR = "away", "near"
"""Where the magnet is."""


@dataclass(frozen=True)
class ReedSwitch:
    """`closed_when` says where the magnet is while the contact is closed: 0.1 Ω, below 0.2 Ω in any
    sound one (data sheets, memory)."""

    closed_when: Literal["near", "away"] = "near"
    rating_amps: Annotated[float, Field(gt=0, le=10)] | None = None


def _shut() -> Resistance:
    return Resistance(sensors.REED_CLOSED_OHMS.value)


def _branches(values: ReedSwitch, state: State, context: Context) -> list[Branch]:
    law = _shut() if state == values.closed_when else Open()
    return [Branch("", "1", "2", law, 0.3, values.rating_amps)]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: ReedSwitch,
    state: State,
    context: Context,
) -> list[Branch] | None:
    if mode.name != "stuck_closed":
        return None
    return [replace(branches[0], law=_shut())]


KIND = Kind(
    name="reed_switch",
    title="reed switch",
    values=ReedSwitch,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("reed_switch", "open"), "not closing"),
        Mode(
            "high_resistance",
            rate_of("reed_switch", "high_resistance"),
            "burnt at its contact",
            sized=True,
        ),
        Mode("stuck_closed", rate_of("reed_switch", "stuck_closed"), "welded shut"),
    ),
    broken=_broken,
    states=lambda _: (AWAY, NEAR),
    positions=lambda _: (AWAY, NEAR),
    metal=True,
    seldom_given=("rating_amps",),
)
