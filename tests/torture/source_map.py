"""Where the pieces of a bundled script were written: its source map (ECMA-426), as far as branches need."""

from __future__ import annotations

import base64
import json
import re
from bisect import bisect_left
from collections.abc import Iterator
from itertools import accumulate
from string import ascii_letters, digits
from typing import NamedTuple

_MAP = re.compile(r"^//# sourceMappingURL=data:application/json;base64,(\S+)\s*$", re.MULTILINE)
_FILE = re.compile(r"(web/src|service_worker|node_modules|tests)/\S+")
_SIGNS = {sign: n for n, sign in enumerate(f"{ascii_letters[26:]}{ascii_letters[:26]}{digits}+/")}


class Token(NamedTuple):
    """A place of a source: its file in the repository, line and column from 0."""

    file: str
    line: int
    column: int


class SourceMap:
    """The tokens of a script and where each begins in it."""

    def __init__(self, script: str) -> None:
        found = _MAP.search(script)
        told = json.loads(base64.b64decode(found[1])) if found else {"sources": [], "mappings": ""}
        files = [_name(source) for source in told["sources"]]
        starts = [0, *accumulate(len(line) + 1 for line in script.split("\n"))]
        pieces = [
            (starts[n] + column, Token(files[source], line, at))
            for n, column, source, line, at in _segments(told["mappings"])
        ]
        self._offsets = [offset for offset, _ in pieces]
        self._tokens = [token for _, token in pieces]
        self.offset_of = {token: offset for offset, token in reversed(pieces)}

    def within(self, start: int, end: int) -> tuple[Token, Token] | None:
        """The first and the last token of a stretch of the script; None where it has none."""
        first, after = bisect_left(self._offsets, start), bisect_left(self._offsets, end)
        return (self._tokens[first], self._tokens[after - 1]) if first < after else None


def _name(source: str) -> str:
    found = _FILE.search(source)
    return found[0] if found else source


def _segments(mappings: str) -> Iterator[tuple[int, int, int, int, int]]:
    """Line and column in the script, number of the source, line and column there."""
    source = line = at = 0
    for n, row in enumerate(mappings.split(";")):
        column = 0
        for segment in filter(None, row.split(",")):
            moved = [*_numbers(segment), 0, 0, 0]
            column, source = column + moved[0], source + moved[1]
            line, at = line + moved[2], at + moved[3]
            yield n, column, source, line, at


def _numbers(segment: str) -> Iterator[int]:
    """Signed numbers in base 64, five bits a sign, the least first, the sign of the number lowest."""
    value = shift = 0
    for sign in segment:
        digit = _SIGNS[sign]
        value |= (digit & 31) << shift
        shift += 5
        if not digit & 32:
            yield -(value >> 1) if value & 1 else value >> 1
            value = shift = 0
