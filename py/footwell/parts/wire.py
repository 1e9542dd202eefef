"""Wire: resistance from its cross-section and length by the published table."""

from __future__ import annotations

import math
from dataclasses import dataclass

from footwell.parts.base import EARTH, Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Resistance
from footwell.reference import conductors


@dataclass(frozen=True)
class Wire:
    """`mm2` of conductor, `metres` of length, `celsius` of its copper; each may be open."""

    mm2: float | None = None
    metres: float | None = None
    celsius: float | None = None


def cross_section(values: Wire, context: Context) -> float:
    """Cross-section in mm², assumed from the circuit's current where left open."""
    return values.mm2 or conductors.section_for_amps(context.default_amps)


def _branches(values: Wire, state: State, context: Context) -> list[Branch]:
    mm2 = cross_section(values, context)
    metres = values.metres or conductors.DEFAULT_LENGTH_METRES.value
    celsius = conductors.WIRE_CELSIUS.mean if values.celsius is None else values.celsius
    typical = conductors.typical_wire_ohms(mm2, metres, celsius)
    guessed_mm2 = conductors.UNKNOWN_SECTION_RELATIVE_SIGMA.value if values.mm2 is None else 0.0
    guessed_metres = (
        conductors.UNKNOWN_LENGTH_RELATIVE_SIGMA.value if values.metres is None else 0.0
    )
    make = conductors.MAKE_FACTOR if values.celsius is not None else typical
    spread = math.hypot(make.relative_sigma, guessed_mm2, guessed_metres)
    return [
        Branch("", "1", "2", Resistance(typical.mean), spread, conductors.current_guide_amps(mm2))
    ]


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Wire, state: State, context: Context
) -> list[Branch] | None:
    if mode.name != "short_to_earth":
        return None
    return [*branches, Branch("chafe", "1", EARTH, Resistance(0.02))]


KIND = Kind(
    name="wire",
    title="wire",
    values=Wire,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("wire", "open"), "broken", "mend"),
        Mode(
            "high_resistance",
            rate_of("wire", "high_resistance"),
            "nearly broken through",
            "mend",
            sized=True,
        ),
        Mode(
            "short_to_earth",
            rate_of("wire", "short_to_earth"),
            "chafed through to earth",
            "mend and protect",
        ),
    ),
    broken=_broken,
    metal=True,
)
