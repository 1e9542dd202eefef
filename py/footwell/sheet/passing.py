"""A wire that goes through a plug which is on the sheet already, by its next free way."""

from __future__ import annotations

from footwell.parts.base import EARTH
from footwell.sheet.loose_ends import free, refused
from footwell.sheet.models import Sheet, SheetConnector, SheetWire
from footwell.sheet.points import HALVES, bundles, way_point, ways
from footwell.sheet.way_editing import with_ways_changed


def through_plug(sheet: Sheet, wire: SheetWire, name: str) -> Sheet:
    """The sheet with a wire cut in two by a plug's next free way; a plug without one gets one more.

    The half on the side of what the wire begins at is the one whose other wires lead there, else half a.
    Raises ChangeError with a sentence.
    """
    plug = next((each for each in sheet.connectors if each.id == name), None)
    if plug is None:
        raise refused(name, "is no plug on this sheet")
    if plug.part_ways:
        raise refused(name, "sits on a part; no wire goes through it")
    if any(end.startswith(f"{name}.") for end in (wire.start, wire.end)):
        raise refused(wire.id, f"ends in {name} already")
    near, far = HALVES if _begins_at_a(sheet, plug, wire) else HALVES[::-1]
    sheet, way = _free_way(sheet, plug)
    metres = None if wire.metres is None else wire.metres / 2
    first = wire.model_copy(update={"end": way_point(name, way, near), "metres": metres})
    second = wire.model_copy(
        update={"id": next(free(sheet, "W")), "start": way_point(name, way, far), "metres": metres}
    )
    rows = [x for old in sheet.wires for x in ([first, second] if old.id == wire.id else [old])]
    return sheet.model_copy(update={"wires": rows})


def _free_way(sheet: Sheet, plug: SheetConnector) -> tuple[Sheet, str]:
    used = {way for half in HALVES for way in bundles(sheet, (plug.id, half))}
    way = next((way for way in ways(plug) if way not in used | set(plug.spare)), None)
    if way is not None:
        return sheet, way
    row = f"row {len(plug.rows)}"
    sheet = with_ways_changed(sheet, plug.id, row, len(plug.rows[-1]) + 1)
    larger = next(each for each in sheet.connectors if each.id == plug.id)
    return sheet, larger.rows[-1][-1]


def _begins_at_a(sheet: Sheet, plug: SheetConnector, wire: SheetWire) -> bool:
    beyond = {half: _beyond(sheet, plug, half) for half in HALVES}
    start, end = (point.partition(".")[0] for point in (wire.start, wire.end))
    for half in HALVES:
        if start != EARTH and start in beyond[half]:
            return half == "a"
        if end != EARTH and end in beyond[half]:
            return half == "b"
    return True


def _beyond(sheet: Sheet, plug: SheetConnector, half: str) -> set[str]:
    """Parts and connectors at the other ends of the wires in a half."""
    mine, found = f".{half}", set()
    for wire in sheet.wires:
        for here, there in ((wire.start, wire.end), (wire.end, wire.start)):
            if here.startswith(f"{plug.id}.") and here.endswith(mine):
                found.add(there.partition(".")[0])
    return found
