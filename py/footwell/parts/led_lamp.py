"""LED lamp: a chain of LEDs behind a resistor, lit from "+" to "-" only.

I = (U - n * Uf) / R once the chain conducts: below some two thirds of its voltage it is dark, where
a filament would still glow. A few hundred microamps light it faintly, where a filament stays dark.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated, Literal

from pydantic import Field

from footwell.parts import lamp
from footwell.parts.base import Branch, Context, Felt, Kind, Mode, Objection, State, rate_of
from footwell.parts.laws import THERMAL_VOLTS, Junction, Resistance
from footwell.parts.series import InSeries
from footwell.reference import leds


@dataclass(frozen=True)
class LedLamp:
    """`watts` at `volts` (13.5 or 28 V where left open), resistor included; `leds` in one chain."""

    watts: Annotated[float, Field(gt=0, le=200)]
    volts: Annotated[float, Field(gt=0, le=60)] | None = None
    colour: Literal["white", "red", "amber"] = "white"
    leds: Annotated[int, Field(ge=1, le=16)] | None = None


STRAIGHT_FROM = 1.05
"""Share of the chain's voltage from which its curve goes on straight: some twenty times the rated
current, which the resistor never lets through, and a search down from there is short."""


def rated_volts(values: LedLamp, context: Context) -> float:
    return values.volts or lamp.test_volts(context.system_volts)


def rated_amps(values: LedLamp, context: Context) -> float:
    return values.watts / rated_volts(values, context)


def chain(values: LedLamp, context: Context) -> int:
    """LEDs in one chain, those of the usual lamp where left open."""
    return values.leds or int(leds.CHAIN[context.system_volts].value)


def law_of(values: LedLamp, context: Context) -> InSeries:
    """Diode chain and resistor that take the rated power at the rated voltage.

    >>> round(law_of(LedLamp(2.7), Context(12, 5.0)).at(13.5)[0], 3)
    0.2
    """
    count, amps = chain(values, context), rated_amps(values, context)
    volts = leds.chain_volts(values.colour, count)
    emission = leds.EMISSION.value * count
    leaks = amps / math.expm1(volts / (emission * THERMAL_VOLTS))
    ohms = (rated_volts(values, context) - volts) / amps
    return InSeries(Junction(leaks, emission, STRAIGHT_FROM * volts), ohms)


def _branches(values: LedLamp, state: State, context: Context) -> list[Branch]:
    law = law_of(values, context)
    return [Branch("", "+", "-", law, leds.RESISTOR_RELATIVE_SIGMA.value)]


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: LedLamp, state: State, context: Context
) -> list[Branch] | None:
    sound = branches[0]
    if mode.name == "reversed":
        return [replace(sound, a=sound.b, b=sound.a)]
    if mode.name == "short":
        return [replace(sound, law=Resistance(law_of(values, context).ohms))]
    return None


def _shows(values: LedLamp, felt: Felt, context: Context) -> float:
    """Light goes with the current through the LEDs (data sheets, from memory)."""
    flow = felt.flows.get("")
    lit = flow is not None and isinstance(flow.branch.law, InSeries)
    return max(flow.amps, 0.0) / rated_amps(values, context) if flow and lit else 0.0


def _objections(values: LedLamp, context: Context) -> Iterator[Objection]:
    volts, over = rated_volts(values, context), chain(values, context)
    dropped = leds.chain_volts(values.colour, over)
    if dropped >= volts:
        yield (
            "leds" if values.leds else "volts",
            f"{over} {values.colour} LEDs in a chain take {dropped:g} V, and the lamp has {volts:g} V.",
            "Write null for the number of LEDs where it is not known.",
        )


HOLDER = "clean and tighten its holder"

KIND = Kind(
    name="led_lamp",
    title="LED lamp",
    values=LedLamp,
    terminals=lambda _: ("+", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("led", "open"), "dead"),
        Mode("short", rate_of("led", "short_across"), "shorted in its LEDs"),
        Mode("reversed", 0.1, "fitted the wrong way round", "turn it round"),
        Mode(
            "high_resistance",
            rate_of("fuse", "high_resistance"),
            "making poor contact in its holder",
            HOLDER,
            sized=True,
        ),
    ),
    broken=_broken,
    seen_as="lamp",
    shows=_shows,
    feedable=True,
    measured_alone=False,
    assumes={
        "volts": lambda _, c: f"{lamp.test_volts(c.system_volts):g} V",
        "leds": lambda v, c: f"{chain(v, c)} in a chain",
    },
    seldom_given=("leds",),
    objections=_objections,
)
