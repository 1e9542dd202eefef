"""Reading a circuit sheet: from text to a sheet that the rest of the core can rely on.

All problems are collected, so that a sheet is mended in one go: first what is wrong in single
fields, then what does not fit together.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from typing import Any

from pydantic import ValidationError

from footwell.sheet.assumed import assumed
from footwell.sheet.draft import MOST_ELEMENTS, draft_of
from footwell.sheet.errors import MOST_PROBLEMS, SheetError
from footwell.sheet.json_layout import Layout, layout
from footwell.sheet.json_text import parse
from footwell.sheet.models import SHEET_FORMAT, Sheet
from footwell.sheet.places import Flaw, Places
from footwell.sheet.rings import rings
from footwell.sheet.rules import RULES
from footwell.sheet.shape import flaws_of
from footwell.sheet.sharing import ends_of, in_one_way
from footwell.sheet.values import not_numbers


@dataclass(frozen=True)
class ReadSheet:
    """A sheet without problems.

    `values` holds each part's values by its id, in the dataclass of its kind; `assumed` has a
    sentence for every element with a value left open, `odd` one for what may be so but is seldom meant:
    rings, and ways with more than one wire.
    """

    sheet: Sheet
    values: dict[str, Any]
    assumed: list[str]
    odd: list[str]


def read_sheet(text: str) -> ReadSheet:
    """Read a sheet's JSON text, of a friend or a stranger.

    Raises SheetError with every problem found, each with its place, a sentence and a remedy.
    """
    # Some editors put a byte order mark first; it says nothing, and JSON has no place for it.
    text = text.removeprefix("\ufeff")
    return _read(parse(text), layout(text))


def read_data(data: Any) -> ReadSheet:
    """Read a sheet that arrived inside a larger message, as plain data. Raises SheetError."""
    return _read(data, Layout())


def read_again(sheet: Sheet) -> ReadSheet:
    """Values and assumptions of a sheet after a change. Raises SheetError."""
    return read_data(sheet.model_dump(exclude_unset=True))


def _read(data: Any, found: Layout) -> ReadSheet:
    places = Places(data, found.lines)
    _refuse([*_not_a_sheet(data)], places)
    flaws = _doubled(found) + list(islice(not_numbers(data), MOST_ELEMENTS))
    told = {flaw.path for flaw in flaws}
    sheet, refused = _shape(data)
    draft, wrong_values = draft_of(data, sheet)
    flaws += [flaw for flaw in refused + wrong_values if flaw.path not in told]
    flaws += [flaw for rule in RULES for flaw in rule(draft)]
    _refuse(flaws, places)
    assert sheet is not None
    odd = [*rings(sheet), *in_one_way(sheet, ends_of(sheet))]
    return ReadSheet(sheet, draft.values, assumed(sheet, draft.values), odd)


def _refuse(flaws: list[Flaw], places: Places) -> None:
    if flaws:
        raise SheetError([places.problem(flaw) for flaw in flaws[:MOST_PROBLEMS]], len(flaws))


def _not_a_sheet(data: Any) -> list[Flaw]:
    """What makes it useless to look any further."""
    if not isinstance(data, dict):
        remedy = "Check that this is a circuit sheet: it begins with { and a format number."
        return [
            Flaw((), "The file is JSON but no sheet: a sheet is an object with fields.", remedy)
        ]
    number = data.get("format", SHEET_FORMAT)
    if type(number) is not int or number < 1:
        sentence = "The format is no number that a sheet can have."
        return [Flaw(("format",), sentence, f'Write "format": {SHEET_FORMAT}.')]
    if number > SHEET_FORMAT:
        sentence = f"The sheet has format {number}; this release reads up to {SHEET_FORMAT}."
        remedy = "Update Footwell, or ask for the sheet in the older format."
        return [Flaw(("format",), sentence, remedy)]
    return []


def _doubled(found: Layout) -> list[Flaw]:
    return [
        Flaw(
            each.path,
            f'The name "{each.path[-1]}" is given twice in one object, again in line {each.line}.',
            "Keep one of the two values.",
        )
        for each in found.doubled
    ]


def _shape(data: dict[str, Any]) -> tuple[Sheet | None, list[Flaw]]:
    try:
        return Sheet.model_validate(data), []
    except ValidationError as error:
        return None, flaws_of(error)
