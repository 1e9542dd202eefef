"""A set-up: position of every control, what is unplugged, what stands in for a load, engine."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from footwell.circuit.circuit import Circuit
from footwell.sheet.models import SheetControl


class SetupState(NamedTuple):
    """Hashable form of a set-up. `apart` names connectors unplugged and parts pulled out;
    `stand_in` pairs the plug of a load with the watts of the lamp across its half a, or a fuse with those of
    the lamp in its seat."""

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
    """The set-up with every control named: those left out are at rest, or where the engine can run."""
    given, lamps = dict(controls or {}), tuple(sorted((stand_in or {}).items()))
    unplugged = tuple(sorted({*apart, *(stand_in or {})}))
    rest = {c.part: c.off if engine == "off" else runs_at(c)[0] for c in circuit.sheet.controls}
    full = tuple(sorted((part, given.get(part, position)) for part, position in rest.items()))
    return SetupState(full, unplugged, lamps, engine)


def runs_at(control: SheetControl) -> list[str]:
    """Positions of a control in which the engine can run, that of rest first if it is one of them."""
    found = control.running or [p.id for p in control.positions]
    return sorted(found, key=lambda position: position != control.off)


def can_run(circuit: Circuit, setup: SetupState) -> bool:
    """Whether the engine can run with every control where a set-up has it."""
    positions = dict(setup.controls)
    return all(positions[c.part] in runs_at(c) for c in circuit.sheet.controls)


def taken_apart(
    setup: SetupState, apart: tuple[str, ...], stand_in: tuple[tuple[str, float], ...] = ()
) -> SetupState:
    """The same positions with something unplugged or pulled, the engine stopped for it."""
    return SetupState(setup.controls, tuple(sorted(apart)), stand_in)
