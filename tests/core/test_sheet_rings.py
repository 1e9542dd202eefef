"""Rings of wires and plugs are told, with what is in them; a sheet without one says nothing."""

from __future__ import annotations

from typing import Any

import pytest

from footwell.sheet.list_reading import take_list
from footwell.sheet.reading import read_data
from footwell.sheet.rings import rings

from .job_rig import MINIBUS
from .job_rig import sheet as data_of
from .sample_circuits import NAMES


def with_plugs(closed: bool) -> dict[str, Any]:
    """The minibus's sheet, with three plugs in a row beside a wire of it, the row closed or not."""
    data = data_of(MINIBUS)
    names = ["X21", "X22", "X23"]
    for name in names:
        plug = {"id": name, "name": f"plug {name}", "half_a": "one side", "half_b": "other side"}
        data["connectors"].append(plug | {"rows": [["1"]], "spare": [] if closed else ["1"]})
    ends = zip(names, names[1:] + names[:1], strict=True)
    wires = [
        {"id": f"V{n}", "start": f"{a}.1.b", "end": f"{b}.1.a"} for n, (a, b) in enumerate(ends)
    ]
    data["wires"] += wires if closed else wires[:2]
    return data


@pytest.mark.parametrize("name", NAMES)
def test_the_sheets_of_the_library_have_no_ring(name: str) -> None:
    assert rings(read_data(data_of(name)).sheet) == []


def test_a_ring_of_plugs_is_told_by_what_is_in_it_and_an_open_row_is_not() -> None:
    told = read_data(with_plugs(closed=True)).odd
    assert "form a ring" in told[0]
    assert all(name in told[0] for name in ("X21", "X22", "X23", "V0", "V1", "V2"))
    assert not any("form a ring" in line for line in read_data(with_plugs(closed=False)).odd)


def test_two_wires_between_the_same_points_are_told_as_such() -> None:
    data = data_of(MINIBUS)
    twin = next(w for w in data["wires"] if w["id"] == "W8") | {"id": "V8"}
    told = rings(read_data(data | {"wires": [*data["wires"], twin]}).sheet)
    assert told == [
        "W8 and V8 join the same points: with one of them broken the other carries all."
    ]


def test_a_list_that_closes_a_ring_is_taken_and_says_so() -> None:
    sheet = read_data(data_of(MINIBUS)).sheet
    taken = take_list("wire,from,to\r\nV8,X1.3.b,X4.1.a\r\n", sheet)
    assert any("join the same points" in notice for notice in taken.notices)
    open_list = take_list("wire,from,to,colour\r\nW8,X1.3.b,X4.1.a,BK\r\n", sheet)
    assert not any("same points" in notice for notice in open_list.notices)
