"""A sheet corrected by where a wire was found to run."""

from __future__ import annotations

from collections.abc import Collection

from footwell.sheet.models import Sheet, SheetConnector, SheetPart
from footwell.sheet.points import HALVES, way_point, ways
from footwell.sheet.wiring_list import ListedWire, with_wires


def with_run(sheet: Sheet, wire: str, start: str, end: str) -> Sheet:
    """The sheet with a wire between two points. A terminal or way that it leaves empty is spare from then on.

    The sheet is still to be read again, which finds what does not fit.
    """
    moved = with_wires(sheet, [ListedWire(wire, start, end)])
    drawn = next(each for each in sheet.wires if each.id == wire)
    held = {point for each in moved.wires for point in (each.start, each.end)}
    held |= {point for plug in moved.connectors for point in plug.part_ways.values()}
    left = {drawn.start, drawn.end} - held
    return moved.model_copy(
        update={
            "parts": [_part(part, left) for part in moved.parts],
            "connectors": [_plug(plug, left) for plug in moved.connectors],
        }
    )


def _part(part: SheetPart, left: Collection[str]) -> SheetPart:
    owned = (point.partition(".") for point in sorted(left))
    empty = [terminal for owner, _, terminal in owned if owner == part.id]
    return part.model_copy(update={"spare": [*part.spare, *empty]}) if empty else part


def _plug(plug: SheetConnector, left: Collection[str]) -> SheetConnector:
    empty = [
        way
        for way in ways(plug)
        if way not in plug.spare and any(way_point(plug.id, way, half) in left for half in HALVES)
    ]
    return plug.model_copy(update={"spare": [*plug.spare, *empty]}) if empty else plug
