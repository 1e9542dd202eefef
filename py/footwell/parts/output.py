"""Electronic output of a control unit, feeding side: "supply" in, "out" to the load.

Its position is what the unit was asked for: "off", "on", or a duty such as "30 %" where it switches
quickly on and off (PWM). Off on purpose is a suspect of its own: the unit may have reasons that no wire
shows. One that shuts down on a short stays off until it has been switched off. One that looks for an
open load while off feeds a little: a meter reads a ghost voltage there, and an LED glows.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, rate_of
from footwell.parts.laws import LimitedOutput, Open, Resistance
from footwell.reference import sensors

OFF, ON, SHUT_DOWN = "off", "on", "shut down"
AT_LIMIT = 0.999
"""Share of the current limit from which an output counts as overloaded."""


@dataclass(frozen=True)
class Output:
    """`ohms` when on; `limit_amps` is where it stops giving more. `duties` in percent, where the unit
    dims or governs by them; it can then be "off" or at one of these."""

    limit_amps: Annotated[float, Field(gt=0, le=200)]
    ohms: Annotated[float, Field(gt=0, le=10)] = 0.1
    rating_amps: Annotated[float, Field(gt=0, le=200)] | None = None
    shuts_down: bool = False
    detects_open_load: bool = False
    duties: Annotated[tuple[Annotated[float, Field(gt=0, le=100)], ...], Field(max_length=11)] = ()


def duties(values: Output) -> dict[State, float]:
    """Position to its duty as a share of the time: {"30 %": 0.3}."""
    return {f"{duty:g} %": duty / 100.0 for duty in values.duties}


def positions(values: Output) -> tuple[State, ...]:
    return (OFF, *duties(values)) if values.duties else (OFF, ON)


def states(values: Output) -> tuple[State, ...]:
    return (OFF, ON, *duties(values), SHUT_DOWN)


def phases(values: Output, state: State) -> tuple[tuple[float, State], ...]:
    """The share of the time that it spends in each state, for a position that it switches quickly."""
    share = duties(values).get(state, 1.0)
    return ((share, ON), (1.0 - share, OFF)) if share < 1.0 else ((1.0, state),)


def between(a: str, b: str, values: Output, state: State) -> list[Branch]:
    """The branches of an output that switches from a to b."""
    off = state in (OFF, SHUT_DOWN)
    law = Open() if off else LimitedOutput(values.ohms, values.limit_amps)
    rows = [Branch("", a, b, law, 0.2, values.rating_amps or values.limit_amps)]
    if values.detects_open_load:
        detection = Resistance(sensors.DETECTION_OHMS.value)
        rows.append(Branch("detection", a, b, detection if off else Open(), 0.3))
    return rows


def _branches(values: Output, state: State, context: Context) -> list[Branch]:
    return between("supply", "out", values, state)


def broken(
    mode: Mode, size: float, branches: list[Branch], values: Output, state: State, context: Context
) -> list[Branch] | None:
    """Stuck on, off on purpose, or None: the generic modes act."""
    a, b = branches[0].a, branches[0].b
    held = {"stuck_closed": ON, "not_commanded": OFF}.get(mode.name)
    return between(a, b, values, held) if held else None


def moves(values: Output, felt: Felt, context: Context) -> State:
    """It shuts down at its limit, and stays so: it is found from switch-off each time."""
    overloaded = felt.amps() >= AT_LIMIT * values.limit_amps
    on = felt.state not in (OFF, SHUT_DOWN)
    return SHUT_DOWN if values.shuts_down and on and overloaded else felt.state


def modes(values: Output) -> tuple[Mode, ...]:
    return (
        Mode(
            "not_commanded",
            rate_of("module_output", "stuck_open"),
            "off because the unit was not told to switch it on",
            "find why the unit keeps it off",
        ),
        Mode("open", rate_of("module_output", "stuck_open"), "dead", "renew the unit"),
        Mode(
            "stuck_closed", rate_of("module_output", "stuck_closed"), "stuck on", "renew the unit"
        ),
    )


KIND = Kind(
    name="output",
    title="control unit output",
    values=Output,
    terminals=lambda _: ("supply", "out"),
    branches=_branches,
    modes=modes,
    broken=broken,
    states=states,
    positions=positions,
    phases=phases,
    moves=moves,
    oddities={
        SHUT_DOWN: "has shut down on too much current, and stays off until it is switched off"
    },
    measured_alone=False,
    drives=("out",),
    takes=("supply",),
    assumes={"rating_amps": lambda v, _: f"{v.limit_amps:g} A"},
)
