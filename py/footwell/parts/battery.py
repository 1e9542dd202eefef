"""Battery: a voltage behind an internal resistance."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State
from footwell.parts.laws import Law, Source
from footwell.reference import supplies
from footwell.reference.failures import relative_rate

RUNNING = "on"
"""State of the supply while the engine charges it."""


@dataclass(frozen=True)
class Battery:
    """`volts` at rest and `ohms` inside; left open they follow the vehicle's nominal voltage."""

    volts: Annotated[float, Field(gt=0, le=60)] | None = None
    ohms: Annotated[float, Field(gt=0, le=1)] | None = None


def _branches(values: Battery, state: State, context: Context) -> list[Branch]:
    usual = supplies.supply(context.system_volts)
    running = state == RUNNING
    volts = usual.engine_running if running else usual.engine_off
    ohms = values.ohms or (usual.running_ohms if running else usual.off_ohms).mean
    mean = volts.mean if running or values.volts is None else values.volts
    return [Branch("", "+", "-", Source(mean, ohms), volts.sigma / volts.mean)]


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Battery, state: State, context: Context
) -> list[Branch] | None:
    if mode.name != "weak":
        return None
    return [_weakened(branches[0], size)]


def _weakened(branch: Branch, factor: float) -> Branch:
    law: Law = branch.law
    assert isinstance(law, Source)
    return Branch(
        branch.name, branch.a, branch.b, Source(law.volts * factor, law.ohms * 10), branch.spread
    )


def _usual_volts(values: Battery, context: Context) -> str:
    usual = supplies.supply(context.system_volts)
    return f"{usual.engine_off.mean:g} V with the engine off and {usual.engine_running.mean:g} V running"


KIND = Kind(
    name="battery",
    title="battery",
    values=Battery,
    terminals=lambda _: ("+", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode("weak", relative_rate("battery"), "weak", "charge and test", factors=(0.85, 0.6)),
    ),
    broken=_broken,
    states=lambda _: ("off", RUNNING),
    follows_engine=True,
    measured_alone=False,
    assumes={"volts": _usual_volts},
    seldom_given=("ohms",),
)
