"""Taking a wiring list over: every line is held against the sheet before anything is changed.

What is odd but may be so, two wires in one way or a colour twice in a plug, is told and taken.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pydantic import ValidationError

from footwell.parts.base import EARTH
from footwell.reference.colours import parse_wire_colour
from footwell.sheet.draft import draft_of
from footwell.sheet.errors import ListError, SheetError, SheetProblem
from footwell.sheet.list_table import Column, Line, Table, table_of
from footwell.sheet.models import Sheet, SheetWire
from footwell.sheet.places import short
from footwell.sheet.points import HALVES, Points, joined, number, seen_point, way_point, ways
from footwell.sheet.reading import read_again
from footwell.sheet.rings import rings
from footwell.sheet.shape import flaws_of
from footwell.sheet.sharing import ends_of, in_one_way, of_one_colour
from footwell.sheet.wiring_list import ListedWire, free_names, same_ends, with_wires

_BODY = ("earth", "ground", "gnd", "body", "chassis")
_NOT_KNOWN = ("", "?", "-")


@dataclass(frozen=True)
class TakenList:
    """What a list makes of a sheet: its wires with names, the sheet with them, what to be aware of.

    `new` and `changed` are names of wires; wires of the sheet that are in neither stay as they are.
    """

    wires: tuple[ListedWire, ...]
    sheet: Sheet
    new: tuple[str, ...]
    changed: tuple[str, ...]
    notices: tuple[str, ...]


def take_list(text: str, sheet: Sheet) -> TakenList:
    """Read a wiring list for a sheet.

    Raises ListError with every problem found, each with its line, its column, a sentence and a
    remedy; then nothing was changed.
    """
    table = table_of(text)
    reader = _Reader(table, sheet)
    read = [(line, reader.wire(line)) for line in table.lines]
    reader.names_are_free(read)
    if reader.problems:
        raise ListError(reader.problems)
    wires = tuple(_named(sheet, [wire for _, wire in read]))
    told = [(line.number, wire) for (line, _), wire in zip(read, wires, strict=True)]
    after = with_wires(sheet, wires)
    try:
        after = read_again(after).sheet
    except SheetError as error:
        raise ListError([*_in_lines(error.problems, sheet, told)]) from None
    before = {each.id: each for each in sheet.wires}
    new = tuple(each.id for each in wires if each.id not in before)
    changed = tuple(each.id for each in after.wires if before.get(each.id, each) != each)
    return TakenList(wires, after, new, changed, tuple(_notices(sheet, after, told)))


def _named(sheet: Sheet, wires: list[ListedWire]) -> Iterator[ListedWire]:
    """Lines without a name are the sheet's wire between the same points, or a new one."""
    named = [wire.id for wire in wires if wire.id]
    left = [each for each in sheet.wires if each.id not in named]
    free = free_names(sheet, named)
    for wire in wires:
        if wire.id:
            yield wire
            continue
        same = next((each for each in left if same_ends(each, wire)), None)
        if same is not None:
            left.remove(same)
        name = next(free) if same is None else same.id
        yield ListedWire(name, wire.start, wire.end, wire.colour, wire.mm2, wire.metres)


class _Reader:
    """Reads lines into wires and gathers what is wrong with them."""

    def __init__(self, table: Table, sheet: Sheet) -> None:
        self.problems: list[SheetProblem] = []
        self._table, self._sheet = table, sheet
        draft, _ = draft_of(sheet.model_dump(exclude_unset=True), sheet)
        self._points, self._joined = draft.points, joined(sheet.connectors)
        self._numbers = {
            each.id: {number(each, way): way for way in ways(each)} for each in sheet.connectors
        }

    def wire(self, line: Line) -> ListedWire:
        start, end = self._end(line, "from"), self._end(line, "to")
        same = self._joined
        if start and same.get(start, start) == same.get(end, end):
            remedy = "Correct one end, or delete the line."
            self._tell(
                line, "to", f"Both ends of this wire are at {self._points.seen(start)}.", remedy
            )
        return ListedWire(
            self._name(line),
            start,
            end,
            self._colour(line),
            self._number(line, "mm2", "mm2"),
            self._number(line, "length m", "metres"),
        )

    def names_are_free(self, read: Iterable[tuple[Line, ListedWire]]) -> None:
        """A name is that of one line, and of no part or connector."""
        lines: dict[str, int] = {}
        owners = {each.id for each in self._sheet.parts}
        owners |= {each.id for each in self._sheet.connectors}
        for line, wire in read:
            if wire.id in lines:
                said = f"{wire.id} is the name of line {lines[wire.id]} too."
                self._tell(line, "wire", said, "Give it a name of its own, or none.")
            elif wire.id in owners:
                said = f"{wire.id} is a part or a connector of this sheet."
                self._tell(line, "wire", said, "Give the wire another name, or none.")
            elif wire.id:
                lines[wire.id] = line.number

    def _name(self, line: Line) -> str:
        name = line.cells.get("wire", "")
        if not name or re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]{0,23}", name):
            return name
        if re.fullmatch(r"[A-Za-z0-9_-]{1,23}", name):
            return f"W{name}"
        said = f'"{short(name, 40)}" cannot name a wire.'
        self._tell(line, "wire", said, "Write letters and digits, such as W7, or leave it empty.")
        return ""

    def _end(self, line: Line, end: Column) -> str:
        column, said = _end_cell(line, end)
        if not said:
            self._tell(line, column, "The end is missing.", "Write a point such as X2.3 or earth.")
            return ""
        try:
            return _point(said, self._points, self._joined, self._numbers)
        except _NoPoint as error:
            self._tell(line, column, error.sentence, error.remedy)
            return ""

    def _colour(self, line: Line) -> str | None:
        said = line.cells.get("colour", "")
        if said in _NOT_KNOWN:
            return None
        try:
            return str(parse_wire_colour(said))
        except ValueError as error:
            self._tell(line, "colour", short(str(error)), "Or leave it empty if it is not known.")
            return None

    def _number(self, line: Line, column: Column, field: str) -> float | None:
        said = line.cells.get(column, "")
        if said in _NOT_KNOWN:
            return None
        unit = "mm2" if field == "mm2" else "m"
        found = re.fullmatch(r"(\d{1,6}(?:[.,]\d{1,20})?(?:e-?\d{1,3})?) ?(?:mm2|mm²|m)?", said)
        if found is None:
            remedy = f"Write a number of {unit}, such as 0.75, or leave it empty."
            self._tell(line, column, f'"{short(said, 40)}" is no number.', remedy)
            return None
        value = float(found[1].replace(",", "."))
        try:
            SheetWire.model_validate({"id": "W", "start": "A", "end": "B", field: value})
        except ValidationError as error:
            flaw = flaws_of(error)[0]
            self._tell(line, column, flaw.sentence, flaw.remedy)
            return None
        return value

    def _tell(self, line: Line, column: Column, sentence: str, remedy: str) -> None:
        self.problems.append(SheetProblem(self._table.place(line, column), sentence, remedy))


def _end_cell(line: Line, end: Column) -> tuple[Column, str]:
    if end in line.cells:
        return end, line.cells[end]
    columns: tuple[Column, Column] = (
        ("from connector", "from pin") if end == "from" else ("to connector", "to pin")
    )
    connector, pin = (line.cells[column] for column in columns)
    return (columns[0] if not connector else columns[1]), f"{connector}.{pin}".rstrip(".")


class _NoPoint(Exception):
    def __init__(self, sentence: str, remedy: str) -> None:
        super().__init__(sentence)
        self.sentence, self.remedy = sentence, remedy


def _point(
    said: str,
    points: Points,
    on_parts: dict[str, str],
    numbers: Mapping[str, Mapping[str, str]],
) -> str:
    """A point as lists write it: X2.3.a, X2/3, F1:2, earth. Raises _NoPoint.

    Ways have the numbers that people see. Without its half a way of a plug on a part means the half
    with the wires.
    """
    pieces = [piece for piece in re.split(r"[./:\s]+", said) if piece]
    if len(pieces) == 1 and pieces[0].lower() in _BODY:
        return EARTH
    if not pieces:
        raise _NoPoint(f'"{short(said, 40)}" is no point.', "Write one such as X2.3 or earth.")
    owner = _owner(pieces[0], points)
    if owner in numbers and pieces[1:]:
        pieces[1] = _way(owner, pieces[1], numbers[owner])
    point = ".".join([owner, *pieces[1:]])
    if owner in points.ways and len(pieces) == 2 and pieces[1] in points.ways[owner]:
        point = _half(points, owner, pieces[1], on_parts)
    fault = points.fault(point)
    if fault is not None:
        raise _NoPoint(*(short(each) for each in fault))
    if point in on_parts:
        sentence = f"Half b of this way sits on {on_parts[point]}, so no wire can end there."
        raise _NoPoint(sentence, f"Write {points.seen(f'{point[:-1]}a')}.")
    return point


def _way(connector: str, said: str, by_number: Mapping[str, str]) -> str:
    if said in by_number:
        return by_number[said]
    listed = ", ".join(by_number)
    remedy = f"Its ways are {listed}; write a point as {connector}.WAY.a or .b."
    raise _NoPoint(f"{connector} has no way {short(said, 8)}.", remedy)


def _owner(said: str, points: Points) -> str:
    """The part or connector of this name, capitals or not."""
    every = [*points.terminals, *points.ways]
    same = [name for name in every if name.lower() == said.lower()]
    return same[0] if said not in every and len(same) == 1 else said


def _half(points: Points, connector: str, way: str, on_parts: dict[str, str]) -> str:
    a, b = (way_point(connector, way, half) for half in HALVES)
    if b in on_parts:
        return a
    sentence = f"Way {number(points.connectors[connector], way)} of {connector} has two halves."
    raise _NoPoint(sentence, f"Write {points.seen(a)} or {points.seen(b)}.")


def _notices(before: Sheet, after: Sheet, told: Sequence[tuple[int, ListedWire]]) -> Iterator[str]:
    lines = {wire.id: f"line {number}" for number, wire in told}
    ends = [
        replace(end, called=lines.get(end.called, end.called), asked=end.called in lines)
        for end in ends_of(after)
    ]
    yield from in_one_way(after, ends)
    yield from of_one_colour(after, ends)
    left = [each.id for each in before.wires if each.id not in lines]
    if left:
        verb = "are" if len(left) > 1 else "is"
        yield f"{', '.join(left)} of the sheet {verb} not in the list: kept as before."
    yield from (ring for ring in rings(after) if ring not in rings(before))


def _in_lines(
    problems: Sequence[SheetProblem], before: Sheet, told: Sequence[tuple[int, ListedWire]]
) -> Iterator[SheetProblem]:
    """What the rules of a sheet say, each at the line that brought it where there is one."""
    lines = {wire.id: number for number, wire in told}
    connectors = {each.id: each for each in before.connectors}
    for problem in problems:
        point = problem.about
        line = lines.get(point) or _line_of(point, before, told)
        if line is None:
            yield problem
        elif point in lines:
            yield replace(problem, place=f"line {line}")
        else:
            seen = seen_point(connectors, point)
            remedy = f"Add a line for the wire that ends at {seen}, or correct this one."
            yield replace(problem, place=f"line {line}", remedy=remedy)


def _line_of(point: str, before: Sheet, told: Sequence[tuple[int, ListedWire]]) -> int | None:
    """The line whose wire has left a point of the sheet or has come to the other half of its way."""
    drawn = {wire.id: {wire.start, wire.end} for wire in before.wires}
    way = point.rpartition(".")[0] + "."
    for line, wire in told:
        ends = {wire.start, wire.end}
        if point in drawn.get(wire.id, set()) - ends or any(end.startswith(way) for end in ends):
            return line
    return None
