"""A position is the same however its accents were typed: one sign with its letter, or a sign of their own."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from footwell.names import composed
from footwell.sheet.errors import SheetError
from footwell.sheet.reading import read_data

from .job_rig import MINIBUS, Job, sheet
from .terminal_rig import printed

COMPOSED, APART, OTHER = "Zündung", "Zu\u0308ndung", "Zundung"


def named(**written: str) -> dict[str, Any]:
    """The sheet whose third position of the switch is written so, at each place where it is written."""
    data = sheet(MINIBUS)
    part = next(each for each in data["parts"] if each["id"] == "S1")
    closes = part["values"]["closes"]
    part["values"]["closes"] = {
        written.get("closes", COMPOSED) if position == "3" else position: pairs
        for position, pairs in closes.items()
    }
    control = next(each for each in data["controls"] if each["part"] == "S1")
    for position in control["positions"]:
        if position["id"] == "3":
            position["id"] = written.get("position", COMPOSED)
    for complaint in data["complaints"]:
        for seen in complaint["states"]:
            if seen["controls"].get("S1") == "3":
                seen["controls"]["S1"] = written.get("complaint", COMPOSED)
    return data


PLACES = ("closes", "position", "complaint")


def test_the_two_forms_are_unlike_as_they_are_typed() -> None:
    assert APART != COMPOSED == composed(APART) != composed(OTHER)


@pytest.mark.parametrize("place", PLACES)
def test_a_sheet_may_write_a_position_in_either_form(place: str) -> None:
    one, other = read_data(named(**{place: APART})), read_data(named())
    assert one.values == other.values
    assert one.sheet.controls == other.sheet.controls
    assert one.sheet.complaints == other.sheet.complaints


@pytest.mark.parametrize("place", PLACES)
def test_a_position_of_another_name_is_still_told(place: str) -> None:
    with pytest.raises(SheetError, match=OTHER):
        read_data(named(**{place: OTHER}))


@pytest.mark.parametrize("written", [COMPOSED, APART])
def test_a_reading_counts_in_whichever_form_its_position_came(written: str) -> None:
    job = Job(MINIBUS)
    job.events.clear()
    job.add("job opened", title="Fan", sheet=named(position=APART))
    job.volts("F1.2", 24.0, written)
    assert job.look()["problems"] == []


def test_a_reading_in_a_position_that_is_none_is_told() -> None:
    job = Job(MINIBUS)
    job.events.clear()
    job.add("job opened", title="Fan", sheet=named())
    job.volts("F1.2", 24.0, OTHER)
    assert OTHER in str(job.look()["problems"])


@pytest.mark.parametrize("written", [COMPOSED, APART])
def test_the_terminal_takes_a_position_in_either_form(written: str, tmp_path: Path) -> None:
    file = tmp_path / "sheet.json"
    file.write_text(json.dumps(named(), ensure_ascii=False), "utf-8")
    assert printed("expect", str(file), "--control", f"S1={written}")
