"""Circuits of branches, of any size: supply, fuses, buses, branches (switch, wire, connector, load), one
shared earth.

Two branches are 11 parts and 9 nets, five 23 and 18; `LARGE` has 60 and 40, and `BENT` the same with
lamps, motors and diodes among the loads. Values are drawn by a seed. `sheet_of` is a sheet as people write
it, where short joints lead from part to part; `circuit_of` is the circuit with these joints taken for one
net, so that no more parts and nets are left than were counted; each part fails in three modes.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from pydantic import TypeAdapter

from footwell.circuit.circuit import Circuit, build
from footwell.circuit.fault import Fault
from footwell.parts import KINDS
from footwell.parts.base import EARTH, Mode
from footwell.sheet.models import Sheet, SheetConnector, SheetPart, SheetWire

HIGH_OHMS = 5.0
MODES = (
    Mode("open", 1.0, "open"),
    Mode("high_resistance", 1.0, "a poor joint", factors=(HIGH_OHMS,)),
    Mode("short", 1.0, "shorted"),
)

MOST_CONTROLS, MOST_LOADS = 8, 12
"""As many as a sheet may have; further branches have a fuse in place of the switch, and further loads are
not among those that a customer complains of."""

JOINT = "J"
"""Wires whose names begin so are joints: not counted among the parts."""


@dataclass(frozen=True, slots=True)
class Shape:
    """`doubled` branches have a second load beside the first. Lamps and motors are first loads, diodes
    second ones, from the first branch on; all others are heaters."""

    branches: int
    fuses: int = 1
    doubled: int = 0
    lamps: int = 0
    motors: int = 0
    diodes: int = 0

    @property
    def parts(self) -> int:
        return 4 * self.branches + self.doubled + self.fuses + 2

    @property
    def nets(self) -> int:
        return 3 * self.branches + self.fuses + 2


SMALL, MIDDLE = Shape(2), Shape(5)
LARGE = Shape(12, fuses=2, doubled=8)
BENT = replace(LARGE, lamps=6, motors=2, diodes=4)


def grown(parts: int) -> Shape:
    """The large shape with about so many parts."""
    branches = max(round(parts / 5), 2)
    return Shape(branches, max(branches // 6, 1), 2 * branches // 3)


Data = dict[str, Any]


def sheet_of(shape: Shape, seed: int) -> Data:
    """A sheet of the shape, as plain data that reading accepts up to the limits of a sheet."""
    chance = random.Random(seed)
    branches = range(1, shape.branches + 1)
    firsts = [_first(shape, n, chance) for n in branches]
    seconds = [_second(shape, n, chance) for n in range(1, shape.doubled + 1)]
    switches = [_switch(n) for n in branches]
    fuses = [_part(f"F{n}", "fuse", amps=30) for n in range(1, shape.fuses + 1)]
    ends = [_part("G1", "battery", volts=12.6), _part("E1", "earth_point")]
    return {
        "format": 1,
        "id": "branches",
        "title": f"{shape.branches} branches, {shape.parts} parts",
        "vehicle": "any",
        "system_volts": 12,
        "summary": f"Drawn by seed {seed}.",
        "working_amps": 10,
        "loads": [load["id"] for load in firsts[:MOST_LOADS]],
        "controls": [_control(part["id"]) for part in switches[:MOST_CONTROLS]],
        "parts": [*ends, *fuses, *switches, *firsts, *seconds],
        "connectors": [_connector(n, firsts[n - 1]) for n in branches],
        "wires": [*(_wire(n, chance) for n in branches), *_joints(shape, firsts, seconds)],
    }


def _part(name: str, kind: str, **values: Any) -> Data:
    terminals = KINDS[kind].terminals(_values(kind, values))
    return {
        "id": name,
        "kind": kind,
        "name": f"part {name}",
        "values": values,
        "minutes": 2,
        "probe": list(terminals),
    }


def _values(kind: str, values: Data) -> Any:
    return TypeAdapter(KINDS[kind].values).validate_python(values)


def _switch(n: int) -> Data:
    if n > MOST_CONTROLS:
        return _part(f"S{n}", "fuse", amps=20)
    closes = {"off": [], "on": [["1", "2"]]}
    return _part(f"S{n}", "switch", terminals=["1", "2"], closes=closes, rating_amps=20)


def _control(part: str) -> Data:
    positions = [{"id": p, "name": p} for p in ("off", "on")]
    return {"part": part, "name": part, "off": "off", "positions": positions}


def _first(shape: Shape, n: int, chance: random.Random) -> Data:
    if n <= shape.lamps:
        return _part(f"L{n}", "lamp", watts=chance.choice((5.0, 10.0, 21.0, 55.0)))
    if n <= shape.lamps + shape.motors:
        return _part(f"L{n}", "motor", amps=round(chance.uniform(2.0, 10.0), 1))
    return _part(f"L{n}", "heater", watts=round(chance.uniform(5.0, 60.0), 1))


def _second(shape: Shape, n: int, chance: random.Random) -> Data:
    if n <= shape.diodes:
        return _part(f"D{n}", "diode")
    return _part(f"D{n}", "heater", watts=round(chance.uniform(5.0, 60.0), 1))


def _connector(n: int, load: Data) -> Data:
    return {
        "id": f"X{n}",
        "name": f"plug X{n}",
        "half_a": "wire side",
        "half_b": "load",
        "rows": [["1"]],
        "part_ways": {"1": f"L{n}.{load['probe'][0]}"},
        "terminal_mm": 2.8,
    }


def _wire(n: int, chance: random.Random) -> Data:
    section, metres = chance.choice((0.75, 1.5, 2.5)), round(chance.uniform(0.5, 5.0), 1)
    return {"id": f"W{n}", "start": f"S{n}.2", "end": f"X{n}.1.a", "mm2": section, "metres": metres}


def _joints(shape: Shape, firsts: Sequence[Data], seconds: Sequence[Data]) -> list[Data]:
    pairs = [("G1.-", EARTH)]
    pairs += [("G1.+", f"F{n}.1") for n in range(1, shape.fuses + 1)]
    pairs += [(f"F{n % shape.fuses + 1}.2", f"S{n + 1}.1") for n in range(shape.branches)]
    pairs += [("E1.1", f"{load['id']}.{load['probe'][1]}") for load in firsts]
    for load, second in zip(firsts, seconds, strict=False):
        # A diode lies the other way round, across the load for what its coil gives back.
        feed, earth = second["probe"][:: -1 if second["kind"] == "diode" else 1]
        pairs.append((f"{load['id']}.{load['probe'][0]}", f"{second['id']}.{feed}"))
        pairs.append((f"{load['id']}.{load['probe'][1]}", f"{second['id']}.{earth}"))
    return [
        {"id": f"{JOINT}{n}", "start": a, "end": b, "mm2": 6.0, "metres": 0.1}
        for n, (a, b) in enumerate(pairs, 1)
    ]


def drawn_of(shape: Shape, seed: int) -> Circuit:
    """The circuit of the shape as its sheet has it, joints and all."""
    data = sheet_of(shape, seed)
    return build(
        _validated(data), {p["id"]: _values(p["kind"], p["values"]) for p in data["parts"]}
    )


def circuit_of(shape: Shape, seed: int) -> Circuit:
    """The circuit of the shape, with its parts and nets alone."""
    circuit = _joined(drawn_of(shape, seed))
    elements = {
        name: replace(e, kind=replace(e.kind, modes=lambda _: MODES))
        for name, e in circuit.elements.items()
    }
    return replace(circuit, elements=elements)


def _validated(data: Data) -> Sheet:
    """The sheet, its lists item by item: a large circuit is larger than a sheet may be."""
    items = {"parts": SheetPart, "connectors": SheetConnector, "wires": SheetWire}
    head = Sheet.model_validate(data | {name: [] for name in items})
    lists = {name: [kind.model_validate(x) for x in data[name]] for name, kind in items.items()}
    return head.model_copy(update=lists)


def _joined(circuit: Circuit) -> Circuit:
    """The circuit with the two ends of every joint in one node, and no joints."""
    joints = [e for e in circuit.elements.values() if e.id.startswith(JOINT)]
    root = list(range(circuit.earth + 1))
    for joint in joints:
        low, high = sorted((root[joint.nodes["1"]], root[joint.nodes["2"]]))
        # Earth is the highest number, and stays a name for itself.
        gone, stays = (low, high) if high == circuit.earth else (high, low)
        root = [stays if n == gone else n for n in root]
    left = sorted(set(root))
    number = {n: left.index(root[n]) for n in range(circuit.earth + 1)}
    elements = {
        e.id: replace(e, nodes={t: number[n] for t, n in e.nodes.items()})
        for e in circuit.elements.values()
        if e not in joints
    }
    wires = [w for w in circuit.sheet.wires if not w.id.startswith(JOINT)]
    return replace(
        circuit,
        sheet=circuit.sheet.model_copy(update={"wires": wires}),
        points=tuple(circuit.points[n] for n in left[:-1]),
        node_of={point: number[n] for point, n in circuit.node_of.items()},
        elements=elements,
        cache={},
    )


def faults_of(circuit: Circuit) -> Iterator[Fault]:
    """Every mode of every part, in the order of the parts."""
    for element in circuit.elements.values():
        for mode in element.modes.values():
            for size in mode.factors or (0.0,):
                yield Fault(element.id, mode.name, size)
