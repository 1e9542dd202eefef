"""Filament lamp, by its code or by its watts."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, rate_of
from footwell.parts.laws import Filament
from footwell.parts.series import inner_law, inner_volts
from footwell.reference.failures import WRONG_PART
from footwell.reference.lamps import light_share


@dataclass(frozen=True)
class Lamp:
    """`watts` at `volts`; `volts` left open is the lamp's usual test voltage of 13.5 or 28 V."""

    watts: Annotated[float, Field(gt=0, le=500)]
    volts: Annotated[float, Field(gt=0, le=60)] | None = None


def test_volts(system_volts: int) -> float:
    """Test voltage of vehicle lamps (UN Regulation 37): 13.5 V and 28 V."""
    return 13.5 if system_volts <= 12 else 28.0


def _branches(values: Lamp, state: State, context: Context) -> list[Branch]:
    volts = values.volts or test_volts(context.system_volts)
    return [Branch("", "1", "2", Filament.rated(volts, values.watts), 0.03)]


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Lamp, state: State, context: Context
) -> list[Branch] | None:
    if mode.name != "wrong_part":
        return None
    watts = min(max(values.watts * size, 0.1), 1000.0)
    return _branches(replace(values, watts=watts), state, context)


def _shows(values: Lamp, felt: Felt, context: Context) -> float:
    """A lamp of less power than its place is made for gives so much less light."""
    flow = felt.flows.get("")
    rated = values.volts or test_volts(context.system_volts)
    filament = inner_law(flow.branch.law) if flow else None
    if flow is None or not isinstance(filament, Filament):
        return 0.0
    power = filament.cold_siemens / Filament.rated(rated, values.watts).cold_siemens
    return power * light_share(inner_volts(flow.branch.law, flow.volts), rated)


KIND = Kind(
    name="lamp",
    title="lamp",
    values=Lamp,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("lamp", "open"), "burnt out"),
        Mode("wrong_part", WRONG_PART.relative, "of the wrong power", factors=(0.24, 4.2)),
    ),
    broken=_broken,
    seen_as="lamp",
    follows="power",
    shows=_shows,
    feedable=True,
    assumes={"volts": lambda _, c: f"{test_volts(c.system_volts):g} V"},
)
