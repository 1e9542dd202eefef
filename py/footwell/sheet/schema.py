"""The published JSON Schema of a sheet.

`python -m footwell.sheet.schema` writes it to sheet.schema.json beside this file.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pydantic import TypeAdapter
from pydantic_core import to_json

from footwell.parts import KINDS
from footwell.sheet.models import Sheet
from footwell.sheet.values import PART_KINDS

FILE = Path(__file__).with_name("sheet.schema.json")


def schema_text() -> str:
    """The schema as JSON text (draft 2020-12), with the values of every kind of part."""
    schema = Sheet.model_json_schema()
    part = schema["$defs"]["SheetPart"]
    part["properties"]["kind"] = {"enum": list(PART_KINDS)}
    part["allOf"] = [_values_of(kind) for kind in PART_KINDS]
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
    return to_json({**head, **schema}, indent=2).decode() + "\n"


def _values_of(kind: str) -> dict[str, Any]:
    """If a part is of this kind, its values have these fields and no others."""
    values = TypeAdapter(KINDS[kind].values).json_schema()
    values["additionalProperties"] = False
    then: dict[str, Any] = {"properties": {"values": values}}
    if values.get("required"):
        then["required"] = ["values"]
    return {"if": {"properties": {"kind": {"const": kind}}}, "then": then}


if __name__ == "__main__":
    FILE.write_text(schema_text(), encoding="utf-8")
