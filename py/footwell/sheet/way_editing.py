"""The ways of a connector as they are on the vehicle: other numbers beside them, more ways, fewer.

A way keeps its name for good; what people see beside it is its number. Only an empty way can go.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from itertools import count

from footwell.sheet.errors import ChangeError
from footwell.sheet.models import WAY_NAME, Sheet, SheetConnector
from footwell.sheet.places import short
from footwell.sheet.points import HALVES, bundles, number, ways

MOST_WAYS_A_ROW = 24
Value = str | float | bool | None


def with_ways_changed(sheet: Sheet, element: str, field: str, value: Value) -> Sheet:
    """The sheet after one of `WAY_FIELDS` changed: the "number" of a way ("X2.3"), or how many ways the
    "row 1" of a connector has. Raises ChangeError with a sentence."""
    name, _, way = element.partition(".")
    plug = next((each for each in sheet.connectors if each.id == name), None)
    if plug is None:
        raise ChangeError(element, field, f"{short(name, 40)} is no connector on this sheet.")
    changed = WAY_FIELDS[field](sheet, plug, way, field, value)
    rows = [changed if each is plug else each for each in sheet.connectors]
    return sheet.model_copy(update={"connectors": rows})


def _renumbered(
    sheet: Sheet, plug: SheetConnector, way: str, field: str, value: Value
) -> SheetConnector:
    """A number that another way has is taken from it; that one gets this way's."""
    if way not in ways(plug):
        known = ", ".join(number(plug, each) for each in ways(plug))
        said = f"{plug.id} has no way {short(way, 8)}; its ways are {known}."
        raise ChangeError(f"{plug.id}.{way}", field, said)
    text = str(value).strip() if value is not None else way
    if not re.fullmatch(WAY_NAME, text):
        said = f'"{short(text, 12)}" cannot be a number of a way: write up to 8 letters or digits.'
        raise ChangeError(f"{plug.id}.{way}", field, said)
    seen = {each: number(plug, each) for each in ways(plug)}
    for other in [each for each, there in seen.items() if there == text and each != way]:
        seen[other] = seen[way]
    seen[way] = text
    told = {each: there for each, there in seen.items() if there != each}
    return plug.model_copy(update={"numbers": told})


def _resized(
    sheet: Sheet, plug: SheetConnector, way: str, field: str, value: Value
) -> SheetConnector:
    """New ways follow at the end of the row; only empty ways at its end can go."""
    at = int(field.removeprefix("row ")) - 1
    if at >= len(plug.rows):
        raise _refused(plug, field, f"has {len(plug.rows)} rows, and no {field}")
    if plug.spots:
        raise _refused(plug, field, "has a face of its own layout. Change it in the sheet's file")
    if isinstance(value, bool) or not isinstance(value, int | float) or value != int(value):
        raise _refused(plug, field, "needs a number of ways")
    wanted, row = int(value), list(plug.rows[at])
    if not 1 <= wanted <= MOST_WAYS_A_ROW:
        raise _refused(plug, field, f"can have 1 to {MOST_WAYS_A_ROW} ways in a row")
    used = _used(sheet, plug)
    for gone in row[wanted:]:
        if gone in used:
            raise _refused(
                plug,
                field,
                f"has a wire or a terminal in way {number(plug, gone)}, so that way stays",
            )
    taken = {*ways(plug), *plug.numbers.values()}
    fresh = (name for n in count(1) if (name := str(n)) not in taken)
    row = row[:wanted] + [next(fresh) for _ in range(wanted - len(row))]
    rows = [row if n == at else list(each) for n, each in enumerate(plug.rows)]
    left = {each for kept in rows for each in kept}
    changed: dict[str, object] = {"rows": rows}
    if plug.numbers:
        changed["numbers"] = {each: there for each, there in plug.numbers.items() if each in left}
    return plug.model_copy(update=changed)


def _used(sheet: Sheet, plug: SheetConnector) -> set[str]:
    """Ways in which something is."""
    wired = [way for half in HALVES for way in bundles(sheet, (plug.id, half))]
    return {*wired, *plug.part_ways, *plug.spare}


def _refused(plug: SheetConnector, field: str, why: str) -> ChangeError:
    return ChangeError(plug.id, field, f"{plug.id} {why}.")


WAY_FIELDS: Mapping[str, Callable[[Sheet, SheetConnector, str, str, Value], SheetConnector]] = {
    "number": _renumbered,
    **{f"row {n + 1}": _resized for n in range(6)},
}
