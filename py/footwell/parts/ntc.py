"""Thermistor whose resistance falls with temperature (NTC), as in temperature sensors.

Its positions are temperatures: what the engine, the cabin or the air has when somebody measures.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, Objection, State, rate_of
from footwell.parts.laws import Resistance
from footwell.reference import sensors
from footwell.reference.failures import WRONG_PART

Celsius = Annotated[float, Field(ge=-60, le=400)]
Ohms = Annotated[float, Field(gt=0, le=1e7)]


@dataclass(frozen=True)
class Ntc:
    """`ohms_25` at 25 °C and `beta` in kelvin, or a `table` of (°C, ohm) in rising temperature, which
    goes first. R = R25 * exp(B * (1/T - 1/298.15)), T in kelvin (IEC 60539). Left open it is the usual
    coolant sensor.

    >>> round(ohms_at(Ntc(), 80))
    327
    """

    celsius: Annotated[tuple[Celsius, ...], Field(min_length=1, max_length=12)] = (20.0, 80.0)
    ohms_25: Ohms | None = None
    beta: Annotated[float, Field(ge=1000, le=7000)] | None = None
    table: Annotated[tuple[tuple[Celsius, Ohms], ...], Field(max_length=60)] = ()
    tolerance: Annotated[float, Field(gt=0, le=0.5)] = 0.05


def ohms_at(values: Ntc, celsius: float) -> float:
    """Resistance (ohm) of a sound sensor at a temperature."""
    if values.table:
        return sensors.ntc_ohms_of(values.table, celsius)
    usual = sensors.COOLANT_NTC
    return sensors.ntc_ohms(values.ohms_25 or usual.ohms_25, values.beta or usual.beta, celsius)


def positions(values: Ntc) -> dict[State, float]:
    """Position to its temperature: "80 °C"."""
    return {f"{celsius:g} °C": celsius for celsius in values.celsius}


def _branches(values: Ntc, state: State, context: Context) -> list[Branch]:
    law = Resistance(ohms_at(values, positions(values)[state]))
    return [Branch("", "1", "2", law, values.tolerance / 2)]


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Ntc, state: State, context: Context
) -> list[Branch] | None:
    """Another size of the same curve, drifted or as the maker of another sensor has it."""
    if not mode.factors:
        return None
    law = branches[0].law
    if not isinstance(law, Resistance):
        return branches  # open inside: no curve of any size shows
    return [replace(branches[0], law=Resistance(law.ohms * size))]


def _objections(values: Ntc, context: Context) -> Iterator[Objection]:
    rising = "Write rows of two or more temperatures, each [°C, Ω], the coldest first."
    if len(values.table) == 1:
        yield "table", "One row makes no curve.", rising
    for (c0, r0), (c1, r1) in pairwise(values.table):
        if c1 <= c0:
            yield "table", f"{c1:g} °C stands after {c0:g} °C.", rising
        elif r1 >= r0:
            yield (
                "table",
                f"At {c1:g} °C it has {r1:g} Ω, not less than the {r0:g} Ω at {c0:g} °C.",
                "The resistance of this sensor falls as it warms up: compare with the table again.",
            )


KIND = Kind(
    name="ntc",
    title="temperature sensor",
    values=Ntc,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("thermistor", "open"), "open inside"),
        Mode("short", rate_of("thermistor", "short_across"), "shorted inside"),
        Mode("drifted", rate_of("thermistor", "drift"), "off its curve", factors=(0.5, 2.0)),
        Mode("wrong_part", WRONG_PART.relative, "of the wrong type", factors=(0.2, 5.0)),
    ),
    broken=_broken,
    states=lambda v: tuple(positions(v)),
    positions=lambda v: tuple(positions(v)),
    line="sensor line",
    assumes={
        "ohms_25": lambda _, __: f"{sensors.COOLANT_NTC.ohms_25:g} Ω at 25 °C",
        "beta": lambda _, __: f"{sensors.COOLANT_NTC.beta:g} K",
    },
    objections=_objections,
)
