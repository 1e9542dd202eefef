"""Electromagnetic horn: a diaphragm that makes and breaks its own current."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import (
    WARM_SHARE,
    Branch,
    Context,
    Felt,
    Kind,
    Mode,
    State,
    idle,
    rate_of,
    shorted,
)
from footwell.parts.laws import Resistance
from footwell.reference import loads


@dataclass(frozen=True)
class Horn:
    """`amps` on average at nominal voltage. An ohmmeter reads less than that: its contact is closed."""

    amps: Annotated[float, Field(gt=0, le=50)] | None = None


def mean_amps(values: Horn, context: Context) -> float:
    return values.amps or loads.HORN_AMPS[context.system_volts].value


def mean_ohms(values: Horn, context: Context) -> float:
    return context.system_volts / mean_amps(values, context)


def _branches(values: Horn, state: State, context: Context) -> list[Branch]:
    return [Branch("", "+", "-", Resistance(mean_ohms(values, context)), 0.1)]


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Horn, state: State, context: Context
) -> list[Branch] | None:
    if mode.name == "short":
        return shorted(branches)
    if mode.name != "sticking":
        return None
    coil = Resistance(mean_ohms(values, context) * loads.HORN_STUCK_SHARE.value)
    return [idle(branches[0], coil)]


def _shows(values: Horn, felt: Felt, context: Context) -> float:
    """Power in the coil as a share of the nominal: a joint in series takes its own part."""
    nominal = WARM_SHARE * context.system_volts / mean_ohms(values, context)
    return (felt.amps() / nominal) ** 2


KIND = Kind(
    name="horn",
    title="horn",
    values=Horn,
    terminals=lambda _: ("+", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("horn", "open"), "dead"),
        Mode(
            "high_resistance",
            rate_of("horn", "high_resistance"),
            "burnt at its contact",
            sized=True,
        ),
        Mode("sticking", rate_of("horn", "sticking"), "stuck in its diaphragm"),
        Mode("short", rate_of("horn", "short_across"), "shorted inside"),
    ),
    broken=_broken,
    seen_as="sound",
    shows=_shows,
    feedable=True,
    measured_alone=False,
    assumes={"amps": lambda v, c: f"{mean_amps(v, c):g} A"},
)
