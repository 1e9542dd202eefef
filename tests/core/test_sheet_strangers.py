"""Whatever a stranger writes into a sheet, it is read or refused with sentences."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from footwell.sheet.errors import SheetError
from footwell.sheet.reading import read_data, read_sheet

from .sheet_samples import TEXT

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


SPOTS = tuple(spots(json.loads(TEXT)))


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
def test_any_value_in_any_field(path: tuple[str | int, ...], value: object) -> None:
    data = json.loads(TEXT)
    owner(data, path)[path[-1]] = value
    is_read_or_told(data)


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(SPOTS))
def test_any_field_or_element_left_out(path: tuple[str | int, ...]) -> None:
    data = json.loads(TEXT)
    del owner(data, path)[path[-1]]
    is_read_or_told(data)


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(SPOTS), st.sampled_from(SPOTS))
def test_any_two_values_exchanged(one: tuple[str | int, ...], other: tuple[str | int, ...]) -> None:
    data, drawn = json.loads(TEXT), json.loads(TEXT)
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
