"""A free layout of a connector's face: every way on a spot of its own, and bad ones told."""

from __future__ import annotations

import json
from typing import Any

import pytest

from footwell.sheet.reading import SheetError, read_data, read_sheet
from footwell.sheet.writing import write_sheet

from .wiring_rig import sheet_of

ROUND = {"1": [1, 0], "2": [0, 1], "3": [2, 1]}


def with_spots(spots: dict[str, Any]) -> dict[str, Any]:
    data = sheet_of(3)
    data["connectors"][0]["spots"] = spots
    return data


def told(spots: dict[str, Any]) -> str:
    with pytest.raises(SheetError) as refused:
        read_data(with_spots(spots))
    return " ".join([refused.value.sentence, *refused.value.details])


def test_a_free_layout_is_read_and_written_as_it_was() -> None:
    read = read_sheet(json.dumps(with_spots(ROUND)))
    assert read.sheet.connectors[0].spots == ROUND
    assert read_sheet(write_sheet(read.sheet)).sheet == read.sheet


def test_two_ways_on_one_spot_are_told() -> None:
    assert "Ways 1 and 2 of X1 lie on one spot" in told(ROUND | {"2": [1, 0]})


def test_a_way_without_a_spot_is_told() -> None:
    assert "Way 3 of X1 has no spot" in told({"1": [1, 0], "2": [0, 1]})


def test_a_spot_of_a_way_that_does_not_exist_is_told() -> None:
    assert "9" in told(ROUND | {"9": [2, 2]})
