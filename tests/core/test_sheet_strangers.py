"""Whatever a stranger writes into a sheet, it is read or refused with sentences."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from footwell.sheet.errors import SheetError
from footwell.sheet.reading import read_data, read_sheet

from .sheet_samples import CIRCUITS, TEXT

Spot = tuple[str, tuple[str | int, ...]]
"""A sheet's text and the path of a value in it."""

SMALL_JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=6),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=6), inner),
    max_leaves=6,
)


def spots(data: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """The path of every value in plain data."""
    keys = range(len(data)) if isinstance(data, list) else data if isinstance(data, dict) else ()
    for key in keys:
        yield (*path, key)
        yield from spots(data[key], (*path, key))


SHEETS = tuple(file.read_text(encoding="utf-8") for file in CIRCUITS)
SPOTS_OF = {text: tuple(spots(json.loads(text))) for text in SHEETS}
SPOTS = tuple((text, path) for text, paths in SPOTS_OF.items() for path in paths)


def owner(data: Any, path: tuple[str | int, ...]) -> Any:
    for step in path[:-1]:
        data = data[step]
    return data


def is_read_or_told(data: Any) -> None:
    try:
        read_data(data)
    except SheetError as refused:
        told = refused.problems
        assert told
        assert all(each.place and each.sentence and each.remedy for each in told)


@settings(max_examples=400, deadline=None)
@given(st.sampled_from(SPOTS), SMALL_JSON)
def test_any_value_in_any_field(spot: Spot, value: object) -> None:
    text, path = spot
    data = json.loads(text)
    owner(data, path)[path[-1]] = value
    is_read_or_told(data)


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(SPOTS))
def test_any_field_or_element_left_out(spot: Spot) -> None:
    text, path = spot
    data = json.loads(text)
    del owner(data, path)[path[-1]]
    is_read_or_told(data)


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(SPOTS), st.integers(0, 10**6))
def test_any_value_in_the_place_of_another(spot: Spot, chosen: int) -> None:
    text, one = spot
    other = SPOTS_OF[text][chosen % len(SPOTS_OF[text])]
    data, drawn = json.loads(text), json.loads(text)
    owner(data, one)[one[-1]] = owner(drawn, other)[other[-1]]
    is_read_or_told(data)


@settings(max_examples=200, deadline=None)
@given(st.integers(0, len(TEXT)), st.integers(0, 40), st.text(max_size=5))
def test_any_stretch_of_the_text_replaced(start: int, length: int, put_in: str) -> None:
    text = TEXT[:start] + put_in + TEXT[start + length :]
    try:
        read_sheet(text)
    except SheetError as refused:
        assert all(each.place and each.sentence and each.remedy for each in refused.problems)
