"""Hall switch: three wires, an open-collector output that a magnet switches to earth.

The output only sinks: what it reads when off comes from the unit's pull-up. It switches nothing without
a supply of its own. An ohmmeter across it means nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, rate_of
from footwell.parts.laws import LimitedOutput, Open
from footwell.parts.polyline import steady
from footwell.reference import sensors

AWAY, NEAR = "away", "near"
"""Where the magnet, the tooth or the vane is."""


@dataclass(frozen=True)
class HallSwitch:
    """`on_when` says where the magnet is while the output pulls its line down. On it reads 0.4 V at
    most, off the whole pull-up (data sheets, memory)."""

    on_when: Literal["near", "away"] = "near"


def pulling(values: HallSwitch) -> State:
    """State in which it has both the magnet in place and a supply."""
    return f"{values.on_when}, on"


def _on_law() -> LimitedOutput:
    return LimitedOutput(sensors.HALL_ON_OHMS.value, sensors.HALL_LIMIT_AMPS.value)


def _branches(values: HallSwitch, state: State, context: Context) -> list[Branch]:
    own = steady(sensors.HALL_OWN_AMPS.value, sensors.HALL_LEAST_VOLTS.value)
    law = _on_law() if state == pulling(values) else Open()
    return [
        Branch("own", "+", "-", own, 0.0),
        Branch("out", "out", "-", law, 0.3, sensors.HALL_LIMIT_AMPS.value),
    ]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: HallSwitch,
    state: State,
    context: Context,
) -> list[Branch] | None:
    if mode.name != "stuck_closed":
        return None
    return [replace(b, law=_on_law()) if b.name == "out" else b for b in branches]


def _moves(values: HallSwitch, felt: Felt, context: Context) -> State:
    if felt.state not in (values.on_when, pulling(values)):
        return felt.state
    supplied = felt.volts["+"] - felt.volts["-"] >= sensors.HALL_LEAST_VOLTS.value
    return pulling(values) if supplied else values.on_when


KIND = Kind(
    name="hall_switch",
    title="Hall switch",
    values=HallSwitch,
    terminals=lambda _: ("+", "out", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode("stuck_open", rate_of("hall_switch", "stuck_open"), "not switching", of="out"),
        Mode(
            "stuck_closed",
            rate_of("hall_switch", "stuck_closed"),
            "holding its line down",
            of="out",
        ),
    ),
    broken=_broken,
    states=lambda v: (AWAY, NEAR, pulling(v)),
    positions=lambda _: (AWAY, NEAR),
    moves=_moves,
    measured_alone=False,
    takes=("+",),
    line="sensor line",
)
