"""The family of circuits that the diagnosis is measured on.

Supply, fuse, a bus, branches of switch, wire, connector and load, one shared earth. Two branches make 11
parts and 9 nets, five make 23 parts and 18 nets. Every part fails in two modes, with a chance of 0.02
for the two together: open and high resistance, loads open and short.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from footwell.circuit.circuit import AS_DRAWN, Circuit, Element
from footwell.circuit.fault import Fault
from footwell.faults.suspects import BASE_ODDS
from footwell.parts.base import EARTH, SUPPLY, Branch, Context, Felt, Kind, Mode, power_share
from footwell.parts.laws import Resistance, Source
from footwell.sheet.models import ControlPosition, Sheet, SheetControl

FAULT_RATE = 0.02
"""Chance that a part is at fault, in either of its two modes."""

SUPPLY_VOLTS = 12.6
SWITCHES = "switches"
"""The control that is "off" or "on"."""
LOAD_SPREAD, JOINT_SPREAD = 0.05, 0.4
"""Tolerances as limits, where the family has any: loads 5 %, contacts 40 %; two standard deviations."""


@dataclass(frozen=True)
class Values:
    """Ohms of a part when sound, and of its high resistance; `spread` is its relative sigma, `rate` a
    factor on its rate."""

    ohms: float
    poor_ohms: float = 0.0
    spread: float = 0.0
    rate: float = 1.0


def _mode(name: str, title: str, values: Values, size: float = 0.0) -> Mode:
    chance = FAULT_RATE * values.rate
    rate = chance / (1.0 - chance) / 2.0 / BASE_ODDS
    return Mode(name, rate, title, factors=(size,) if size else ())


def _joint_modes(values: Values) -> tuple[Mode, ...]:
    poor = _mode("high_resistance", "a poor joint", values, values.poor_ohms)
    return _mode("open", "open", values), poor


def _passing(values: Values, state: str, context: Context) -> list[Branch]:
    return [Branch("", "1", "2", Resistance(values.ohms), values.spread)]


def _feeding(values: Values, state: str, context: Context) -> list[Branch]:
    return [Branch("", "+", EARTH, Source(SUPPLY_VOLTS, values.ohms), values.spread / 20.0)]


def _shows(values: Values, felt: Felt, context: Context) -> float:
    return power_share(felt, _passing(values, felt.state, context)[0], context)


JOINT = Kind("joint", "joint", Values, lambda _: ("1", "2"), _passing, _joint_modes, metal=True)
FEED = Kind("battery", "supply", Values, lambda _: ("+",), _feeding, _joint_modes)
LOAD = Kind(
    "load",
    "load",
    Values,
    lambda _: ("1", "2"),
    _passing,
    lambda values: (_mode("open", "open", values), _mode("short", "shorted", values)),
    seen_as="heat",
    shows=_shows,
)
HAND = Kind(
    "hand",
    "hand",
    Values,
    lambda _: (),
    lambda *_: [],
    lambda _: (),
    states=lambda _: ("off", "on"),
    positions=lambda _: ("off", "on"),
)
"""What switches everything on: no part of the family, and without a fault."""


@dataclass(frozen=True)
class Family:
    """A circuit of the family, and the same with its tolerances drawn, which is the vehicle."""

    circuit: Circuit
    vehicle: Circuit

    @property
    def parts(self) -> list[str]:
        return [e.id for e in self.circuit.elements.values() if e.modes]


def drawn(
    branches: int, chance: random.Random, tolerant: bool = False, evenly: bool = False
) -> Family:
    """A circuit of so many branches with values drawn; `tolerant` parts differ in the vehicle, normally or
    `evenly` up to their limit of two sigma."""
    values, ends = _parts(branches, chance, tolerant)
    real = {part: _off(v, chance, evenly) for part, v in values.items()}
    return Family(_built(values, ends), _built(real, ends))


def _off(values: Values, chance: random.Random, evenly: bool) -> Values:
    limit = 2.0 * values.spread
    miss = chance.uniform(-limit, limit) if evenly else chance.gauss(0.0, values.spread)
    ohms = values.ohms * max(1.0 + miss, 0.1)
    return Values(ohms, values.poor_ohms, values.spread)


def _parts(
    branches: int, chance: random.Random, tolerant: bool
) -> tuple[dict[str, Values], dict[str, tuple[str, str]]]:
    loads = [chance.uniform(2.0, 12.0) for _ in range(branches)]

    def joint(load_ohms: float) -> Values:
        poor = load_ohms * 10 ** chance.uniform(-0.5, 0.5)
        return Values(chance.uniform(0.002, 0.02), poor, JOINT_SPREAD / 2 if tolerant else 0.0)

    shared = min(loads)
    values = {"G1": joint(shared), "F1": joint(shared)}
    ends = {"G1": ("feed", EARTH), "F1": ("feed", "bus")}
    for n, ohms in enumerate(loads, 1):
        at = "bus"
        for kind in "SWX":
            values[f"{kind}{n}"] = joint(ohms)
            ends[f"{kind}{n}"] = (at, f"{kind.lower()}{n}")
            at = f"{kind.lower()}{n}"
        values[f"L{n}"] = Values(ohms, 0.0, LOAD_SPREAD / 2 if tolerant else 0.0)
        ends[f"L{n}"] = (at, "return")
    values["E1"] = joint(shared)
    ends["E1"] = ("return", EARTH)
    return values, ends


def _built(values: dict[str, Values], ends: dict[str, tuple[str, str]]) -> Circuit:
    points = tuple(dict.fromkeys(p for pair in ends.values() for p in pair if p != EARTH))
    node_of = {point: n for n, point in enumerate(points)} | {EARTH: len(points)}
    shared = {EARTH: node_of[EARTH], SUPPLY: node_of["feed"]}
    elements = {
        part: Element(part, _kind(part), part, v, shared | _nodes(part, ends[part], node_of))
        for part, v in values.items()
    }
    elements[SWITCHES] = Element(SWITCHES, HAND, SWITCHES, Values(0.0), shared)
    loads = [part for part in values if part.startswith("L")]
    context = Context(12, 4.0)
    return Circuit(_sheet(loads), values, AS_DRAWN, points, node_of, elements, {}, {}, context)


def _kind(part: str) -> Kind:
    return {"G": FEED, "L": LOAD}.get(part[0], JOINT)


def _nodes(part: str, ends: tuple[str, str], node_of: dict[str, int]) -> dict[str, int]:
    if part == "G1":
        return {"+": node_of[ends[0]]}
    return {"1": node_of[ends[0]], "2": node_of[ends[1]]}


def _sheet(loads: list[str]) -> Sheet:
    """A sheet with what belief and choice ask for: loads, and one control that is switched on."""
    positions = [ControlPosition(id=name, name=name) for name in ("off", "on")]
    body: dict[str, Any] = {
        "id": "family",
        "title": "family",
        "vehicle": "drawn",
        "system_volts": 12,
        "working_amps": 4.0,
        "loads": loads,
        "controls": [SheetControl(part=SWITCHES, name=SWITCHES, positions=positions, off="off")],
        "parts": [],
        "connectors": [],
        "wires": [],
    }
    return Sheet.model_construct(format=1, summary="", **body)


def single_faults(circuit: Circuit) -> list[Fault]:
    """Both modes of every part."""
    return [
        Fault(e.id, mode.name, mode.factors[0] if mode.factors else 0.0)
        for e in circuit.elements.values()
        for mode in e.modes.values()
    ]


def fault_sets(circuit: Circuit, count: int) -> Iterator[tuple[Fault, ...]]:
    """Every set of so many faults at different parts."""
    for chosen in combinations(single_faults(circuit), count):
        if len({f.element for f in chosen}) == count:
            yield chosen
