"""What is said of a way names it by the number that people see beside it, and a file's own name with it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from footwell.sheet.errors import ListError, SheetError
from footwell.sheet.list_reading import take_list
from footwell.sheet.reading import read_data

from .job_rig import MINIBUS, Job, sheet

Change = Callable[[dict[str, Any]], None]


def numbered() -> dict[str, Any]:
    """The sheet with the letters A, B, C and D beside the ways of the switch plug."""
    data = sheet(MINIBUS)
    plug(data)["numbers"] = {"1": "A", "2": "B", "3": "C", "4": "D"}
    return data


def plug(data: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = next(each for each in data["connectors"] if each["id"] == "X2")
    return found


def wire_ends(data: dict[str, Any], name: str, start: str) -> None:
    next(each for each in data["wires"] if each["id"] == name)["start"] = start


def told(change: Change, data: dict[str, Any]) -> str:
    change(data)
    with pytest.raises(SheetError) as refused:
        read_data(data)
    return " ".join(refused.value.details)


CASES: list[tuple[Change, str]] = [
    (
        lambda data: data["wires"].pop(3),
        "Way B of X2 leads nowhere: nothing is joined to X2.B.a. Add the wire that ends at X2.B.a (X2.2.a"
        " in the file)",
    ),
    (lambda data: wire_ends(data, "W3", "X2.9.a"), "Its ways are A (1 in the file), B (2 in the"),
    (
        lambda data: wire_ends(data, "W3", "X2.2"),
        "X2.B does not name a half of way B. Write X2.B.a",
    ),
    (lambda data: wire_ends(data, "W3", "X2.2.b"), "Let W3 end at X2.B.a (X2.2.a in the file)"),
    (lambda data: plug(data)["part_ways"].update({"3": "S1.1"}), "to X2.B.b (X2.2.b in the file)"),
    (
        lambda data: plug(data).update(spots={"1": [0, 0]}),
        "Way B (2 in the file) of X2 has no spot",
    ),
]


@pytest.mark.parametrize(("change", "sentence"), CASES)
def test_a_sheet_that_cannot_be_used_is_told_by_the_numbers_that_people_see(
    change: Change, sentence: str
) -> None:
    assert sentence in told(change, numbered())
    own = told(change, sheet(MINIBUS))
    assert "in the file" not in own and "X2.B" not in own


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("W3,X2.B,X2.B.a", "Both ends of this wire are at X2.B.a."),
        ("W3,X2.B.b,X1.1.a", "Write X2.B.a."),
        ("W3,X2.B.c,X1.1.a", "X2.B.c does not name a half of way B"),
    ],
)
def test_a_list_is_refused_by_the_numbers_that_people_see(line: str, sentence: str) -> None:
    with pytest.raises(ListError) as refused:
        take_list(f"wire,from,to\n{line}\n", read_data(numbered()).sheet)
    assert sentence in " ".join(refused.value.details)


def test_an_entry_is_refused_by_the_numbers_that_people_see() -> None:
    job = Job().add("sheet edited", changes=[{"element": "X1.2", "field": "number", "value": "Q"}])
    taken = {"instrument": "ohms", "red": "X1.2.a", "black": "earth", "choice": "", "value": 1.0}
    problems = job.add("reading taken", **taken).look()["problems"]
    assert any("X1.Q.a belongs to no part" in each for each in problems)
