"""Stepped resistor pack of a fan: steps in series, then one thermal fuse, then the way out.

Terminals "in1" (lowest speed) … "inN", "link" (between the last step and the thermal fuse, bare metal
on the pack) and "out". Step k lies between in k and in k+1, the last between in N and the link, so the
current of a low position passes all steps from its own inlet on, and every lower position passes the
thermal fuse.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Resistance


@dataclass(frozen=True)
class ResistorPack:
    """`steps_ohms` from the lowest speed on; `rating_amps` is what the thermal fuse stands with full
    cooling air."""

    steps_ohms: Annotated[
        tuple[Annotated[float, Field(gt=0, le=1000)], ...], Field(min_length=1, max_length=8)
    ]
    rating_amps: Annotated[float, Field(gt=0, le=200)] | None = None
    tolerance: Annotated[float, Field(gt=0, le=0.5)] = 0.05
    cooled_by: str = ""
    """The motor whose air cools the pack."""


THERMAL_FUSE = "thermal fuse"
THERMAL_FUSE_OHMS = 0.002


def inlets(values: ResistorPack) -> tuple[str, ...]:
    return tuple(f"in{n + 1}" for n in range(len(values.steps_ohms)))


def _branches(values: ResistorPack, state: State, context: Context) -> list[Branch]:
    ends = (*inlets(values), "link")
    rows = [
        Branch(f"step {n + 1}", ends[n], ends[n + 1], Resistance(ohms), values.tolerance / 2)
        for n, ohms in enumerate(values.steps_ohms)
    ]
    fuse = Resistance(THERMAL_FUSE_OHMS)
    return [*rows, Branch(THERMAL_FUSE, "link", "out", fuse, 0.3, values.rating_amps)]


def _modes(values: ResistorPack) -> tuple[Mode, ...]:
    each = rate_of("resistor", "open") / len(values.steps_ohms)
    rows = [
        Mode(
            "open:thermal fuse",
            rate_of("thermal_fuse", "open"),
            "open at its thermal fuse",
            of=THERMAL_FUSE,
        )
    ]
    rows += [
        Mode(f"open:step {n + 1}", each, f"open in step {n + 1}", of=f"step {n + 1}")
        for n in range(len(values.steps_ohms))
    ]
    return tuple(rows)


KIND = Kind(
    name="resistor_pack",
    title="resistor pack",
    values=ResistorPack,
    terminals=lambda v: (*inlets(v), "link", "out"),
    branches=_branches,
    modes=_modes,
)
