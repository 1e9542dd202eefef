"""Electronic output of a control unit, feeding side: "supply" in, "out" to the load.

Its position is what the unit was asked for ("on" or "off"). Off on purpose is a suspect of its own:
the unit may have reasons that no wire shows.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import LimitedOutput, Open


@dataclass(frozen=True)
class Output:
    """`ohms` when on; `limit_amps` is where it stops giving more."""

    limit_amps: Annotated[float, Field(gt=0, le=200)]
    ohms: Annotated[float, Field(gt=0, le=10)] = 0.1
    rating_amps: Annotated[float, Field(gt=0, le=200)] | None = None


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Output, state: State, context: Context
) -> list[Branch] | None:
    return _branches(values, "on", context) if mode.name == "stuck_closed" else None


def _branches(values: Output, state: State, context: Context) -> list[Branch]:
    law = LimitedOutput(values.ohms, values.limit_amps) if state == "on" else Open()
    return [Branch("", "supply", "out", law, 0.2, values.rating_amps or values.limit_amps)]


KIND = Kind(
    name="output",
    title="control unit output",
    values=Output,
    terminals=lambda _: ("supply", "out"),
    branches=_branches,
    modes=lambda _: (
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
    ),
    broken=_broken,
    states=lambda _: ("off", "on"),
    positions=lambda _: ("off", "on"),
    measured_alone=False,
    drives=("out",),
    takes=("supply",),
    assumes={"rating_amps": lambda v, _: f"{v.limit_amps:g} A"},
)
