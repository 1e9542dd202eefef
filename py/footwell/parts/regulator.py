"""Supply of 5 V for sensors, in a control unit: "in" from the vehicle's supply, "out", and earth "-".

It is off, passes its feed on less a drop while that is too low, holds its voltage, gives all it may
(then one shorted sensor pulls the 5 V of all of them down), or is lifted from outside and gives nothing.
From its feed it takes its own current alone; the little that the sensors take comes from the regulated
source, so a drop on the feed reads some millivolts too small.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, rate_of
from footwell.parts.laws import Law, Open, Resistance, Source
from footwell.parts.polyline import steady
from footwell.reference import sensors

OFF, PASSING, ON, LIMITED, LIFTED = "off", "passing", "on", "limited", "lifted"
OUT_OHMS = 0.2
"""Of the output within its limit (assumption)."""
DIVIDER_OHMS = 10_000.0
"""Of the divider by which it senses its output, which holds a dead line at nought (assumption)."""
LIMIT_OHMS = 1e6
"""Behind which the limited output is a source of current: 1 µA more for each volt less."""


@dataclass(frozen=True)
class Regulator:
    """`volts` that it holds while its feed lies at least 1 V above; `limit_amps` it never exceeds."""

    volts: Annotated[float, Field(ge=1, le=12)] = sensors.FIVE_VOLTS.mean
    limit_amps: Annotated[float, Field(gt=0, le=5)] | None = None


def limit(values: Regulator) -> float:
    """The most that it gives (A), assumed where the sheet leaves it open."""
    return values.limit_amps or sensors.REGULATOR_LIMIT_AMPS.value


def _branches(values: Regulator, state: State, context: Context) -> list[Branch]:
    drop = sensors.REGULATOR_DROP_VOLTS.value
    held: dict[State, Law] = {
        ON: Source(values.volts, OUT_OHMS),
        LIMITED: Source(limit(values) * LIMIT_OHMS, LIMIT_OHMS),
    }
    passing = Source(drop, OUT_OHMS) if state == PASSING else Open()
    spread = sensors.FIVE_VOLTS.relative_sigma if state == ON else 0.0
    return [
        Branch("own", "in", "-", steady(sensors.REGULATOR_OWN_AMPS.value, drop), 0.0),
        Branch("divider", "out", "-", Resistance(DIVIDER_OHMS), 0.1),
        Branch("out", "out", "-", held.get(state, Open()), spread),
        Branch("pass", "in", "out", passing, 0.0),
    ]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: Regulator,
    state: State,
    context: Context,
) -> list[Branch] | None:
    if mode.name == "dead":
        laws: dict[str, Law] = {"out": Open(), "pass": Open()}
    elif mode.name == "passes":
        laws = {"out": Open(), "pass": Resistance(1.0)}
    else:
        laws = {"out": Source(values.volts * size, OUT_OHMS)} if state == ON else {}
    return [replace(b, law=laws.get(b.name, b.law)) for b in branches]


def _moves(values: Regulator, felt: Felt, context: Context) -> State:
    feed, out = (felt.volts[t] - felt.volts["-"] for t in ("in", "out"))
    drop = sensors.REGULATOR_DROP_VOLTS.value
    if feed < drop:
        return OFF
    aim = PASSING if feed < values.volts + drop else ON
    most = min(values.volts, feed - drop)
    if felt.state == LIMITED:
        return LIMITED if out < most else aim
    if felt.state == LIFTED:
        return LIFTED if out > most else aim
    given = _given(felt)
    if given > limit(values):
        return LIMITED
    return LIFTED if given < 0.0 else aim


def _given(felt: Felt) -> float:
    """Current (A) that comes out of "out"."""
    held, passed = felt.flows.get("out"), felt.flows.get("pass")
    return (passed.amps if passed else 0.0) - (held.amps if held else 0.0)


KIND = Kind(
    name="regulator",
    title="sensor supply",
    values=Regulator,
    terminals=lambda _: ("in", "out", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode(
            "dead",
            rate_of("module_output", "stuck_open"),
            "dead",
            "renew the unit",
        ),
        Mode(
            "low",
            rate_of("module_output", "high_resistance"),
            "low",
            "renew the unit",
            factors=(0.85, 0.6),
        ),
        Mode(
            "passes",
            rate_of("module_output", "stuck_closed"),
            "letting its feed through",
            "renew the unit",
        ),
    ),
    broken=_broken,
    states=lambda _: (OFF, PASSING, ON, LIMITED, LIFTED),
    moves=_moves,
    oddities={
        OFF: "has no supply",
        PASSING: "has too little supply to hold its voltage",
        LIMITED: "gives all it may: something on its line draws too much, so unplug one at a time",
        LIFTED: "is lifted by another supply on its line",
    },
    measured_alone=False,
    takes=("in",),
    line="sensor line",
    assumes={"limit_amps": lambda v, _: f"{limit(v):g} A"},
)
