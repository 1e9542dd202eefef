"""A branch found on the vehicle: from a wire or a splice to a load of its own, which has its own earth.

What the load takes is not known: it is the usual of its kind, marked as assumed.
"""

from __future__ import annotations

from collections.abc import Mapping

from footwell.sheet.loose_ends import free, refused
from footwell.sheet.models import Sheet, SheetPart, SheetWire
from footwell.sheet.starter import USUAL, LoadKind, Usual

BRANCHES: Mapping[str, LoadKind] = {
    "branch to a lamp": "lamp",
    "branch to a motor": "pump",
    "branch to a heater": "heater",
}
LETTERS = {"lamp": "L", "pump": "M", "heater": "H"}
NAMES = {"lamp": "lamp", "pump": "motor", "heater": "heater"}
MOST_SPLICED = 12
MOST_LOADS = 12
CHARGED = 1.1
"""Voltage at work over the nominal one, as the starter sheets take it."""


def with_branch(sheet: Sheet, inside: str, kind: LoadKind, at: str) -> Sheet:
    """The sheet with a load on a branch of a wire, which gets a splice, or of a splice that is there.
    Raises ChangeError with a sentence."""
    if len(sheet.loads) >= MOST_LOADS:
        raise refused(inside, f"cannot have one more load: a sheet has at most {MOST_LOADS}")
    sheet, splice = _spliced(sheet, inside)
    terminal = splice.values.get("wires", 3) + 1
    if terminal > MOST_SPLICED:
        raise refused(splice.id, f"joins {MOST_SPLICED} wires already, which is all it can")
    grown = splice.model_copy(update={"values": {**splice.values, "wires": terminal}})
    load, earth = _load(sheet, kind, at), next(free(sheet, "E"))
    point = SheetPart(
        id=earth, kind="earth_point", name=f"earth point {earth}", minutes=2.0, probe=["1"]
    )
    names, usual = free(sheet, "W"), USUAL[kind]
    wires = [
        SheetWire(id=next(names), start=f"{splice.id}.{terminal}", end=f"{load.id}.{usual.plus}"),
        SheetWire(id=next(names), start=f"{load.id}.{usual.minus}", end=f"{earth}.1"),
    ]
    parts = [*(grown if each.id == splice.id else each for each in sheet.parts), load, point]
    return sheet.model_copy(
        update={
            "parts": parts,
            "wires": [*sheet.wires, *wires],
            "loads": [*sheet.loads, load.id],
        }
    )


def _spliced(sheet: Sheet, inside: str) -> tuple[Sheet, SheetPart]:
    """The splice itself, or one that is put into a wire."""
    splice = next((each for each in sheet.parts if each.id == inside), None)
    if splice is not None and splice.kind == "splice":
        return sheet, splice
    wire = next((each for each in sheet.wires if each.id == inside), None)
    if wire is None:
        raise refused(inside, "is no wire and no splice of this sheet")
    name = next(free(sheet, "SP"))
    splice = SheetPart(id=name, kind="splice", name=f"splice {name}", values={"wires": 2})
    metres = None if wire.metres is None else wire.metres / 2
    first = wire.model_copy(update={"end": f"{name}.1", "metres": metres})
    second = wire.model_copy(
        update={"id": next(free(sheet, "W")), "start": f"{name}.2", "metres": metres}
    )
    rows = [x for old in sheet.wires for x in ([first, second] if old.id == inside else [old])]
    return sheet.model_copy(update={"parts": [*sheet.parts, splice], "wires": rows}), splice


def _load(sheet: Sheet, kind: LoadKind, at: str) -> SheetPart:
    usual: Usual = USUAL[kind]
    name = next(free(sheet, LETTERS[kind]))
    rated = {"amps": round(usual.watts / (sheet.system_volts * CHARGED), 1), "watts": usual.watts}
    values = {usual.rated: rated[usual.rated]} | dict(usual.values)
    return SheetPart.model_validate(
        {
            "id": name,
            "kind": usual.kind,
            "name": f"{NAMES[kind]} {name}",
            "at": at,
            "values": values,
            "assumed": sorted(values),
            "probe": [usual.plus, usual.minus],
            "hazards": list(usual.hazards),
        }
    )
