"""Potentiometer of a pedal, a throttle or a lever: a track from "+" to "-" and a wiper on it.

Its positions are travels in percent. A worn spot lifts the wiper at one of them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Law, Open, Resistance
from footwell.reference import sensors

Percent = Annotated[float, Field(ge=0, le=100)]


@dataclass(frozen=True)
class Potentiometer:
    """`ohms` of the whole track. `end_share` of it lies beyond the wiper at either end of travel, so
    that on 5 V the wiper goes from 0.5 V to 4.5 V (makers' practice, memory).

    >>> [round(5 * below(Potentiometer(), percent), 2) for percent in (0, 50, 100)]
    [0.5, 2.5, 4.5]
    """

    travels: Annotated[tuple[Percent, ...], Field(min_length=1, max_length=12)] = (0.0, 50.0, 100.0)
    ohms: Annotated[float, Field(ge=10, le=1e6)] | None = None
    end_share: Annotated[float, Field(ge=0.001, le=0.4)] = sensors.POTENTIOMETER_END_SHARE.value


def below(values: Potentiometer, percent: float) -> float:
    """Share of the track between wiper and "-"."""
    return values.end_share + (1.0 - 2.0 * values.end_share) * percent / 100.0


def positions(values: Potentiometer) -> dict[State, float]:
    """Position to its travel: "50 %"."""
    return {f"{percent:g} %": percent for percent in values.travels}


def _branches(values: Potentiometer, state: State, context: Context) -> list[Branch]:
    ohms = values.ohms or sensors.POTENTIOMETER_OHMS.value
    share = below(values, positions(values)[state])
    spread = sensors.POTENTIOMETER_RELATIVE_SIGMA.value
    return [
        Branch("track", "+", "-", Open(), spread),
        Branch("upper", "+", "wiper", Resistance((1.0 - share) * ohms), spread),
        Branch("lower", "wiper", "-", Resistance(share * ohms), spread),
    ]


def _modes(values: Potentiometer) -> tuple[Mode, ...]:
    opens = rate_of("potentiometer", "open") / 3
    spots = rate_of("potentiometer", "worn_track") / len(values.travels)
    return (
        Mode("open:upper", opens, "open in its track towards +", of="upper"),
        Mode("open:lower", opens, "open in its track towards −", of="lower"),
        Mode("open:wiper", opens, "open at its wiper"),
        *(
            Mode(f"worn:{p}", spots, f"worn at {p} of travel", sized=True)
            for p in positions(values)
        ),
        Mode(
            "short:lower",
            rate_of("potentiometer", "short_across"),
            "shorted between wiper and −",
            of="lower",
        ),
    )


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: Potentiometer,
    state: State,
    context: Context,
) -> list[Branch] | None:
    if mode.name == "open:wiper":
        return _with(branches, _lifted(branches, None))
    if mode.name.startswith("worn:"):
        here = mode.name == f"worn:{state}"
        return _with(branches, _lifted(branches, size)) if here else branches
    return None


def _lifted(branches: list[Branch], ohms: float | None) -> dict[str, Law]:
    """Laws with a resistance (Ω) in the wiper, None for an open one: the star of both sides of the
    track and the wiper, turned into the triangle between the terminals, which is the same outside."""
    sides = {b.name: b.law for b in branches}
    upper, lower = sides["upper"], sides["lower"]
    if not (isinstance(upper, Resistance) and isinstance(lower, Resistance)):
        return {}
    up, low = upper.ohms, lower.ohms
    if ohms is None:
        return {"track": Resistance(up + low), "upper": Open(), "lower": Open()}
    pairs = up * low + up * ohms + low * ohms
    return {
        "track": Resistance(pairs / ohms),
        "upper": Resistance(pairs / low),
        "lower": Resistance(pairs / up),
    }


def _with(branches: list[Branch], laws: dict[str, Law]) -> list[Branch]:
    return [replace(b, law=laws.get(b.name, b.law)) for b in branches]


KIND = Kind(
    name="potentiometer",
    title="potentiometer",
    values=Potentiometer,
    terminals=lambda _: ("+", "wiper", "-"),
    branches=_branches,
    modes=_modes,
    broken=_broken,
    states=lambda v: tuple(positions(v)),
    positions=lambda v: tuple(positions(v)),
    line="sensor line",
    assumes={"ohms": lambda _, __: f"{sensors.POTENTIOMETER_OHMS.value:g} Ω"},
)
