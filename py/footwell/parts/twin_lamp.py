"""Lamp with two filaments and a common base: stop and tail, main and dip.

Terminals are named after the filaments of UN Regulation 37, the base is 31. With no earth at the base
the current goes through one filament and back through the other: both glow, and what hangs on the
other filament gets a feed from behind.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, rate_of
from footwell.parts.laws import Filament, Open, Resistance
from footwell.parts.series import inner_volts
from footwell.reference import lamp_ratings
from footwell.reference.lamps import light_share

Code = Literal["P21/5W", "PY21/5W", "P21/4W", "W21/5W", "H4"]
BASE = "31"
BRIDGE = "bridge"
BRIDGE_OHMS = 0.1
"""A broken filament that lies on the other (common practice, no source)."""


@dataclass(frozen=True)
class TwinLamp:
    """`code` of UN Regulation 37: it names both filaments and their watts."""

    code: Code = "P21/5W"


def filaments(values: TwinLamp) -> tuple[str, str]:
    """The brighter filament, and the other.

    >>> filaments(TwinLamp("H4")), filaments(TwinLamp("P21/5W"))
    (('main', 'dip'), ('major', 'minor'))
    """
    return ("main", "dip") if values.code == "H4" else ("major", "minor")


def row(values: TwinLamp, filament: str, context: Context) -> lamp_ratings.Lamp:
    """Ratings of one filament. Raises ValueError where the code does not exist for the voltage."""
    return lamp_ratings.lamp(values.code, context.system_volts, filament)


def law_of(values: TwinLamp, filament: str, context: Context) -> Filament:
    """Law of one filament, 5 % below the most that UN Regulation 37 lets it take.

    >>> brake = law_of(TwinLamp("P21/5W"), "major", Context(12, 5.0))
    >>> round(brake.at(13.5)[0], 2)
    1.86
    """
    found = row(values, filament, context)
    return Filament.rated(found.test_volts, found.typical_watts_at_test, found.hot_over_cold)


def _branches(values: TwinLamp, state: State, context: Context) -> list[Branch]:
    sigma = lamp_ratings.POWER_RELATIVE_SIGMA.value
    first, second = filaments(values)
    rows = [Branch(f, f, BASE, law_of(values, f, context), sigma) for f in (first, second)]
    return [*rows, Branch(BRIDGE, first, second, Open())]


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: TwinLamp,
    state: State,
    context: Context,
) -> list[Branch] | None:
    if mode.name != "bridged":
        return None
    return [replace(b, law=Resistance(BRIDGE_OHMS)) if b.name == BRIDGE else b for b in branches]


def _modes(values: TwinLamp) -> tuple[Mode, ...]:
    rows = [
        Mode(f"open:{f}", rate_of("lamp", "open") / 2, f"burnt out in its {f} filament", of=f)
        for f in filaments(values)
    ]
    bridged = Mode("bridged", rate_of("lamp", "short_across"), "bridged between its filaments")
    return (*rows, bridged)


def _shows(values: TwinLamp, felt: Felt, context: Context) -> float:
    """Light of both filaments together as a share of what the brighter one gives."""
    lumens = 0.0
    for name in filaments(values):
        flow = felt.flows.get(name)
        found = row(values, name, context)
        volts = inner_volts(flow.branch.law, flow.volts) if flow else 0.0
        lumens += found.lumens_at_test * light_share(volts, found.test_volts)
    return lumens / row(values, filaments(values)[0], context).lumens_at_test


KIND = Kind(
    name="twin_lamp",
    title="lamp with two filaments",
    values=TwinLamp,
    terminals=lambda v: (filaments(v)[0], BASE, filaments(v)[1]),
    branches=_branches,
    modes=_modes,
    broken=_broken,
    seen_as="lamp",
    follows="power",
    shows=_shows,
    feedable=True,
)
