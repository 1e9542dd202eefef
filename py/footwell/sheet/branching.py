"""A branch found on the vehicle: from a wire or a splice to a load, to a place on the sheet, or to an end
that leads nowhere.

What a load takes is not known: it is the usual of its kind, marked as assumed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from footwell.parts import KINDS
from footwell.parts.base import EARTH, Context
from footwell.parts.laws import Open
from footwell.sheet.loose_ends import free, refused
from footwell.sheet.models import Sheet, SheetPart, SheetWire
from footwell.sheet.points import joined, way_point, ways
from footwell.sheet.starter import USUAL, LoadKind, Usual
from footwell.sheet.values import values_of

BRANCHES: Mapping[str, LoadKind] = {
    "branch to a lamp": "lamp",
    "branch to a motor": "pump",
    "branch to a heater": "heater",
}
LETTERS = {"lamp": "L", "pump": "M", "heater": "H"}
NAMES = {"lamp": "lamp", "pump": "motor", "heater": "heater"}
POSTS = ("earth_point", "battery", "second_battery")
"""Kinds at which any number of wires may end."""
MOST_SPLICED = 12
MOST_LOADS = 12
CHARGED = 1.1
"""Voltage at work over the nominal one, as the starter sheets take it."""


def with_branch(sheet: Sheet, inside: str, kind: LoadKind, at: str, to: str = "") -> Sheet:
    """The sheet with a load on a branch of a wire, which gets a splice, or of a splice that is there. Its
    earth is the point `to`, or an earth point of its own. Raises ChangeError with a sentence."""
    if len(sheet.loads) >= MOST_LOADS:
        raise refused(inside, f"cannot have one more load: a sheet has at most {MOST_LOADS}")
    sheet, near = _leaving(sheet, inside)
    load, usual = _load(sheet, kind, at), USUAL[kind]
    grown = {"parts": [*sheet.parts, load], "loads": [*sheet.loads, load.id]}
    sheet = _wired(sheet.model_copy(update=grown), near, f"{load.id}.{usual.plus}")
    sheet, far = _meeting(sheet, to) if to else _own_earth(sheet)
    return _wired(sheet, f"{load.id}.{usual.minus}", far)


def with_plain_branch(sheet: Sheet, inside: str, to: str, at: str) -> Sheet:
    """The sheet with a branch to the point `to`, or to an end that leads nowhere and can be touched.
    Raises ChangeError with a sentence."""
    after, near = _leaving(sheet, inside)
    after, far = _meeting(after, to) if to else _open_end(after, at)
    after = _wired(after, near, far)
    if _is_shorted(after) and not _is_shorted(sheet):
        raise refused(
            inside,
            "would lead straight to earth, with no load between, and the fuse would blow. Choose where the "
            "branch really ends; a short is looked for as a fault",
        )
    return after


def _wired(sheet: Sheet, start: str, end: str) -> Sheet:
    wire = SheetWire(id=next(free(sheet, "W")), start=start, end=end)
    return sheet.model_copy(update={"wires": [*sheet.wires, wire]})


def _own_earth(sheet: Sheet) -> tuple[Sheet, str]:
    name = next(free(sheet, "E"))
    point = SheetPart(
        id=name, kind="earth_point", name=f"earth point {name}", minutes=2.0, probe=["1"]
    )
    return sheet.model_copy(update={"parts": [*sheet.parts, point]}), f"{name}.1"


def _open_end(sheet: Sheet, at: str) -> tuple[Sheet, str]:
    """A sleeve with one wire in it: where it turns out to lead on, it takes one branch more."""
    name = next(free(sheet, "SP"))
    end = SheetPart(
        id=name,
        kind="splice",
        name=f"open end {name}",
        at=at,
        values={"wires": 2},
        minutes=2.0,
        probe=["1"],
        spare=["2"],
    )
    return sheet.model_copy(update={"parts": [*sheet.parts, end]}), f"{name}.1"


def _leaving(sheet: Sheet, inside: str) -> tuple[Sheet, str]:
    """The sheet with one more terminal at a splice, or at one that is put into a wire, and its point."""
    sheet, splice = _spliced(sheet, inside)
    if splice.spare:
        terminal = splice.spare[0]
        used = splice.model_copy(update={"spare": splice.spare[1:]})
    else:
        terminal = str(splice.values.get("wires", 3) + 1)
        if int(terminal) > MOST_SPLICED:
            raise refused(splice.id, f"joins {MOST_SPLICED} wires already, which is all it can")
        used = splice.model_copy(update={"values": {**splice.values, "wires": int(terminal)}})
    parts = [used if each.id == splice.id else each for each in sheet.parts]
    return sheet.model_copy(update={"parts": parts}), f"{splice.id}.{terminal}"


def _meeting(sheet: Sheet, to: str) -> tuple[Sheet, str]:
    """Where a wire can end at a point: there, if any number may, else at a splice in the wire that is
    there already."""
    owner = next((each for each in sheet.parts if to.startswith(f"{each.id}.")), None)
    if owner is not None and owner.kind in POSTS:
        return sheet, to
    wires = [each for each in sheet.wires if to in (each.start, each.end)]
    if not wires:
        raise refused(to, "is no place with a wire on this sheet. Choose one from the list")
    return _leaving(sheet, wires[0].id)


def _is_shorted(sheet: Sheet) -> bool:
    """Whether supply and earth are one metal in some position."""
    same: dict[str, set[str]] = {}
    for one, other in _conductors(sheet):
        both = same.get(one, {one}) | same.get(other, {other})
        same |= dict.fromkeys(both, both)
    plus = next(f"{each.id}.+" for each in sheet.parts if each.kind == "battery")
    return EARTH in same.get(plus, ())


def _conductors(sheet: Sheet) -> Iterator[tuple[str, str]]:
    """Pairs of points that are one metal in some position, through fuses and switches too."""
    yield from ((each.start, each.end) for each in sheet.wires)
    for each in sheet.connectors:
        yield from (
            (way_point(each.id, way, "a"), way_point(each.id, way, "b")) for way in ways(each)
        )
    yield from joined(sheet.connectors).items()
    for part in sheet.parts:
        kind = KINDS[part.kind]
        if kind.metal or part.kind == "earth_point":
            context = Context(sheet.system_volts, sheet.working_amps)
            values, _ = values_of(part, context)
            for state in kind.states(values):
                for branch in kind.branches(values, state, context):
                    if not isinstance(branch.law, Open):
                        a, b = (
                            end if end == EARTH else f"{part.id}.{end}"
                            for end in (branch.a, branch.b)
                        )
                        yield a, b


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
