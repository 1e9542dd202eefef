"""Battery: a voltage behind an internal resistance."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, Objection, State
from footwell.parts.laws import Source
from footwell.parts.sources import Charging
from footwell.reference import charging, supplies
from footwell.reference.failures import relative_rate

RUNNING = "on"
"""State of a supply that stands for battery and charging source together, engine running."""

CHARGING = "charging"
"""State of a battery beside a charging source of its own."""


@dataclass(frozen=True)
class Battery:
    """`volts` at rest and `ohms` inside; left open they follow the vehicle's nominal voltage. In place
    of the volts the state of `charge` (%) may be written, as an hydrometer gives it."""

    volts: Annotated[float, Field(gt=0, le=60)] | None = None
    ohms: Annotated[float, Field(gt=0, le=1)] | None = None
    charge: Annotated[float, Field(ge=0, le=100)] | None = None


def _branches(values: Battery, state: State, context: Context) -> list[Branch]:
    usual = supplies.supply(context.system_volts)
    running = state == RUNNING
    volts = usual.engine_running if running else usual.engine_off
    ohms = values.ohms or (usual.running_ohms if running else usual.off_ohms).mean
    mean = volts.mean if running else rest_volts(values, context)
    if state == CHARGING:
        taken = charging.TAKEN_OHMS[context.system_volts].value
        return [Branch("", "+", "-", Charging(mean, ohms, taken), volts.relative_sigma)]
    return [Branch("", "+", "-", Source(mean, ohms), volts.sigma / volts.mean)]


def rest_volts(values: Battery, context: Context) -> float:
    """Voltage (V) at rest, without load.

    >>> rest_volts(Battery(charge=50), Context(12, 5.0)), rest_volts(Battery(), Context(24, 5.0))
    (12.2, 25.0)
    """
    if values.charge is not None:
        return supplies.open_circuit_volts(values.charge, context.system_volts)
    if values.volts is not None:
        return values.volts
    return supplies.supply(context.system_volts).engine_off.mean


def _objections(values: Battery, context: Context) -> Iterator[Objection]:
    if values.charge is not None and values.volts is not None:
        yield (
            "charge",
            f"The battery has {values.volts:g} V and a charge of {values.charge:g} %, and each says "
            f"what the other must be.",
            "Keep the one that was measured, and write null for the other.",
        )


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Battery, state: State, context: Context
) -> list[Branch] | None:
    if mode.name != "weak":
        return None
    return [_weakened(branches[0], size)]


def _weakened(branch: Branch, factor: float) -> Branch:
    law = branch.law
    assert isinstance(law, Source | Charging)
    return replace(branch, law=replace(law, volts=law.volts * factor, ohms=law.ohms * 10))


def _usual_volts(values: Battery, context: Context) -> str:
    running = supplies.supply(context.system_volts).engine_running.mean
    return f"{rest_volts(values, context):g} V with the engine off and {running:g} V running"


HOLDS, WEAK, FLAT = 1.0, 0.6, 0.0
"""What people tell apart: it starts after a week, hardly starts, does not."""


def _shows(values: Battery, felt: Felt, context: Context) -> float:
    """How it holds when what now flows goes on for a week; above `HOLDS` where it is charged too high."""
    flow = felt.flows.get("")
    if flow is None:
        return HOLDS
    if flow.amps < 0.0:
        lost = -flow.amps * charging.LASTING_HOURS.value / charging.AMPERE_HOURS.value
        weak, flat = charging.WEAK_SHARE.value, charging.FLAT_SHARE.value
        return HOLDS if lost < weak else WEAK if lost < flat else FLAT
    over = flow.volts / supplies.supply(context.system_volts).engine_running.mean - 1.0
    return HOLDS + charging.GASSING_GAIN.value * max(0.0, over)


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
    states=lambda _: ("off", RUNNING, CHARGING),
    follows_engine=True,
    beside=CHARGING,
    seen_as="charge",
    shows=_shows,
    measured_alone=False,
    assumes={"volts": _usual_volts},
    seldom_given=("ohms", "charge"),
    objections=_objections,
)
