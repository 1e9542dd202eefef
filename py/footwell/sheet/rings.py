"""Rings of wires and plugs: current can go round in them past every load, and a break in one does not show.

That may be so on purpose, as where two wires share a current; so it is told and not refused.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator

from footwell.parts.base import EARTH
from footwell.sheet.models import Sheet
from footwell.sheet.points import HALVES, bundles, way_point, ways

MOST_TOLD = 3
Joint = tuple[str, str, str]
"""Two points and the wire, plug or splice that joins them."""


def rings(sheet: Sheet) -> list[str]:
    """A sentence for each ring, the first few."""
    beside: dict[str, list[tuple[str, str]]] = {}
    told: list[str] = []
    for one, other, name in _joints(sheet):
        way = _way(beside, one, other)
        if way is not None and len(told) < MOST_TOLD:
            told.append(_sentence(sheet, [*way, name]))
        beside.setdefault(one, []).append((other, name))
        beside.setdefault(other, []).append((one, name))
    return told


def _joints(sheet: Sheet) -> Iterator[Joint]:
    """All that is one metal without the body, which every earth point is joined to."""
    posts = {p.id for p in sheet.parts if p.kind in ("earth_point", "battery", "second_battery")}
    for connector in sheet.connectors:
        filled = [bundles(sheet, (connector.id, half)) for half in HALVES]
        for way in ways(connector):
            if all(way in each for each in filled):
                a, b = (way_point(connector.id, way, half) for half in HALVES)
                yield a, b, connector.id
    for part in sheet.parts:
        if part.kind == "splice":
            ends = [f"{part.id}.{n + 1}" for n in range(int(part.values.get("wires", 3)))]
            yield from ((ends[0], end, part.id) for end in ends[1:])
    for wire in sheet.wires:
        if not {EARTH, *posts} & {end.partition(".")[0] for end in (wire.start, wire.end)}:
            yield wire.start, wire.end, wire.id


def _way(beside: dict[str, list[tuple[str, str]]], start: str, end: str) -> list[str] | None:
    """What leads from one point to another, by name; None where nothing does."""
    came: dict[str, tuple[str, str]] = {start: ("", "")}
    left = deque([start])
    while left and end not in came:
        here = left.popleft()
        for after, name in beside.get(here, ()):
            if after not in came:
                came[after] = (here, name)
                left.append(after)
    if end not in came:
        return None
    names: list[str] = []
    while end != start:
        end, name = came[end]
        names.append(name)
    return names[::-1]


def _sentence(sheet: Sheet, names: list[str]) -> str:
    once = list(dict.fromkeys(names))
    if all(name in {wire.id for wire in sheet.wires} for name in once):
        return f"{' and '.join(once)} join the same points: with one of them broken the other carries all."
    return (
        f"{', '.join(once)} form a ring: current can go round in it past every load, and a break in it does "
        "not show. Right where it is so on the vehicle; else one of these ends somewhere else."
    )
