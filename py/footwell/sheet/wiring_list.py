"""A sheet's wires as a wiring list: CSV, one line a wire, as the trade keeps them in spreadsheets.

A list says of each wire where it begins and ends, its colour, its cross-section and its length. What
else a sheet knows of a wire is not in the list, and stays as it is when a list is taken over.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count

from footwell.sheet.models import Sheet, SheetWire
from footwell.sheet.points import seen_point

HEADING = ("wire", "from", "to", "colour", "mm2", "length m")


@dataclass(frozen=True, slots=True)
class ListedWire:
    """One wire as a list has it: points of the sheet, code of IEC 60757, mm², m; None: not said."""

    id: str
    start: str
    end: str
    colour: str | None = None
    mm2: float | None = None
    metres: float | None = None


def wiring_list(sheet: Sheet) -> str:
    """The wires of a sheet in their order, after RFC 4180: commas, a decimal point, CR and LF."""
    text = io.StringIO(newline="")
    connectors = {each.id: each for each in sheet.connectors}
    writer = csv.writer(text)
    writer.writerow(HEADING)
    for each in sheet.wires:
        sizes = (
            "" if size is None else repr(size).removesuffix(".0")
            for size in (each.mm2, each.metres)
        )
        ends = (seen_point(connectors, end) for end in (each.start, each.end))
        writer.writerow([each.id, *ends, each.colour or "", *sizes])
    return text.getvalue()


def with_wires(sheet: Sheet, listed: Sequence[ListedWire]) -> Sheet:
    """The sheet with the wires of a list: those it has are changed, new ones follow at the end.

    What the list does not say of a wire stays; so do wires that it does not name. The sheet is still
    to be read again, which finds what does not fit.
    """
    by_id = {each.id: each for each in listed}
    kept = [_merged(each, by_id.pop(each.id, None)) for each in sheet.wires]
    return sheet.model_copy(update={"wires": [*kept, *map(_new, by_id.values())]})


def _merged(wire: SheetWire, listed: ListedWire | None) -> SheetWire:
    if listed is None:
        return wire
    said = _said(listed)
    if same_ends(wire, listed):
        said -= {"start", "end"}
    changed = {name: getattr(listed, name) for name in said}
    return wire.model_copy(
        update={name: value for name, value in changed.items() if value != getattr(wire, name)}
    )


def _new(listed: ListedWire) -> SheetWire:
    return SheetWire.model_construct(**{name: getattr(listed, name) for name in _said(listed)})


def _said(listed: ListedWire) -> set[str]:
    return {name for name in ListedWire.__slots__ if getattr(listed, name) is not None}


def same_ends(one: SheetWire | ListedWire, other: SheetWire | ListedWire) -> bool:
    """Whether two wires join the same points; a list may name them in either order."""
    return {one.start, one.end} == {other.start, other.end}


def free_names(sheet: Sheet, taken: Sequence[str]) -> Iterator[str]:
    """Names for new wires."""
    every = {each.id for rows in (sheet.parts, sheet.connectors, sheet.wires) for each in rows}
    every.update(taken)
    return (name for n in count(1) if (name := f"W{n}") not in every)
