"""A set-up: position of every control, what is unplugged, what stands in for a load, engine."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from footwell.circuit.circuit import Circuit


class SetupState(NamedTuple):
    """Hashable form of a set-up. `apart` names connectors unplugged and parts pulled out;
    `stand_in` pairs a connector with the watts of the lamp across its half a."""

    controls: tuple[tuple[str, str], ...] = ()
    apart: tuple[str, ...] = ()
    stand_in: tuple[tuple[str, float], ...] = ()
    engine: str = "off"


def set_up(
    circuit: Circuit,
    controls: Mapping[str, str] | None = None,
    apart: tuple[str, ...] = (),
    stand_in: Mapping[str, float] | None = None,
    engine: str = "off",
) -> SetupState:
    """The set-up with every control named: those left out are at rest."""
    given = dict(controls or {})
    full = tuple(sorted((c.part, given.get(c.part, c.off)) for c in circuit.sheet.controls))
    unplugged = tuple(sorted({*apart, *(stand_in or {})}))
    return SetupState(full, unplugged, tuple(sorted((stand_in or {}).items())), engine)
