"""The minibus's sheet, and ways to change one thing in it."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from footwell.sheet.errors import SheetError
from footwell.sheet.reading import read_sheet

CIRCUITS = sorted(Path(__file__).parents[2].joinpath("fixtures/circuits").glob("*.json"))
TEXT = next(file for file in CIRCUITS if file.stem == "minibus-saloon-fan").read_text("utf-8")

Data = dict[str, Any]
Change = Callable[[Data], object]


def changed(change: Change) -> str:
    """The minibus's sheet with one thing changed, as text."""
    data = json.loads(TEXT)
    change(data)
    return json.dumps(data, indent=1)


def element(data: Data, name: str) -> Data:
    found = (e for key in ("parts", "connectors", "wires") for e in data[key] if e["id"] == name)
    return next(found)


def put(element_id: str, /, **fields: object) -> Change:
    """Fields of one part, connector or wire, replaced."""
    return lambda data: element(data, element_id).update(fields)


def values(part_id: str, /, **fields: object) -> Change:
    """Values of one part, replaced."""
    return lambda data: element(data, part_id).setdefault("values", {}).update(fields)


def without(name: str) -> Change:
    def remove(data: Data) -> None:
        for key in ("parts", "connectors", "wires"):
            data[key] = [each for each in data[key] if each["id"] != name]

    return remove


def also(*changes: Change) -> Change:
    return lambda data: [change(data) for change in changes]


def problems(text: str) -> list[str]:
    """What is said of a sheet that must be refused."""
    with pytest.raises(SheetError) as refused:
        read_sheet(text)
    return [str(problem) for problem in refused.value.problems]
