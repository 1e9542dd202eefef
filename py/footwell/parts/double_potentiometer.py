"""Two potentiometers on one shaft, as a pedal has them: each has its own 5 V, its own earth and its own
signal, so that a control unit can hold one against the other.

The second gives half of the signal of the first (makers' practice, memory). Positions are travels in
percent, as of a single one; a worn spot lies on one track alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts import potentiometer
from footwell.parts.base import Branch, Context, Kind, Mode, State
from footwell.parts.laws import Resistance
from footwell.parts.potentiometer import Percent, Potentiometer
from footwell.reference import sensors

TRACKS = ("1", "2")
ENDS = ("+", "wiper", "-")
SHORT: Mapping[str, str] = {"+": "+", "wiper": "s", "-": "-"}


@dataclass(frozen=True)
class DoublePotentiometer:
    """`ohms` of each whole track.

    >>> a, b = (signal_share(DoublePotentiometer(), track, 100.0) for track in TRACKS)
    >>> round(5 * a, 2), round(5 * b, 2)
    (4.5, 2.25)
    """

    travels: Annotated[tuple[Percent, ...], Field(min_length=1, max_length=12)] = (0.0, 50.0, 100.0)
    ohms: Annotated[float, Field(ge=10, le=1e6)] | None = None


def signal_share(values: DoublePotentiometer, track: str, percent: float) -> float:
    """Share of its 5 V that a track gives without load."""
    share = potentiometer.below(_single(values), percent)
    return share if track == "1" else share * sensors.SECOND_TRACK_SHARE.value


def _single(values: DoublePotentiometer) -> Potentiometer:
    return Potentiometer(values.travels, values.ohms)


def _terminal(track: str, end: str) -> str:
    return f"{SHORT[end]}{track}"


def _track(values: DoublePotentiometer, track: str, state: State, context: Context) -> list[Branch]:
    percent = potentiometer.positions(_single(values))[state]
    ohms = values.ohms or sensors.POTENTIOMETER_OHMS.value
    share = signal_share(values, track, percent)
    laws = {"upper": Resistance((1.0 - share) * ohms), "lower": Resistance(share * ohms)}
    rows = potentiometer.KIND.branches(_single(values), state, context)
    return [replace(b, law=laws.get(b.name, b.law)) for b in rows]


def _named(track: str, branch: Branch) -> Branch:
    """A branch of a single potentiometer as one of the track."""
    a, b = (_terminal(track, end) for end in (branch.a, branch.b))
    return replace(branch, name=f"{branch.name} {track}", a=a, b=b)


def _branches(values: DoublePotentiometer, state: State, context: Context) -> list[Branch]:
    return [_named(t, b) for t in TRACKS for b in _track(values, t, state, context)]


def _modes(values: DoublePotentiometer) -> tuple[Mode, ...]:
    single = potentiometer.KIND.modes(_single(values))
    return tuple(
        replace(
            mode,
            name=f"{mode.name}:{track}",
            title=f"{mode.title} on track {track}",
            of=f"{mode.of} {track}" if mode.of else "",
        )
        for track in TRACKS
        for mode in single
    )


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: DoublePotentiometer,
    state: State,
    context: Context,
) -> list[Branch] | None:
    name, track = mode.name.rsplit(":", 1)
    found = potentiometer.KIND.broken(
        replace(mode, name=name),
        size,
        _track(values, track, state, context),
        _single(values),
        state,
        context,
    )
    if found is None:
        return None
    changed = {f"{b.name} {track}": _named(track, b) for b in found}
    return [changed.get(b.name, b) for b in branches]


KIND = Kind(
    name="double_potentiometer",
    title="double potentiometer",
    values=DoublePotentiometer,
    terminals=lambda _: tuple(_terminal(t, end) for t in TRACKS for end in ENDS),
    branches=_branches,
    modes=_modes,
    broken=_broken,
    states=lambda v: tuple(potentiometer.positions(_single(v))),
    positions=lambda v: tuple(potentiometer.positions(_single(v))),
    line="sensor line",
    assumes={"ohms": lambda _, __: f"{sensors.POTENTIOMETER_OHMS.value:g} Ω"},
)
