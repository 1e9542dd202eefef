"""Solenoid: a valve, a cut-off or a lock's magnet, which is heard as it pulls and lets go."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import (
    Branch,
    Context,
    Kind,
    Mode,
    State,
    Tipping,
    above,
    below,
    idle,
    moved_by,
    rate_of,
)
from footwell.parts.laws import Resistance
from footwell.reference import loads
from footwell.reference.failures import WRONG_PART
from footwell.reference.sources import Spread

COIL = "coil"
SHORTED_SHARE = 0.25
"""Resistance left of a coil with shorted turns (common practice, no source)."""


@dataclass(frozen=True)
class Solenoid:
    """`ohms` of the coil, cold."""

    ohms: Annotated[float, Field(gt=0, le=10000)] | None = None


def coil_ohms(values: Solenoid, context: Context) -> float:
    """The coil's resistance, that of a usual magnet where left open.

    >>> coil_ohms(Solenoid(), Context(12, 5.0))
    12.0
    """
    return values.ohms or context.system_volts**2 / loads.MAGNET_WATTS.value


def _branches(values: Solenoid, state: State, context: Context) -> list[Branch]:
    return [Branch(COIL, "1", "2", Resistance(coil_ohms(values, context)), 0.08)]


def _limit(share: Spread, values: Solenoid, context: Context) -> Spread:
    """The current (A) that pulls, or holds: the force goes with it, whatever the joints take."""
    amps = context.system_volts / coil_ohms(values, context)
    return Spread(share.mean * amps, share.sigma * amps, "A", share.source)


def _tips(values: Solenoid, state: State, context: Context) -> tuple[Tipping, ...]:
    if state == "rest":
        limit = above(_limit(loads.MAGNET_PULL_SHARE, values, context))
        return (
            Tipping("pulled", COIL, "A", limit, "pull-in", "has pulled in", "has not pulled in"),
        )
    limit = below(_limit(loads.MAGNET_RELEASE_SHARE, values, context))
    return (Tipping("rest", COIL, "A", limit, "drop-out", "has let go", "holds"),)


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: Solenoid,
    state: State,
    context: Context,
) -> list[Branch] | None:
    ohms = coil_ohms(values, context)
    coil = branches[0]
    changed = {
        "sticking": idle(coil, coil.law),
        "shorted_turns": idle(coil, Resistance(ohms * SHORTED_SHARE)),
        "wrong_part": replace(coil, law=Resistance(ohms * size)),
    }
    return [changed[mode.name]] if mode.name in changed else None


KIND = Kind(
    name="solenoid",
    title="solenoid",
    values=Solenoid,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("solenoid", "open"), "open in its coil"),
        Mode("sticking", rate_of("solenoid", "sticking"), "stuck"),
        Mode("shorted_turns", rate_of("solenoid", "short_across"), "shorted in its turns"),
        Mode("wrong_part", WRONG_PART.relative, "of the wrong voltage", factors=(0.25, 4.0)),
    ),
    broken=_broken,
    states=lambda _: ("rest", "pulled"),
    moves=moved_by(_tips),
    tips=_tips,
    seen_as="click",
    shows=lambda _, felt, __: float(felt.state == "pulled"),
    feedable=True,
    assumes={"ohms": lambda v, c: f"{coil_ohms(v, c):g} Ω"},
)
