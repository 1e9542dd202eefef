"""Input of a control unit with its pull-up: the unit feeds the line through a resistor and looks at
what is left of the voltage.

Terminals "+" and "-" are the unit's own supply and earth. A unit without supply pulls nothing up.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, Literal

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, rate_of
from footwell.parts.laws import Law, Open, Resistance, Source
from footwell.reference import sensors

AWAKE, DEAD = "awake", "without supply"
RENEW = "renew the unit"


@dataclass(frozen=True)
class ModuleInput:
    """`ohms` of the pull-up to 5 V or to the unit's supply; `reads` a switch or a sensor.

    V = 5 * R / (R + pull-up) with a resistance R from the line to earth: 10 kΩ under 2.2 kΩ leave
    4.098 V (derived).

    >>> round(5 * 10 / (10 + 2.2), 3)
    4.098
    """

    ohms: Annotated[float, Field(ge=100, le=1e6)] | None = None
    pulls_to: Literal["5 V", "supply"] = "5 V"
    reads: Literal["switch", "sensor"] = "switch"


def _branches(values: ModuleInput, state: State, context: Context) -> list[Branch]:
    usual = sensors.PULL_UP_OHMS
    ohms, spread = (values.ohms, 0.05) if values.ohms else (usual.mean, usual.relative_sigma)
    own = Resistance(context.system_volts / sensors.UNIT_OWN_AMPS.value)
    rows = [Branch("own", "+", "-", own, 0.5), Branch("short", "in", "-", Open())]
    if values.pulls_to == "supply":
        return [*rows, Branch("pull-up", "in", "+", Resistance(ohms), spread)]
    five = sensors.FIVE_VOLTS
    law: Law = Source(five.mean, ohms) if state == AWAKE else Resistance(ohms)
    return [*rows, Branch("pull-up", "in", "-", law, five.relative_sigma)]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: ModuleInput,
    state: State,
    context: Context,
) -> list[Branch] | None:
    if mode.name != "short_to_earth":
        return None
    return [replace(b, law=Resistance(0.1)) if b.name == "short" else b for b in branches]


def _moves(values: ModuleInput, felt: Felt, context: Context) -> State:
    own = felt.volts["+"] - felt.volts["-"]
    return AWAKE if own >= sensors.UNIT_WAKES_VOLTS.value else DEAD


def _signal(values: ModuleInput, felt: Felt, context: Context) -> float:
    """The line's voltage as a share of all that it can be; what a display of the unit shows of it."""
    if felt.state == DEAD:
        return 0.0
    full = felt.volts["+"] - felt.volts["-"]
    if values.pulls_to == "5 V":
        full = sensors.FIVE_VOLTS.mean
    return (felt.volts["in"] - felt.volts["-"]) / full


def taken_for(values: ModuleInput, felt: Felt, context: Context) -> str:
    """What the unit takes its line's voltage for."""
    if felt.state == DEAD:
        return "nothing: it has no supply"
    share = _signal(values, felt, context)
    if values.reads == "switch":
        low, high = sensors.SWITCH_CLOSED_SHARE.value, sensors.SWITCH_OPEN_SHARE.value
        names = ("a closed switch", "neither open nor closed", "an open switch")
    else:
        low, high = sensors.SENSOR_LOW_SHARE.value, sensors.SENSOR_HIGH_SHARE.value
        names = ("a short to earth", "a reading", "an open line")
    return names[(share >= low) + (share > high)]


KIND = Kind(
    name="module_input",
    title="control unit input",
    values=ModuleInput,
    terminals=lambda _: ("in", "+", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode(
            "open:pull-up",
            rate_of("module_output", "stuck_open"),
            "dead at this input",
            RENEW,
            of="pull-up",
        ),
        Mode(
            "short_to_earth",
            rate_of("module_output", "stuck_closed"),
            "shorted to earth at this input",
            RENEW,
        ),
    ),
    broken=_broken,
    states=lambda _: (DEAD, AWAKE),
    moves=_moves,
    oddities={DEAD: "has no supply"},
    taken_for=taken_for,
    seen_as="signal",
    shows=_signal,
    measured_alone=False,
    takes=("+",),
    line="module input",
    assumes={"ohms": lambda _, __: f"{sensors.PULL_UP_OHMS.mean:g} Ω"},
)
