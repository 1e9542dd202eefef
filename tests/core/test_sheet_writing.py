"""There and back again: what is read is written, and what is written is read."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footwell.sheet.reading import read_again, read_sheet
from footwell.sheet.schema import FILE, schema_text
from footwell.sheet.writing import write_sheet

from .sheet_samples import CIRCUITS, TEXT, changed, element


@pytest.mark.parametrize("file", CIRCUITS, ids=lambda file: file.stem)
def test_a_sheet_written_and_read_is_the_same_sheet(file: Path) -> None:
    read = read_sheet(file.read_text(encoding="utf-8"))
    again = read_sheet(write_sheet(read.sheet))
    assert again == read
    assert write_sheet(again.sheet) == write_sheet(read.sheet)


@pytest.mark.parametrize("file", CIRCUITS, ids=lambda file: file.stem)
def test_nothing_that_was_written_is_lost_and_nothing_is_added(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert json.loads(write_sheet(read_sheet(text).sheet)) == json.loads(text)


def test_the_order_in_which_fields_came_does_not_matter() -> None:
    def turn_round(data: dict[str, Any]) -> None:
        for each in (data, element(data, "M1"), element(data, "M1")["values"], element(data, "W3")):
            turned = dict(reversed(each.items()))
            each.clear()
            each.update(turned)

    turned = changed(turn_round)
    assert turned != json.dumps(json.loads(TEXT), indent=1)
    assert write_sheet(read_sheet(turned).sheet) == write_sheet(read_sheet(TEXT).sheet)


words = st.text(
    st.characters(
        exclude_categories=["Cc", "Cs"],
        exclude_characters="\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069",
    ),
    min_size=1,
    max_size=120,
)


@settings(deadline=None)
@given(
    name=words,
    at=words,
    mm2=st.none() | st.floats(0.13, 120),
    metres=st.none() | st.floats(0, 60, exclude_min=True),
    amps=st.floats(1e-3, 1000),
)
def test_any_words_and_numbers_within_their_bounds_come_back(
    name: str, at: str, mm2: float | None, metres: float | None, amps: float
) -> None:
    def fill(data: dict[str, Any]) -> None:
        element(data, "W3").update(at=at, mm2=mm2, metres=metres)
        element(data, "M1").update(name=name, values={"amps": amps})

    read = read_sheet(changed(fill))
    wire = read.sheet.wires[3]
    assert (wire.at, wire.mm2, wire.metres) == (at, mm2, metres)
    assert read.values["M1"].amps == amps
    assert read_sheet(write_sheet(read.sheet)) == read == read_again(read.sheet)


def test_the_published_schema_is_that_of_the_models() -> None:
    assert FILE.read_text(encoding="utf-8") == schema_text()
