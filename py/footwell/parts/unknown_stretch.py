"""Unknown stretch: a way for current of which nobody has seen the inside yet.

Two ends, and between them whatever a loom has: wires, contacts, perhaps a fuse or a splice. Its faults
are those of all of them together, and its resistance is assumed, widely.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import EARTH, SHORT_OHMS, SUPPLY, Branch, Context, Kind, Mode, State
from footwell.parts.laws import Resistance
from footwell.reference import conductors, failures
from footwell.reference.contacts import terminal

INSIDE: tuple[tuple[failures.Kind, int], ...] = (("wire", 3), ("contact", 2), ("splice", 1))
"""What an unseen way from one accessible place to the next holds as a rule (common practice, no
source)."""

LENGTHS = 3
"""Wire inside, in lengths of a wire whose length is not known: one for each wire of `INSIDE`."""

GUESS_SIGMA = 0.8
"""Relative standard deviation of a resistance that is guessed like this: half to double and more
(assumption)."""

SHORT_TO_SUPPLY_SHARE = 0.25
"""Shorts to a live wire of the same loom, to one of shorts to the body, which is everywhere (common
practice, no source)."""


@dataclass(frozen=True)
class UnknownStretch:
    """`share` of a usual stretch: 1 as a rule, less once places in it were found."""

    share: Annotated[float, Field(gt=0, le=1)] = 1.0


def ohms(values: UnknownStretch, context: Context) -> float:
    """Assumed resistance (Ω): wire by the circuit's current, two contacts."""
    mm2 = conductors.section_for_amps(context.default_amps)
    metres = LENGTHS * conductors.DEFAULT_LENGTH_METRES.value
    celsius = conductors.WIRE_CELSIUS.mean
    wire = conductors.typical_wire_ohms(mm2, metres, celsius).mean
    return values.share * (wire + 2 * terminal(None).milliohms / 1000)


def _branches(values: UnknownStretch, state: State, context: Context) -> list[Branch]:
    return [Branch("", "1", "2", Resistance(ohms(values, context)), GUESS_SIGMA)]


def _rate(values: UnknownStretch, mode: failures.Mode) -> float:
    return values.share * math.fsum(
        count * failures.relative_rate(kind) * failures.mode_shares(kind).get(mode, 0.0)
        for kind, count in INSIDE
    )


def _modes(values: UnknownStretch) -> tuple[Mode, ...]:
    earthed = _rate(values, "short_to_earth")
    mend = "find the place and mend it"
    return (
        Mode("open", _rate(values, "open"), "open somewhere inside", mend),
        Mode(
            "high_resistance",
            _rate(values, "high_resistance"),
            "of high resistance somewhere inside",
            mend,
            sized=True,
        ),
        Mode("short_to_earth", earthed, "touching earth somewhere inside", mend),
        Mode(
            "short_to_supply",
            earthed * SHORT_TO_SUPPLY_SHARE,
            "touching a live wire somewhere inside",
            mend,
        ),
    )


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: UnknownStretch,
    state: State,
    context: Context,
) -> list[Branch] | None:
    leads_to = {"short_to_earth": EARTH, "short_to_supply": SUPPLY}.get(mode.name)
    if leads_to is None:
        return None
    return [*branches, Branch(f"chafe {leads_to}", "1", leads_to, Resistance(SHORT_OHMS))]


KIND = Kind(
    name="unknown_stretch",
    title="unknown stretch",
    values=UnknownStretch,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=_modes,
    broken=_broken,
    metal=True,
    shorts_to_supply=("1",),
    seldom_given=("share",),
)
"""Its ends cannot be touched: what can is a part of its own beside it."""
