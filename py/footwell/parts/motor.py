"""Brushed motor that drives a fan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Armature, Open, Resistance

FRICTION_SHARE = 0.06
"""Friction of sound bearings and brushes, as a share of nominal current (common practice, no source)."""

ARMATURE_SHARE = 0.18
"""Drop in the armature at nominal current over nominal voltage, where no resistance is given
(common practice for small fan motors, no source)."""


@dataclass(frozen=True)
class Motor:
    """`amps` at `volts` with the fan on; `ohms` of the armature with its brushes."""

    amps: Annotated[float, Field(gt=0, le=1000)]
    volts: Annotated[float, Field(gt=0, le=60)] | None = None
    ohms: Annotated[float, Field(gt=0, le=100)] | None = None


def _branches(values: Motor, state: State, context: Context) -> list[Branch]:
    return [Branch("", "+", "-", running(values, context), 0.06)]


def running(values: Motor, context: Context, friction: float = FRICTION_SHARE) -> Armature:
    """The motor's law; `friction` is the bearing's share of nominal current."""
    volts = values.volts or float(context.system_volts) * 1.125
    ohms = values.ohms or ARMATURE_SHARE * volts / values.amps
    return Armature(
        ohms, volts - values.amps * ohms, values.amps * (1 - FRICTION_SHARE), values.amps * friction
    )


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Motor, state: State, context: Context
) -> list[Branch] | None:
    sound = branches[0]
    law = running(values, context)
    changed = {
        "stiff": lambda: running(values, context, size),
        "seized": lambda: Resistance(law.ohms),
        "short": lambda: Resistance(law.ohms * 0.1),
        "worn_brushes": lambda: Armature(
            law.ohms * size, law.emf_volts, law.load_amps, law.friction_amps
        ),
        "open": Open,
    }
    if mode.name not in changed:
        return None
    return [Branch(sound.name, sound.a, sound.b, changed[mode.name](), sound.spread)]


KIND = Kind(
    name="motor",
    title="motor",
    values=Motor,
    terminals=lambda _: ("+", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("motor", "open"), "open inside"),
        Mode(
            "worn_brushes",
            rate_of("motor", "worn_brushes"),
            "worn at its brushes",
            factors=(4.0, 15.0),
        ),
        Mode("stiff", rate_of("motor", "stiff"), "stiff in its bearing", factors=(0.3, 0.6, 1.2)),
        Mode("seized", rate_of("motor", "seized"), "seized"),
        Mode("short", rate_of("motor", "short_across"), "shorted inside"),
    ),
    broken=_broken,
    seen_as="motor",
)
