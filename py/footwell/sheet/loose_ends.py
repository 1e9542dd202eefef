"""What the changes of a sheet's wires share: the wire at a point, its other end, names still free."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

from footwell.sheet.errors import ChangeError
from footwell.sheet.models import Sheet, SheetWire
from footwell.sheet.places import short
from footwell.sheet.points import seen_point


def wire_at(sheet: Sheet, point: str) -> SheetWire:
    wires = [each for each in sheet.wires if point in (each.start, each.end)]
    if len(wires) != 1:
        seen = seen_point({each.id: each for each in sheet.connectors}, point)
        raise refused(seen, "has not exactly one wire")
    return wires[0]


def other(wire: SheetWire, point: str) -> str:
    return wire.end if wire.start == point else wire.start


def free(sheet: Sheet, letters: str) -> Iterator[str]:
    taken = {each.id for rows in (sheet.parts, sheet.connectors, sheet.wires) for each in rows}
    return (name for n in count(1) if (name := f"{letters}{n}") not in taken)


def refused(name: str, why: str) -> ChangeError:
    return ChangeError(name, "place", f"{short(name, 40)} {why}.")
