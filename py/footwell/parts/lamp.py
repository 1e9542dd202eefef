"""Filament lamp, by its code or by its watts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, rate_of
from footwell.parts.laws import Filament
from footwell.parts.series import inner_volts
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


def _shows(values: Lamp, felt: Felt, context: Context) -> float:
    flow = felt.flows.get("")
    lit = inner_volts(flow.branch.law, flow.volts) if flow else 0.0
    return light_share(lit, values.volts or test_volts(context.system_volts))


KIND = Kind(
    name="lamp",
    title="lamp",
    values=Lamp,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (Mode("open", rate_of("lamp", "open"), "burnt out"),),
    seen_as="lamp",
    shows=_shows,
    feedable=True,
    assumes={"volts": lambda _, c: f"{test_volts(c.system_volts):g} V"},
)
