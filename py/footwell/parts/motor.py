"""Brushed motor that drives a fan, whose torque rises with the square of speed, or a pump or a winch,
whose torque stays the same at any speed.

With a steady load the current hardly falls with the voltage: a weak feed makes it slow, not light.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, Objection, State, rate_of
from footwell.parts.laws import Armature, Open, Resistance

FRICTION_SHARE = 0.06
"""Friction of sound bearings and brushes, as a share of nominal current (common practice, no source)."""

ARMATURE_SHARE = 0.18
"""Drop in the armature at nominal current over nominal voltage, where no resistance is given
(common practice for small fan motors, no source)."""


@dataclass(frozen=True)
class Motor:
    """`amps` at `volts` with its `load` on; `ohms` of the armature with its brushes.

    >>> fan, pump = (running(Motor(8.0, 13.5, 0.3, load), Context(12, 8.0)) for load in ("fan", "steady"))
    >>> [round(law.at(9.0)[0], 1) for law in (fan, pump)]
    [4.2, 8.0]
    """

    amps: Annotated[float, Field(gt=0, le=1000)]
    volts: Annotated[float, Field(gt=0, le=60)] | None = None
    ohms: Annotated[float, Field(gt=0, le=100)] | None = None
    load: Literal["fan", "steady"] = "fan"


def _branches(values: Motor, state: State, context: Context) -> list[Branch]:
    return [Branch("", "+", "-", running(values, context), 0.06)]


def running(values: Motor, context: Context, friction: float = FRICTION_SHARE) -> Armature:
    """The motor's law; `friction` is the bearing's share of nominal current."""
    volts = values.volts or float(context.system_volts) * 1.125
    ohms = values.ohms or ARMATURE_SHARE * volts / values.amps
    turning, dragging = values.amps * (1 - FRICTION_SHARE), values.amps * friction
    if values.load == "steady":
        turning, dragging = 0.0, turning + dragging
    return Armature(ohms, volts - values.amps * ohms, turning, dragging)


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


def shown_speed(values: Motor, felt: Felt, context: Context) -> float:
    """Speed as a share of nominal, whichever way it turns."""
    flow = felt.flows.get("")
    law = flow.branch.law if flow else None
    return law.speed(felt.across("")) if isinstance(law, Armature) else 0.0


def _objections(values: Motor, context: Context) -> Iterator[Objection]:
    law = running(values, context)
    if law.emf_volts <= 0.0:
        yield (
            "ohms",
            f"At {values.amps:g} A an armature of {law.ohms:g} Ω takes "
            f"{values.amps * law.ohms:g} V, all that the motor has: it could not turn.",
            "Measure the armature's resistance again, or write null where it is not known.",
        )


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
    follows="average",
    shows=shown_speed,
    feedable=True,
    assumes={"ohms": lambda v, c: f"{round(running(v, c).ohms, 3):g} Ω"},
    seldom_given=("volts",),
    objections=_objections,
)
