"""Text that holds no sheet: refused at its line, and beside each a text that is read."""

from __future__ import annotations

import pytest

from footwell.sheet.json_text import DEEPEST, MOST_CHARACTERS
from footwell.sheet.reading import ReadSheet, read_sheet

from .sheet_samples import TEXT, problems


@pytest.mark.parametrize(
    ("bad", "good", "place", "sentence", "remedy"),
    [
        ("", TEXT, "the whole file", "The file is empty.", "Choose the sheet's file again."),
        (
            TEXT[:1000],
            TEXT,
            "line 29, column",
            "The text ends in the middle.",
            "copy or send it again",
        ),
        (
            TEXT.replace('"ohms": 0.6', '"ohms": 0,6'),
            TEXT,
            "line 41, column 53",
            "A comma stands inside a number.",
            "Write decimal numbers with a point",
        ),
        (
            TEXT.replace('"format"', "format"),
            TEXT,
            "line 2, column 3",
            "A field's name in double quotes must stand here.",
            'Write "name": value.',
        ),
        (
            TEXT + "{}",
            TEXT + "\n",
            "line ",
            "More text follows after the sheet's closing bracket.",
            "Keep one sheet in one file",
        ),
        (
            TEXT.replace('"fan motor"', "'fan motor'"),
            TEXT.replace("fan motor", "'fan' motor"),
            "line 40, column",
            "No value of JSON stands here.",
            "Texts need double quotes",
        ),
        (
            TEXT.replace("fan motor", "fan\nmotor"),
            TEXT.replace("fan motor", "fan  motor"),
            "line 40, column",
            "A text holds a line break or another control character.",
            "Keep each text on one line.",
        ),
        (
            TEXT.replace("fan motor", "fan \ud800"),
            TEXT.replace("fan motor", "fan \U0001f300"),
            "the whole file",
            "The text holds half a character",
            "Copy or send the file again.",
        ),
        ("[1]", TEXT, "the whole sheet", "The file is JSON but no sheet", "it begins with {"),
        (
            "[" * (DEEPEST + 1),
            TEXT.replace('"ohms": 0.6', '"ohms": 0.60'),
            "line 1",
            f"nested deeper than {DEEPEST} levels",
            "Check that this is a circuit sheet",
        ),
        (
            TEXT + " " * MOST_CHARACTERS,
            TEXT + " " * (MOST_CHARACTERS - len(TEXT)),
            "the whole file",
            "a sheet has at most 1,000,000",
            "split it into one sheet for each circuit",
        ),
    ],
    ids=[
        "empty",
        "cut",
        "decimal comma",
        "name without quotes",
        "more behind it",
        "single quotes",
        "line break in a text",
        "half a character",
        "a list",
        "too deep",
        "too large",
    ],
)
def test_text_that_is_no_sheet_is_refused_at_its_line(
    bad: str, good: str, place: str, sentence: str, remedy: str
) -> None:
    told = problems(bad)
    assert len(told) == 1
    assert told[0].startswith(place)
    assert sentence in told[0]
    assert remedy in told[0]
    assert isinstance(read_sheet(good), ReadSheet)


@pytest.mark.parametrize("bomb", ["[" * 300_000, '{"a":' * 300_000, '"\\"' * 300_000])
def test_text_made_to_end_the_interpreter_is_refused(bomb: str) -> None:
    assert len(problems(bomb)) == 1


def test_a_number_too_large_for_a_float_is_no_number() -> None:
    told = problems(TEXT.replace('"ohms": 0.6', '"ohms": 1e999'))
    assert "The value is infinite or too large for a number." in told[0]


def test_a_byte_order_mark_is_passed_over() -> None:
    assert read_sheet("\ufeff" + TEXT).sheet == read_sheet(TEXT).sheet
