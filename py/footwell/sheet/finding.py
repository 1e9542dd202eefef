"""A place found on the vehicle, put into the sheet: inside a wire, or inside an unknown stretch.

What was there before keeps its points, but for the ends of an unknown stretch, which nobody can touch:
so readings taken before stay where they were taken.
"""

from __future__ import annotations

from typing import Literal

from footwell.parts.unknown_stretch import KIND as STRETCH
from footwell.sheet.branching import BRANCHES, with_branch, with_plain_branch
from footwell.sheet.finding_relay import with_relay
from footwell.sheet.loose_ends import free, other, refused, wire_at
from footwell.sheet.models import Sheet, SheetConnector, SheetPart, SheetWire
from footwell.sheet.passing import through_plug

Found = Literal[
    "plug",
    "fuse",
    "splice",
    "relay",
    "earth point",
    "plain wire",
    "way of a plug",
    "branch to a lamp",
    "branch to a motor",
    "branch to a heater",
    "branch",
]

BODY = "earth"


def with_place(
    sheet: Sheet, inside: str, what: Found, at: str = "", plug: str = "", to: str = ""
) -> Sheet:
    """The sheet with a plug, fuse, splice or earth point inside a wire or an unknown stretch, of which
    half then lies on each side; or with a plain wire in place of a stretch seen from end to end. A wire
    can also go through a `plug` that is there, or have a branch: to a load, which is earthed at the point
    `to` or has an earth point of its own, or to the point `to` itself; a plain one without it ends open.

    Raises ChangeError with a sentence where that cannot be.
    """
    if what == "branch":
        return with_plain_branch(sheet, inside, to, at)
    if what in BRANCHES:
        return with_branch(sheet, inside, BRANCHES[what], at, to)
    wire = next((each for each in sheet.wires if each.id == inside), None)
    if wire is not None:
        return through_plug(sheet, wire, plug) if plug else _in_wire(sheet, wire, what, at)
    part = next((each for each in sheet.parts if each.id == inside), None)
    if part is None or part.kind != STRETCH.name:
        raise refused(inside, "is no wire and no unknown stretch of this sheet")
    if what == "plain wire":
        return _as_wire(sheet, part)
    if what == "relay":
        return with_relay(sheet, part, at)
    if what == "way of a plug":
        raise refused(inside, "is no wire that was seen, so it is not known to go through a plug")
    return _in_stretch(sheet, part, what, at)


def _in_wire(sheet: Sheet, wire: SheetWire, what: Found, at: str) -> Sheet:
    if what == "plain wire":
        raise refused(wire.id, "is a wire already")
    if what == "way of a plug":
        raise refused(wire.id, "goes through a plug: say which")
    if what == "relay":
        raise refused(wire.id, "is seen from end to end, so no relay can sit in it")
    metres = None if wire.metres is None else wire.metres / 2
    sheet, ends = _placed(sheet, what, at, wire.end)
    first = wire.model_copy(update={"end": ends[0], "metres": metres})
    second = first.model_copy(
        update={"id": next(free(sheet, "W")), "start": ends[-1], "end": wire.end}
    )
    both = [first] if len(ends) == 1 else [first, second]
    rows = [each for old in sheet.wires for each in (both if old.id == wire.id else [old])]
    return sheet.model_copy(update={"wires": rows})


def _in_stretch(sheet: Sheet, part: SheetPart, what: Found, at: str) -> Sheet:
    """The first half keeps the stretch's name. An earth point ends the stretch: nothing follows."""
    far = wire_at(sheet, f"{part.id}.2")
    sheet, ends = _placed(sheet, what, at, other(far, f"{part.id}.2"))
    if len(ends) == 1:
        return _rewired(sheet, far.id, SheetWire(id=far.id, start=f"{part.id}.2", end=ends[0]))
    half = part.values.get("share", 1.0) / 2
    first = part.model_copy(update={"values": {**part.values, "share": half}})
    second = first.model_copy(update={"id": next(free(sheet, "U"))})
    parts = [each for old in sheet.parts for each in ([first, second] if old is part else [old])]
    ids = free(sheet, "W")
    moved = {f"{part.id}.2": f"{second.id}.2"}
    wires = [
        each.model_copy(
            update={
                "start": moved.get(each.start, each.start),
                "end": moved.get(each.end, each.end),
            }
        )
        for each in sheet.wires
    ]
    wires += [
        SheetWire(id=next(ids), start=f"{part.id}.2", end=ends[0]),
        SheetWire(id=next(ids), start=ends[1], end=f"{second.id}.1"),
    ]
    return sheet.model_copy(update={"parts": parts, "wires": wires})


def _as_wire(sheet: Sheet, part: SheetPart) -> Sheet:
    near, far = wire_at(sheet, f"{part.id}.1"), wire_at(sheet, f"{part.id}.2")
    start, end = other(near, f"{part.id}.1"), other(far, f"{part.id}.2")
    whole = near.model_copy(update={"start": start, "end": end})
    wires = [whole if each.id == near.id else each for each in sheet.wires if each.id != far.id]
    parts = [each for each in sheet.parts if each.id != part.id]
    return sheet.model_copy(update={"parts": parts, "wires": wires})


def _placed(sheet: Sheet, what: Found, at: str, beyond: str) -> tuple[Sheet, tuple[str, ...]]:
    """The sheet with the thing itself, and its points: the one that comes first along the wire, and
    the one behind, which an earth point has not."""
    if what == "plug":
        name = next(free(sheet, "X"))
        plug = SheetConnector(
            id=name,
            name=f"plug {name}",
            half_a="near side",
            half_b="far side",
            rows=[["1"]],
            at=at,
        )
        plugs = [*sheet.connectors, plug]
        return sheet.model_copy(update={"connectors": plugs}), (f"{name}.1.a", f"{name}.1.b")
    if what == "earth point" and beyond != BODY:
        raise refused(beyond, "is where this leads, not the body: it has no earth point")
    part = _part(sheet, what, at)
    ends = ("1",) if what == "earth point" else ("1", "2")
    return (
        sheet.model_copy(update={"parts": [*sheet.parts, part]}),
        tuple(f"{part.id}.{end}" for end in ends),
    )


def _part(sheet: Sheet, what: Found, at: str) -> SheetPart:
    letters = {"fuse": "F", "splice": "SP", "earth point": "E"}[what]
    name = next(free(sheet, letters))
    given = {"values": {"wires": 2}} if what == "splice" else {"minutes": 2.0}
    bare = {"fuse": ["1", "2"], "splice": [], "earth point": ["1"]}[what]
    return SheetPart.model_validate(
        {
            "id": name,
            "kind": what.replace(" ", "_"),
            "name": f"{what} {name}",
            "at": at,
            "probe": bare,
            **given,
        }
    )


def _rewired(sheet: Sheet, name: str, wire: SheetWire) -> Sheet:
    rows = [wire if each.id == name else each for each in sheet.wires]
    return sheet.model_copy(update={"wires": rows})
