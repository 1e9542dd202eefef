"""A wiring list as a table: which separator it has, which column is which, and its lines of cells."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from footwell.sheet.errors import ListError, SheetProblem
from footwell.sheet.places import short

Column = Literal[
    "wire",
    "from",
    "from connector",
    "from pin",
    "to",
    "to connector",
    "to pin",
    "colour",
    "mm2",
    "length m",
]

_NAMES: Mapping[Column, tuple[str, ...]] = {
    "wire": ("wire", "wire no", "wire number", "wire id", "id", "no", "number"),
    "from": ("from", "start", "from connector pin", "from point"),
    "to": ("to", "end", "to connector pin", "to point"),
    "colour": ("colour", "color", "wire colour", "wire color"),
    "mm2": ("mm2", "cross section", "cross section mm2", "section", "section mm2", "size mm2"),
    "length m": ("length m", "length", "metres", "m"),
    "from connector": ("from connector", "from plug", "from part"),
    "from pin": ("from pin", "from way", "from terminal"),
    "to connector": ("to connector", "to plug", "to part"),
    "to pin": ("to pin", "to way", "to terminal"),
}
_COLUMNS: Mapping[str, Column] = {
    name: column for column, names in _NAMES.items() for name in names
}
_KNOWN = "wire, from, to, colour, mm2, length m"
_SEPARATORS = ";\t,"

MOST_LINES = 301
"""A heading, and as many wires as a sheet may have."""


@dataclass(frozen=True)
class Line:
    """The cells of one line by column, stripped; `number` is its line in the file."""

    number: int
    cells: Mapping[Column, str]


@dataclass(frozen=True)
class Table:
    """`columns` has the place of each column in the file, counted from 1."""

    columns: Mapping[Column, int]
    lines: tuple[Line, ...]

    def place(self, line: Line, column: Column) -> str:
        """Such as 'line 7, column 4 (colour)'; a column that was not written has no number."""
        number = self.columns.get(column)
        return f"line {line.number}, column {f'{number} ({column})' if number else column}"


def table_of(text: str) -> Table:
    """The lines of a list. Raises ListError for what makes it no list: its heading or its quotes."""
    rows = _rows(text.removeprefix("\ufeff"))
    if len(rows) < 2:
        raise _no_list("There is no wire in it.", "Write a heading and below it one line a wire.")
    if len(rows) > MOST_LINES:
        sentence = f"It has {len(rows) - 1} wires; a sheet holds {MOST_LINES - 1}."
        raise _no_list(sentence, "Take the wires of one circuit.")
    (number, heading), *below = rows
    columns = _columns(number, heading, [cells for _, cells in below])
    problems = [each for row in below for each in _too_long(row, heading)]
    if problems:
        raise ListError(problems)
    named = {column: place - 1 for column, place in columns.items()}
    return Table(columns, tuple(_line(row, named) for row in below))


def _rows(text: str) -> list[tuple[int, list[str]]]:
    """The lines that hold anything, each with the number at which it begins."""
    separator, skipped = _separator(text)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    rows: list[tuple[int, list[str]]] = []
    begins = 1
    try:
        for cells in reader:
            if begins > skipped and any(cell.strip() for cell in cells):
                rows.append((begins, [cell.strip() for cell in cells]))
            begins = reader.line_num + 1
    except csv.Error:
        sentence = "A quotation mark opens there that is never closed, or stands inside a cell."
        remedy = 'Close the cell with ", and write a quotation mark inside it twice.'
        raise ListError([SheetProblem(f"line {begins}", sentence, remedy)]) from None
    return rows


def _separator(text: str) -> tuple[str, int]:
    """The separator that makes most of the heading known columns, and how many lines come before.

    Some spreadsheets name it in a line of its own, as "sep=;".
    """
    first = text.lstrip("\r\n").partition("\n")[0]
    told = re.fullmatch(r"\s*\"?sep=([;,\t])\"?\s*", first)
    if told:
        return told[1], 1
    return max(_SEPARATORS, key=lambda mark: _known(first, mark)), 0


def _known(heading: str, separator: str) -> int:
    cells = heading.split(separator)
    return sum(_plain(cell) in _COLUMNS for cell in cells) * 100 + len(cells)


def _plain(heading: str) -> str:
    """
    >>> _plain("Cross-section [mm²]"), _plain(" from_connector/pin ")
    ('cross section mm2', 'from connector pin')
    """
    return re.sub(r"[\W_]+", " ", heading.lower().replace("²", "2")).strip()


def _columns(number: int, heading: list[str], below: list[list[str]]) -> dict[Column, int]:
    found: dict[Column, int] = {}
    problems: list[SheetProblem] = []
    for place, said in enumerate(heading, 1):
        column = _COLUMNS.get(_plain(said))
        where = f"line {number}, column {place}"
        if column is None:
            if said or any(len(cells) >= place and cells[place - 1] for cells in below):
                sentence = f'"{short(said, 40)}" is no column of a wiring list.'
                remedy = f"Its columns are {_KNOWN}. Rename this one, or delete it."
                problems.append(SheetProblem(where, sentence, remedy))
        elif column in found:
            sentence = f"Columns {found[column]} and {place} both are {column}."
            problems.append(SheetProblem(where, sentence, "Keep one of the two."))
        else:
            found[column] = place
    problems += [each for end in ("from", "to") for each in _end_missing(number, found, end)]
    if problems:
        raise ListError(problems)
    return found


def _end_missing(number: int, found: Mapping[Column, int], end: str) -> list[SheetProblem]:
    pair = {f"{end} connector", f"{end} pin"} & set(found)
    if (end in found and not pair) or (end not in found and len(pair) == 2):
        return []
    where = f"line {number}"
    if end in found:
        sentence = f"{end} is there, and so is {' and '.join(sorted(pair))}."
        return [SheetProblem(where, sentence, f"Keep {end}, or {end} connector and {end} pin.")]
    sentence = f'The column "{end}" is missing.'
    remedy = f'Head the column with the points such as X2.3 by "{end}", or two by "{end} connector"'
    return [SheetProblem(where, sentence, f'{remedy} and "{end} pin".')]


def _too_long(row: tuple[int, list[str]], heading: list[str]) -> list[SheetProblem]:
    number, cells = row
    if not any(cells[len(heading) :]):
        return []
    sentence = f"It has {len(cells)} cells, the heading has {len(heading)}."
    remedy = "Put a cell that holds the separator, such as 0,75, in quotation marks."
    return [SheetProblem(f"line {number}", sentence, remedy)]


def _line(row: tuple[int, list[str]], places: Mapping[Column, int]) -> Line:
    number, cells = row
    return Line(number, {c: cells[at] if at < len(cells) else "" for c, at in places.items()})


def _no_list(sentence: str, remedy: str) -> ListError:
    return ListError([SheetProblem("the whole list", sentence, remedy)])
