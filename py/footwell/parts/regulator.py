"""Supply of 5 V for sensors, in a control unit: "in" from the vehicle's supply, "out", and earth "-".

It is off, passes its feed on less a drop while that is too low, holds its voltage, or gives all it may:
then one shorted sensor pulls the 5 V of all of them down. From its feed it takes its own current alone;
the little that the sensors take comes from the regulated source, so a drop on the feed reads some
millivolts too small.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, rate_of
from footwell.parts.laws import Open, Resistance
from footwell.parts.polyline import limited_source, one_way, steady
from footwell.reference import sensors

OFF, PASSING, ON, LIMITED = "off", "passing", "on", "limited"
OUT_OHMS = 0.2
"""Of the output within its limit (assumption)."""
DIVIDER_OHMS = 10_000.0
"""Of the divider by which it senses its output, which holds a dead line at nought (assumption)."""
LIMITING_FROM = 0.999
"""Share of the limit from which the output counts as limited."""


@dataclass(frozen=True)
class Regulator:
    """`volts` that it holds while its feed lies at least 1 V above; `limit_amps` it never exceeds."""

    volts: Annotated[float, Field(ge=1, le=12)] = sensors.FIVE_VOLTS.mean
    limit_amps: Annotated[float, Field(gt=0, le=5)] | None = None


def limit(values: Regulator) -> float:
    """The most that it gives (A), assumed where the sheet leaves it open."""
    return values.limit_amps or sensors.REGULATOR_LIMIT_AMPS.value


def _branches(values: Regulator, state: State, context: Context) -> list[Branch]:
    drop, spread = sensors.REGULATOR_DROP_VOLTS.value, sensors.FIVE_VOLTS.relative_sigma
    rows = [
        Branch("own", "in", "-", steady(sensors.REGULATOR_OWN_AMPS.value, drop), 0.0),
        Branch("divider", "out", "-", Resistance(DIVIDER_OHMS), 0.1),
    ]
    if state == PASSING:
        return [*rows, Branch("out", "in", "out", one_way(drop, OUT_OHMS, limit(values)), 0.0)]
    if state in (ON, LIMITED):
        law = limited_source(values.volts, OUT_OHMS, limit(values))
        return [*rows, Branch("out", "out", "-", law, spread)]
    return [*rows, Branch("out", "out", "-", Open())]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: Regulator,
    state: State,
    context: Context,
) -> list[Branch] | None:
    others = [b for b in branches if b.name != "out"]
    if mode.name == "passes":
        return [*others, Branch("out", "in", "out", Resistance(1.0))]
    if mode.name == "low" and state in (ON, LIMITED):
        law = limited_source(values.volts * size, OUT_OHMS, limit(values))
        return [replace(b, law=law) if b.name == "out" else b for b in branches]
    return branches if mode.name == "low" else None


def _moves(values: Regulator, felt: Felt, context: Context) -> State:
    feed, drop = felt.volts["in"] - felt.volts["-"], sensors.REGULATOR_DROP_VOLTS.value
    if feed < drop:
        return OFF
    if feed < values.volts + drop:
        return PASSING
    return LIMITED if felt.amps("out") >= LIMITING_FROM * limit(values) else ON


KIND = Kind(
    name="regulator",
    title="sensor supply",
    values=Regulator,
    terminals=lambda _: ("in", "out", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode(
            "open:out",
            rate_of("module_output", "stuck_open"),
            "dead",
            "renew the unit",
            of="out",
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
    states=lambda _: (OFF, PASSING, ON, LIMITED),
    moves=_moves,
    measured_alone=False,
    takes=("in",),
    line="sensor line",
    assumes={"limit_amps": lambda v, _: f"{limit(v):g} A"},
)
