"""From foreign text to plain data, and where in the text each value stands.

The text may come from a stranger: it is bounded in size and nesting before any parser sees it, and
only pydantic's parser sees it, which stops where the standard library's would end the interpreter.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from pydantic_core import from_json

from footwell.sheet.errors import SheetError, SheetProblem

Path = tuple[str | int, ...]
"""Keys and list positions from the whole sheet down to one value."""

MOST_CHARACTERS = 1_000_000
DEEPEST = 32
"""Levels of lists and objects; a sheet needs seven."""

# The closing quote is optional so that an unfinished string is one token: tried again from each
# quote inside it, the search would take time with the square of its length.
_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*+"?|[][{}:,]|[^][{}:,"\s]+', re.DOTALL)
_PARSER_SAYS = re.compile(r"(?P<what>.*) at line (?P<line>\d+) column (?P<column>\d+)$", re.DOTALL)

_POINT = "Write decimal numbers with a point, for example 1.8."
_WHY: dict[str, tuple[str, str]] = {
    "EOF": (
        "The text ends in the middle.",
        "Part of the file is missing: copy or send it again.",
    ),
    "trailing comma": ("A comma stands before a closing bracket.", "Remove that comma."),
    "trailing characters": (
        "More text follows after the sheet's closing bracket.",
        "Keep one sheet in one file and remove what follows it.",
    ),
    "key must be a string": (
        "A field's name in double quotes must stand here.",
        'Write "name": value. ' + _POINT,
    ),
    "expected `:`": ("A colon is missing after a field's name.", 'Write "name": value.'),
    "expected `,`": ("A comma is missing between two values.", "Put a comma between them."),
    "invalid number": ("This is not a number as JSON writes them.", _POINT),
    "control character": (
        "A text holds a line break or another control character.",
        "Keep each text on one line.",
    ),
    "invalid escape": (
        "A backslash in a text stands before a letter it cannot stand before.",
        "Write a backslash as two.",
    ),
    "expected": (
        "No value of JSON stands here.",
        "Texts need double quotes; other values are numbers, true, false, null, [ ] and { }.",
    ),
}
_BROKEN_CHARACTER = (
    "The text holds half a character, so it was damaged on its way.",
    "Copy or send the file again.",
)
_NOT_JSON = ("This is not JSON.", "Check the file in a JSON editor at this place.")


@dataclass(frozen=True, slots=True)
class Doubled:
    """A name that an object gives twice; the parser keeps the last value and drops the first."""

    path: Path
    line: int


@dataclass(slots=True)
class Layout:
    """Line of every value by its path, and names given twice."""

    lines: dict[Path, int] = field(default_factory=dict)
    doubled: list[Doubled] = field(default_factory=list)


def parse(text: str) -> Any:
    """The data of a JSON text. SheetError where it is too large, too deep or not JSON.

    Numbers that are none (NaN, Infinity) come through, so that they can be told by their place.
    """
    _refuse_bombs(text)
    try:
        return from_json(_bare(text))
    except TypeError:
        raise _whole(*_BROKEN_CHARACTER) from None
    except ValueError as error:
        raise SheetError([_not_json(text, str(error))]) from None


def layout(text: str) -> Layout:
    """Where each value of a text stands that `parse` has read."""
    found = Layout()
    walk = _Walk(found)
    for line, token in _tokens(_bare(text)):
        walk.take(token, line)
    return found


def _bare(text: str) -> str:
    # Some editors put a byte order mark first; it says nothing and JSON has no place for it.
    return text.removeprefix("\ufeff")


def _refuse_bombs(text: str) -> None:
    if len(text) > MOST_CHARACTERS:
        raise _whole(
            f"The file has {len(text):,} characters; a sheet has at most {MOST_CHARACTERS:,}.",
            "Check that this is a circuit sheet, and split it into one sheet for each circuit.",
        )
    if not text.strip("\ufeff \t\r\n"):
        raise _whole("The file is empty.", "Choose the sheet's file again.")
    depth = 0
    for line, token in _tokens(text):
        depth += (token in "[{") - (token in "]}")
        if depth > DEEPEST:
            raise SheetError([_too_deep(line)])


def _whole(sentence: str, remedy: str) -> SheetError:
    return SheetError([SheetProblem("the whole file", sentence, remedy)])


def _too_deep(line: int) -> SheetProblem:
    return SheetProblem(
        f"line {line}",
        f"Lists and objects are nested deeper than {DEEPEST} levels; a sheet needs seven.",
        "Check that this is a circuit sheet; it is not read any further.",
    )


def _tokens(text: str) -> Iterator[tuple[int, str]]:
    """Each token of the text with its line, counted from 1."""
    line, counted = 1, 0
    for match in _TOKEN.finditer(text):
        line += text.count("\n", counted, match.start())
        counted = match.start()
        yield line, match.group()


def _not_json(text: str, said: str) -> SheetProblem:
    match = _PARSER_SAYS.match(said)
    if match is None:
        return SheetProblem("the whole file", *_NOT_JSON)
    line, column = int(match["line"]), int(match["column"])
    why = next(
        (words for start, words in _WHY.items() if match["what"].startswith(start)), _NOT_JSON
    )
    where = f"line {line}, column {_in_characters(text, line, column)}"
    return SheetProblem(where, f"The file is not JSON. {why[0]}", why[1])


def _in_characters(text: str, line: int, column: int) -> int:
    """The parser counts bytes; people count letters."""
    lines = text.split("\n")
    if line > len(lines):
        return column
    before = lines[line - 1].encode(errors="replace")[:column]
    return len(before.decode(errors="ignore"))


@dataclass(slots=True)
class _Level:
    """One open list or object: the position or key of the value that comes next."""

    at: int | str
    wants_key: bool
    keys: set[str] = field(default_factory=set)


class _Walk:
    """Follows the tokens of a valid text and notes where each value begins."""

    def __init__(self, found: Layout) -> None:
        self._found = found
        self._levels: list[_Level] = []

    def take(self, token: str, line: int) -> None:
        level = self._levels[-1] if self._levels else None
        if token in ("]", "}"):
            self._levels.pop()
        elif level is not None and token == ",":
            _go_on(level)
        elif level is not None and level.wants_key:
            self._key(level, from_json(token), line)
        elif token != ":":
            self._value(token, line)

    def _key(self, level: _Level, key: str, line: int) -> None:
        level.at, level.wants_key = key, False
        if key in level.keys:
            self._found.doubled.append(Doubled(self._path(), line))
        level.keys.add(key)

    def _value(self, token: str, line: int) -> None:
        self._found.lines[self._path()] = line
        if token == "{":
            self._levels.append(_Level("", wants_key=True))
        elif token == "[":
            self._levels.append(_Level(0, wants_key=False))

    def _path(self) -> Path:
        return tuple(level.at for level in self._levels)


def _go_on(level: _Level) -> None:
    if isinstance(level.at, int):
        level.at += 1
    else:
        level.wants_key = True
