"""Switch of any number of positions: each position closes some pairs of its terminals."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from footwell.names import Composed
from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Open, Resistance
from footwell.reference.contacts import contact

Pair = tuple[str, str]


@dataclass(frozen=True)
class Switch:
    """`terminals` in the order of the sheet; `closes` maps a position to the pairs it joins."""

    terminals: Annotated[tuple[str, ...], Field(min_length=2, max_length=24)]
    closes: dict[Composed, tuple[Pair, ...]]
    rating_amps: Annotated[float, Field(gt=0, le=500)] | None = None
    momentary: bool = False


def contact_pairs(values: Switch) -> list[Pair]:
    """Every pair that some position closes, in the order first named."""
    seen: dict[Pair, None] = {}
    for pairs in values.closes.values():
        seen.update(dict.fromkeys(pairs))
    return list(seen)


def _branches(values: Switch, state: State, context: Context) -> list[Branch]:
    sound = contact("switch contact")
    closed = values.closes.get(state, ())
    return [
        Branch(
            f"{a}-{b}",
            a,
            b,
            Resistance(sound.ohms) if (a, b) in closed else Open(),
            sound.relative_sigma,
            values.rating_amps,
        )
        for a, b in contact_pairs(values)
    ]


def _modes(values: Switch) -> tuple[Mode, ...]:
    pairs = contact_pairs(values)
    rows = (
        [Mode("open", rate_of("switch", "open_common"), "open in all positions")]
        if pairs[1:]
        else []
    )
    each = 1.0 / len(pairs)
    for a, b in pairs:
        name = f"{a}-{b}"
        rows.append(
            Mode(
                f"open:{name}",
                rate_of("switch", "open") * each,
                f"open between {a} and {b}",
                of=name,
            )
        )
        rows.append(
            Mode(
                f"high_resistance:{name}",
                rate_of("switch", "high_resistance") * each,
                f"burnt between {a} and {b}",
                sized=True,
                of=name,
            )
        )
        rows.append(
            Mode(
                f"stuck_closed:{name}",
                rate_of("switch", "stuck_closed") * each,
                f"stuck closed between {a} and {b}",
                of=name,
            )
        )
    return tuple(rows)


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Switch, state: State, context: Context
) -> list[Branch] | None:
    if not mode.name.startswith("stuck_closed"):
        return None
    shut = Resistance(contact("switch contact").ohms)
    return [
        Branch(b.name, b.a, b.b, shut, b.spread, b.rating_amps) if b.name == mode.of else b
        for b in branches
    ]


KIND = Kind(
    name="switch",
    title="switch",
    values=Switch,
    terminals=lambda v: v.terminals,
    branches=_branches,
    modes=_modes,
    broken=_broken,
    states=lambda v: tuple(v.closes),
    positions=lambda v: tuple(v.closes),
    measured_alone=False,
    metal=True,
)
