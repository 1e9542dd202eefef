"""Where in a JSON text each value stands, and which names an object gives twice.

The parser tells neither.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from pydantic_core import from_json

from footwell.sheet.places import Path

# The closing quote is optional so that an unfinished string is one token: tried again from each
# quote inside it, the search would take time with the square of its length.
_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*+"?|[][{}:,]|[^][{}:,"\s]+', re.DOTALL)

MOST_LINES = 20_000
"""A sheet has some hundred values; a file made to fill the memory is not followed to its end."""


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


def layout(text: str) -> Layout:
    """Where each value of a text stands that `parse` has read."""
    found = Layout()
    walk = _Walk(found)
    for line, token in tokens(text):
        walk.take(token, line)
    return found


def tokens(text: str) -> Iterator[tuple[int, str]]:
    """Each token of the text with its line, counted from 1."""
    line, counted = 1, 0
    for match in _TOKEN.finditer(text):
        line += text.count("\n", counted, match.start())
        counted = match.start()
        yield line, match.group()


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
        if len(self._found.lines) < MOST_LINES:
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
