"""From foreign text to plain data.

The text may come from a stranger: it is bounded in size and nesting before any parser sees it, and
only pydantic's parser sees it, which stops where the standard library's would end the interpreter.
"""

from __future__ import annotations

import re
from typing import Any

from pydantic_core import from_json

from footwell.sheet.errors import SheetError, SheetProblem
from footwell.sheet.json_layout import tokens

MOST_CHARACTERS = 1_000_000
DEEPEST = 32
"""Levels of lists and objects; a sheet needs seven."""

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
        'Write "name": value.',
    ),
    "expected `:`": ("A colon is missing after a field's name.", 'Write "name": value.'),
    "expected `,`": ("A comma is missing between two values.", "Put a comma between them."),
    "invalid number": ("This is not a number as JSON writes them.", _POINT),
    "number out of range": ("The number has too many digits.", _POINT),
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


def parse(text: str) -> Any:
    """The data of a JSON text. SheetError where it is too large, too deep or not JSON.

    Numbers that are none (NaN, Infinity) come through, so that they can be told by their place.
    """
    _refuse_bombs(text)
    try:
        return from_json(text)
    except TypeError:
        raise _whole(*_BROKEN_CHARACTER) from None
    except ValueError as error:
        raise SheetError([_not_json(text, str(error))]) from None


def _refuse_bombs(text: str) -> None:
    if len(text) > MOST_CHARACTERS:
        raise _whole(
            f"The file has {len(text):,} characters; a sheet has at most {MOST_CHARACTERS:,}.",
            "Check that this is a circuit sheet, and split it into one sheet for each circuit.",
        )
    if not text.strip():
        raise _whole("The file is empty.", "Choose the sheet's file again.")
    depth = 0
    for line, token in tokens(text):
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


def _not_json(text: str, said: str) -> SheetProblem:
    where, sentence, remedy = why_not_json(text, said)
    said_so = sentence if sentence == _NOT_JSON[0] else f"The file is not JSON. {sentence}"
    return SheetProblem(where, said_so, remedy)


def why_not_json(text: str, said: str) -> tuple[str, str, str]:
    """Place, sentence and remedy for a text in which the parser said something.

    >>> why_not_json('{"a" 1}', "expected `:` at line 1 column 6")[:2]
    ('line 1, column 6', "A colon is missing after a field's name.")
    """
    match = _PARSER_SAYS.match(said)
    if match is None:
        return ("the whole file", *_NOT_JSON)
    line, before = _up_to(text, int(match["line"]), int(match["column"]))
    return (f"line {line}, column {len(before)}", *_why(match["what"], before))


def _why(said: str, before: str) -> tuple[str, str]:
    if re.search(r"\d,\d$", before):
        return "A comma stands inside a number.", _POINT
    return next((words for start, words in _WHY.items() if said.startswith(start)), _NOT_JSON)


def _up_to(text: str, line: int, column: int) -> tuple[int, str]:
    """Line, and its text up to a column; the parser counts bytes, and a line's end to the next."""
    lines = text.split("\n")
    if column == 0 and line > 1:
        return line - 1, lines[line - 2] + "\n"
    return line, lines[line - 1].encode()[:column].decode(errors="ignore")
