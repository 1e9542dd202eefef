"""Diode in a line or across a coil; conducts from "+" (anode) to "-" (cathode)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Junction, Resistance


@dataclass(frozen=True)
class Diode:
    rating_amps: Annotated[float, Field(gt=0, le=500)] | None = 1.0


SILICON = Junction(1e-8, 1.7)
"""1 A silicon rectifier: about 0.81 V at 1 A (from memory of data sheets, order of magnitude)."""


def _branches(values: Diode, state: State, context: Context) -> list[Branch]:
    return [Branch("", "+", "-", SILICON, 0.0, values.rating_amps)]


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Diode, state: State, context: Context
) -> list[Branch] | None:
    if mode.name != "short":
        return None
    b = branches[0]
    return [Branch(b.name, b.a, b.b, Resistance(0.05), b.spread, b.rating_amps)]


KIND = Kind(
    name="diode",
    title="diode",
    values=Diode,
    terminals=lambda _: ("+", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode("short", rate_of("diode", "short_across"), "shorted"),
        Mode("open", rate_of("diode", "open"), "open"),
    ),
    broken=_broken,
)
