"""A sheet as far as it could be read: what the rules look at, so that one slip hides no other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from footwell.parts import KINDS
from footwell.parts.base import Branch, Context
from footwell.sheet.models import (
    Sheet,
    SheetComplaint,
    SheetConnector,
    SheetControl,
    SheetPart,
    SheetWire,
)
from footwell.sheet.places import Flaw, Path
from footwell.sheet.points import Points, ways
from footwell.sheet.values import values_of

Element = TypeVar("Element", bound=BaseModel)

MOST_ELEMENTS = 300
"""As many as the longest list of a sheet may have; longer ones are refused as they are."""

_USUAL = Context(12, 10.0)
"""Stands in where the sheet's own voltage or current could not be read."""


@dataclass(frozen=True)
class Draft:
    """Elements that could be read, each with its path, in the order of the sheet.

    `values` are by part id; `names` holds every id that is written, also of elements that could not
    be read; `whole` is true where everything could.
    """

    parts: tuple[tuple[Path, SheetPart], ...]
    connectors: tuple[tuple[Path, SheetConnector], ...]
    wires: tuple[tuple[Path, SheetWire], ...]
    controls: tuple[tuple[Path, SheetControl], ...]
    complaints: tuple[tuple[Path, SheetComplaint], ...]
    loads: tuple[str, ...]
    values: dict[str, Any]
    names: tuple[tuple[Path, str], ...]
    points: Points
    context: Context
    whole: bool

    def branches(self, part: SheetPart) -> list[Branch]:
        """The healthy part in its first state."""
        kind, values = KINDS[part.kind], self.values[part.id]
        return kind.branches(values, kind.states(values)[0], self.context)

    def part(self, name: str) -> SheetPart | None:
        return next((part for _, part in self.parts if part.id == name), None)

    def lacks(self, part: str) -> bool:
        """Whether the sheet surely has no part of this name."""
        return self.part(part) is None and part not in self.points.unread and self.points.certain


def draft_of(data: dict[str, Any], sheet: Sheet | None) -> tuple[Draft, list[Flaw]]:
    """What could be read of a sheet, and what is wrong with the values of its parts.

    `data` is the sheet as parsed. `sheet` is None where some field of it was refused; then each
    element is read by itself.
    """
    parts = _read(data, sheet, "parts", SheetPart)
    connectors = _read(data, sheet, "connectors", SheetConnector)
    context = Context(sheet.system_volts, sheet.working_amps) if sheet else _USUAL
    names = tuple(_names(data))
    values, flaws = _values(parts, _used_once(names), context)
    draft = Draft(
        parts=parts,
        connectors=connectors,
        wires=_read(data, sheet, "wires", SheetWire),
        controls=_read(data, sheet, "controls", SheetControl),
        complaints=_read(data, sheet, "complaints", SheetComplaint),
        loads=tuple(load for load in _list(data.get("loads")) if isinstance(load, str)),
        values=values,
        names=names,
        points=_points(data, parts, values, connectors, names),
        context=context,
        whole=sheet is not None and not flaws and len(_used_once(names)) == len(names),
    )
    return draft, flaws


def _read(
    data: dict[str, Any], sheet: Sheet | None, key: str, model: type[Element]
) -> tuple[tuple[Path, Element], ...]:
    if sheet is not None:
        return tuple(((key, n), element) for n, element in enumerate(getattr(sheet, key)))
    return tuple(_salvaged(_list(data.get(key)), key, model))


def _salvaged(
    elements: list[Any], key: str, model: type[Element]
) -> Iterator[tuple[Path, Element]]:
    for place, element in enumerate(elements):
        try:
            yield (key, place), model.model_validate(element)
        except ValidationError:
            continue


def _values(
    parts: tuple[tuple[Path, SheetPart], ...], clear: frozenset[str], context: Context
) -> tuple[dict[str, Any], list[Flaw]]:
    """Values by the names that are clear, and what is wrong with any."""
    values: dict[str, Any] = {}
    flaws: list[Flaw] = []
    for path, part in parts:
        read, wrong = values_of(part, context, path)
        flaws += wrong
        if not wrong and part.id in clear:
            values[part.id] = read
    return values, flaws


def _points(
    data: dict[str, Any],
    parts: tuple[tuple[Path, SheetPart], ...],
    values: dict[str, Any],
    connectors: tuple[tuple[Path, SheetConnector], ...],
    names: tuple[tuple[Path, str], ...],
) -> Points:
    terminals = {
        part.id: tuple(KINDS[part.kind].terminals(values[part.id]))
        for _, part in parts
        if part.id in values
    }
    clear = _used_once(names)
    by_id = {each.id: each for _, each in connectors if each.id in clear}
    known = {name: tuple(ways(each)) for name, each in by_id.items()}
    owners = {name for path, name in names if path[0] != "wires"}
    return Points(
        terminals,
        known,
        wires=frozenset(name for path, name in names if path[0] == "wires"),
        unread=frozenset(owners - terminals.keys() - known.keys()),
        certain=_all_named(data, names),
        connectors=by_id,
    )


def _used_once(names: tuple[tuple[Path, str], ...]) -> frozenset[str]:
    counts = Counter(name for _, name in names)
    return frozenset(name for name, count in counts.items() if count == 1)


def _all_named(data: dict[str, Any], names: tuple[tuple[Path, str], ...]) -> bool:
    written = sum(len(_list(data.get(key))) for key in ("parts", "connectors", "wires"))
    return isinstance(data.get("parts"), list) and written == len(names)


def _names(data: dict[str, Any]) -> Iterator[tuple[Path, str]]:
    for key in ("parts", "connectors", "wires"):
        for place, element in enumerate(_list(data.get(key))):
            if isinstance(element, dict) and isinstance(element.get("id"), str):
                yield (key, place), element["id"]


def _list(value: Any) -> list[Any]:
    return value[:MOST_ELEMENTS] if isinstance(value, list) else []
