"""Fusible link: a short wire, thinner than what it protects, that melts inside its insulation."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, Seconds, State, rate_of
from footwell.parts.laws import Law, Open, Resistance
from footwell.reference import conductors, fusible_links


@dataclass(frozen=True)
class FusibleLink:
    """`mm2` of conductor and `metres` of length; either may be open."""

    mm2: Annotated[float, Field(ge=0.22, le=25)] | None = None
    metres: Annotated[float, Field(gt=0, le=2)] | None = None


def cross_section(values: FusibleLink, context: Context) -> float:
    """Cross-section in mm², from the wire it would protect where left open.

    >>> cross_section(FusibleLink(), Context(12, 40.0)) < conductors.section_for_amps(40.0)
    True
    """
    protected = conductors.section_for_amps(context.default_amps)
    return values.mm2 or max(round(protected / fusible_links.THINNER.value, 2), 0.35)


def _branches(values: FusibleLink, state: State, context: Context) -> list[Branch]:
    mm2 = cross_section(values, context)
    metres = values.metres or fusible_links.LENGTH_METRES.value
    sound = conductors.typical_wire_ohms(mm2, metres)
    law: Law = Open() if state == "melted" else Resistance(sound.mean)
    guide = conductors.current_guide_amps(mm2)
    return [Branch("", "1", "2", law, sound.relative_sigma, guide)]


def _opens(values: FusibleLink, amps: float, context: Context) -> Seconds | None:
    return fusible_links.melting_seconds(cross_section(values, context), amps)


KIND = Kind(
    name="fusible_link",
    title="fusible link",
    values=FusibleLink,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("fuse", "open"), "melted"),
        Mode(
            "high_resistance",
            rate_of("fuse", "high_resistance"),
            "corroded at its crimps",
            sized=True,
        ),
    ),
    states=lambda _: ("whole", "melted"),
    opens=_opens,
    opened="melted",
    opens_as="melts",
    after_opening=lambda _: "Find the short behind it before a new link goes in.",
    metal=True,
    assumes={
        "mm2": lambda v, c: f"{cross_section(v, c):g} mm²",
        "metres": lambda _, __: f"{fusible_links.LENGTH_METRES.value:g} m",
    },
)
