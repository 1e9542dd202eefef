"""Connectors of any number of ways, for tests of wiring: a supply, a lamp on every way, the body."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from functools import cache
from typing import Any

from footwell.circuit.circuit import Circuit, HalfId, arranged, build
from footwell.faults.miswiring import Wiring, as_drawn
from footwell.sheet.reading import read_data

HALF: HalfId = ("X1", "a")


def sheet_of(wires: int, empty: int = 0) -> dict[str, Any]:
    """A fused feed through way 1 to a splice, and a lamp with a wire of its own on each further way."""
    ways = [str(n + 1) for n in range(wires + empty)]
    lamps = [f"L{n}" for n in range(2, wires + 1)]
    parts: list[dict[str, Any]] = [
        {"id": "G1", "kind": "battery", "name": "battery", "probe": ["+", "-"]},
        {"id": "E0", "kind": "earth_point", "name": "battery earth", "probe": ["1"]},
        {"id": "F1", "kind": "fuse", "name": "fuse", "values": {"amps": 15}, "probe": ["1", "2"]},
        *({"id": x, "kind": "lamp", "name": f"lamp {x}", "values": {"watts": 5}} for x in lamps),
        *({"id": f"E{x}", "kind": "earth_point", "name": f"earth of {x}"} for x in lamps),
        {
            "id": "S1",
            "kind": "switch",
            "name": "switch",
            "values": {
                "terminals": ["B", *lamps],
                "closes": {"off": [], "on": [["B", x] for x in lamps]},
            },
        },
    ]
    joined = {"1": "S1.B"} | {x[1:]: f"S1.{x}" for x in lamps}
    wired = [
        {"id": "W0", "start": "G1.-", "end": "E0.1"},
        {"id": "W1", "start": "G1.+", "end": "F1.1"},
        {"id": "V1", "start": "F1.2", "end": "X1.1.a"},
        *({"id": f"V{x[1:]}", "start": f"X1.{x[1:]}.a", "end": f"{x}.1"} for x in lamps),
        *({"id": f"B{x[1:]}", "start": f"{x}.2", "end": f"E{x}.1"} for x in lamps),
    ]
    return {
        "format": 1,
        "id": "wiring",
        "title": "A plug",
        "vehicle": "Test",
        "system_volts": 12,
        "summary": "A plug with lamps.",
        "working_amps": 3,
        "loads": lamps,
        "parts": parts,
        "wires": [w | {"colour": "RD", "mm2": 1.5, "metres": 1} for w in wired],
        "connectors": [
            {
                "id": "X1",
                "name": "plug X1",
                "half_a": "wire side",
                "half_b": "switch",
                "rows": [ways],
                "part_ways": joined,
            }
        ],
        "controls": [
            {
                "part": "S1",
                "name": "switch",
                "off": "off",
                "positions": [{"id": "off", "name": "off"}, {"id": "on", "name": "on"}],
            }
        ],
    }


@cache
def plug(wires: int, empty: int = 0) -> Circuit:
    read = read_data(sheet_of(wires, empty))
    return build(read.sheet, read.values)


def wired(wires: int, empty: int, found: dict[str, str | None]) -> Circuit:
    """The plug's circuit with its half a as found."""
    drawn = plug(wires, empty)
    return build(drawn.sheet, drawn.values, arranged((), HALF, found))


def put_right(found: Wiring, steps: list[tuple[str, str | None, str | None]]) -> Wiring:
    """The half after the moves; a move from a way that holds something else, or into a full way, fails."""
    now = dict(found)
    for wire, start, end in steps:
        if start is not None:
            assert now[start] == wire
            now[start] = None
        if end is not None:
            assert now[end] is None
            now[end] = wire
    return now


State = frozenset[tuple[str, str]]


@cache
def distances(wires: int, empty: int) -> dict[State, int]:
    """Fewest moves from every seating of the wires to the drawing, by search backwards from it: a move
    takes a wire out, or puts it into a free way, and can be taken back."""
    drawn = as_drawn(plug(wires, empty), HALF)
    goal: State = frozenset((way, w) for way, w in drawn.items() if w)
    far, front = {goal: 0}, deque([goal])
    while front:
        state = front.popleft()
        for after in _neighbours(state, drawn):
            if after not in far:
                far[after] = far[state] + 1
                front.append(after)
    return far


def _neighbours(state: State, drawn: Wiring) -> Iterator[State]:
    for wire in (w for w in drawn.values() if w):
        rest = frozenset(pair for pair in state if pair[1] != wire)
        taken = {way for way, _ in rest}
        yield rest
        yield from (rest | {(way, wire)} for way in drawn if way not in taken)
