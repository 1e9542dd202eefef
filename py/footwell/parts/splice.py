"""Splice: several wires joined in one sleeve. Each wire ends in a joint of its own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Resistance
from footwell.reference.contacts import contact


@dataclass(frozen=True)
class Splice:
    """`wires` is how many ends it joins, named "1", "2", …; the first is the supply side."""

    wires: Annotated[int, Field(ge=2, le=12)] = 3


def _terminals(values: Splice) -> tuple[str, ...]:
    return tuple(str(n + 1) for n in range(values.wires))


def _branches(values: Splice, state: State, context: Context) -> list[Branch]:
    sound = contact("splice")
    return [
        Branch(end, "1", end, Resistance(sound.ohms), sound.relative_sigma)
        for end in _terminals(values)[1:]
    ]


def _modes(values: Splice) -> tuple[Mode, ...]:
    share = 1.0 / (values.wires - 1)
    rows: list[Mode] = []
    for end in _terminals(values)[1:]:
        rows.append(
            Mode(
                f"open:{end}",
                rate_of("splice", "open") * share,
                "open",
                "make the splice anew",
                of=end,
            )
        )
        rows.append(
            Mode(
                f"high_resistance:{end}",
                rate_of("splice", "high_resistance") * share,
                "with a poor joint",
                "make the splice anew",
                sized=True,
                of=end,
            )
        )
    return tuple(rows)


KIND = Kind(
    name="splice",
    title="splice",
    values=Splice,
    terminals=_terminals,
    branches=_branches,
    modes=_modes,
    metal=True,
    measured_alone=False,
)
