"""A relay found inside an unknown stretch, with the unseen wires that it must have.

Behind the control the stretch leads to the coil, and the contact has a feed of its own. Elsewhere the
contact lies in the stretch, and the coil is taken to be fed all the time (assumption).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from footwell.parts.base import EARTH
from footwell.sheet.loose_ends import free, other, wire_at
from footwell.sheet.models import Sheet, SheetConnector, SheetPart, SheetWire
from footwell.sheet.points import HALVES, way_point, ways

TERMINALS = ("30", "87", "86", "85")


def with_relay(sheet: Sheet, stretch: SheetPart, at: str) -> Sheet:
    """The sheet with a relay and its socket in a stretch, of which half then leads to the relay."""
    near = other(wire_at(sheet, f"{stretch.id}.1"), f"{stretch.id}.1")
    far_wire = wire_at(sheet, f"{stretch.id}.2")
    far = other(far_wire, f"{stretch.id}.2")
    supply = next(f"{part.id}.+" for part in sheet.parts if part.kind == "battery")
    relay, socket = next(free(sheet, "K")), next(free(sheet, "X"))
    worked = far != EARTH and near not in _fed(sheet, supply)
    half = {"share": stretch.values.get("share", 1.0) / 2}
    first, last = ("86", "87") if worked else ("30", "87")
    needs = [(f"{socket}.{last}.a", far, "unseen way onward", half)]
    needs += [
        (supply, f"{socket}.{end}.a", "unseen feed of the relay", {})
        for end in ("30", "86")
        if end != first
    ]
    needs += [(f"{socket}.85.a", EARTH, "unseen earth of the coil", {})]
    stretches, wires = free(sheet, "U"), free(sheet, "W")
    parts = [
        SheetPart(id=next(stretches), kind=stretch.kind, name=name, values=values)
        for _, _, name, values in needs
    ]
    joints = [SheetWire(id=far_wire.id, start=f"{stretch.id}.2", end=f"{socket}.{first}.a")]
    for part, (start, end, _, _) in zip(parts, needs, strict=True):
        joints.append(SheetWire(id=next(wires), start=start, end=f"{part.id}.1"))
        joints.append(SheetWire(id=next(wires), start=f"{part.id}.2", end=end))
    kept = [
        part.model_copy(update={"values": {**part.values, **half}}) if part is stretch else part
        for part in sheet.parts
    ]
    return sheet.model_copy(
        update={
            "parts": [
                *kept,
                SheetPart(id=relay, kind="relay", name=f"relay {relay}", at=at),
                *parts,
            ],
            "connectors": [*sheet.connectors, _socket(socket, relay, at)],
            "wires": [*(each for each in sheet.wires if each.id != far_wire.id), *joints],
        }
    )


def _socket(name: str, relay: str, at: str) -> SheetConnector:
    return SheetConnector(
        id=name,
        name=f"socket of relay {relay}",
        half_a="wire side",
        half_b="relay",
        rows=[list(TERMINALS)],
        part_ways={end: f"{relay}.{end}" for end in TERMINALS},
        at=at,
    )


def _fed(sheet: Sheet, supply: str) -> set[str]:
    """Points that the supply reaches whatever the controls are set to, without passing a load."""
    fed, before = {supply}, 0
    pairs = list(_joints(sheet))
    while len(fed) > before:
        before = len(fed)
        fed |= {end for pair in pairs if fed & set(pair) for end in pair}
    return fed


def _joints(sheet: Sheet) -> Iterator[tuple[str, str]]:
    closed = {*sheet.loads, *(each.part for each in sheet.controls)}
    yield from (
        (each.start, each.end) for each in sheet.wires if EARTH not in (each.start, each.end)
    )
    for each in sheet.connectors:
        for way in ways(each):
            a, b = (way_point(each.id, way, half) for half in HALVES)
            yield a, b
            if way in each.part_ways:
                yield b, each.part_ways[way]
    for part in sheet.parts:
        if part.kind in ("fuse", "splice", "unknown_stretch") and part.id not in closed:
            ends = [
                str(n + 1)
                for n in range(part.values.get("wires", 3) if part.kind == "splice" else 2)
            ]
            yield from combinations([f"{part.id}.{end}" for end in ends], 2)
