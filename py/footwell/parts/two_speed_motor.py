"""Wiper motor with three brushes: "low" and "high" for its two speeds, "-" for the common brush.

The third brush taps the winding: fed at "high", fewer turns are at work, and the motor runs faster and
takes more. While it runs at low speed the tap is a place inside the winding and reads part of the
supply, as a meter finds on the brush that nobody feeds; at high speed the low brush reads the supply
and a little more in truth, which is left out here. A park switch is a switch of its own, set by the
motor's place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, Objection, State, rate_of
from footwell.parts.laws import Armature, Law, Open, Resistance
from footwell.parts.motor import ARMATURE_SHARE, FRICTION_SHARE, Motor, running

WHOLE = "whole winding"
"""From the low brush to the common one, where the third brush is lifted."""

Amps = Annotated[float, Field(gt=0, le=200)]


@dataclass(frozen=True)
class TwoSpeedMotor:
    """Currents at `volts` when fed at either brush.

    >>> context = Context(12, 5.0)
    >>> round(slow_share(TwoSpeedMotor(3.0, 5.0), context), 2)
    0.76
    """

    low_amps: Amps
    high_amps: Amps
    volts: Annotated[float, Field(gt=0, le=60)] | None = None


def fast(values: TwoSpeedMotor, context: Context, friction: float = FRICTION_SHARE) -> Armature:
    """The winding between the third brush and the common one."""
    return running(Motor(values.high_amps, values.volts), context, friction)


def slow_share(values: TwoSpeedMotor, context: Context) -> float:
    """Speed when fed at "low" as a share of that at "high"."""
    law = fast(values, context)
    return math.sqrt(max(values.low_amps - law.friction_amps, 0.0) / law.load_amps)


def rest_volts(values: TwoSpeedMotor, context: Context) -> float:
    """Voltage (V) over the turns between "low" and the third brush at low speed."""
    law = fast(values, context)
    nominal = values.volts or running(Motor(values.high_amps), context).emf_volts / (
        1 - ARMATURE_SHARE
    )
    return nominal - values.low_amps * law.ohms - law.emf_volts * slow_share(values, context)


def _rest(values: TwoSpeedMotor, context: Context, friction_amps: float | None = None) -> Armature:
    volts, amps = rest_volts(values, context), values.low_amps
    ohms = ARMATURE_SHARE * volts / amps
    dragging = FRICTION_SHARE * amps if friction_amps is None else friction_amps
    return Armature(ohms, volts - ohms * amps, (1 - FRICTION_SHARE) * amps, dragging)


def _branches(values: TwoSpeedMotor, state: State, context: Context) -> list[Branch]:
    return [
        Branch("", "high", "-", fast(values, context), 0.06),
        Branch("step", "low", "high", _rest(values, context), 0.06),
        Branch(WHOLE, "low", "-", Open(), 0.06),
    ]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: TwoSpeedMotor,
    state: State,
    context: Context,
) -> list[Branch] | None:
    law, step = fast(values, context), _rest(values, context)
    if mode.name == "open:high":
        # The third brush is lifted: the whole winding still turns at low speed.
        whole = running(Motor(values.low_amps, values.volts), context)
        laws: dict[str, Law] = {WHOLE: whole}
        return [replace(b, law=laws.get(b.name, Open())) for b in branches]
    changed: dict[str, tuple[Law, Law]] = {
        "seized": (Resistance(law.ohms), Resistance(step.ohms)),
        "short": (Resistance(law.ohms * 0.1), step),
        "stiff": (
            fast(values, context, size),
            _rest(values, context, size * values.high_amps),
        ),
        "worn_brushes": (replace(law, ohms=law.ohms * size), step),
    }
    if mode.name not in changed:
        return None
    return [replace(b, law=now) for b, now in zip(branches, changed[mode.name], strict=False)]


def _shows(values: TwoSpeedMotor, felt: Felt, context: Context) -> float:
    """Speed as a share of that at high speed."""
    for name, share in (("", 1.0), (WHOLE, slow_share(values, context))):
        flow = felt.flows.get(name)
        if flow is not None:
            law = flow.branch.law
            return share * law.speed(flow.volts) if isinstance(law, Armature) else 0.0
    return 0.0


def _objections(values: TwoSpeedMotor, context: Context) -> Iterator[Objection]:
    if values.low_amps >= values.high_amps or rest_volts(values, context) <= 0.0:
        yield (
            "low_amps",
            f"It takes {values.low_amps:g} A at low speed and {values.high_amps:g} A at high speed.",
            "At low speed it takes less: measure both again.",
        )


KIND = Kind(
    name="two_speed_motor",
    title="two-speed motor",
    values=TwoSpeedMotor,
    terminals=lambda _: ("low", "high", "-"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("motor", "open"), "open at its common brush"),
        Mode("open:step", rate_of("motor", "worn_brushes") / 3, "open at its low brush", of="step"),
        Mode("open:high", rate_of("motor", "worn_brushes") / 3, "open at its high brush"),
        Mode(
            "worn_brushes",
            rate_of("motor", "worn_brushes") / 3,
            "worn at its common brush",
            factors=(4.0, 15.0),
        ),
        Mode("stiff", rate_of("motor", "stiff"), "stiff in its gear", factors=(0.3, 0.6, 1.2)),
        Mode("seized", rate_of("motor", "seized"), "seized"),
        Mode("short", rate_of("motor", "short_across"), "shorted inside"),
    ),
    broken=_broken,
    seen_as="motor",
    follows="average",
    shows=_shows,
    objections=_objections,
    seldom_given=("volts",),
)
