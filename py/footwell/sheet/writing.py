"""A sheet back to JSON text, always in the same order."""

from __future__ import annotations

import dataclasses

from footwell.parts import KINDS
from footwell.sheet.models import Sheet, SheetPart


def write_sheet(sheet: Sheet) -> str:
    """The sheet as JSON: fields in the order of their models, elements in the order of the sheet.

    What was never written stays unwritten; null, written to mark what is not known, stays null.
    Reading the text gives an equal sheet, and writing that one gives the same text.
    """
    ordered = sheet.model_copy(update={"parts": [_ordered(part) for part in sheet.parts]})
    return ordered.model_dump_json(indent=2, exclude_unset=True) + "\n"


def _ordered(part: SheetPart) -> SheetPart:
    if not part.values:
        return part
    fields = [field.name for field in dataclasses.fields(KINDS[part.kind].values)]
    values = {name: part.values[name] for name in fields if name in part.values}
    return part.model_copy(update={"values": values})
