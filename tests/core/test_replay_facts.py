"""What entries make known beside readings: values of the sheet, the sitting, what was left out and why."""

from __future__ import annotations

import pytest

from footwell.checks.check import VOLTS
from footwell.job.replay import Replayed, replay

from .job_rig import Job


def replayed(job: Job) -> Replayed:
    return replay(job.stored())


def change(element: str, field: str, value: object) -> dict[str, object]:
    return {"element": element, "field": field, "value": value}


def test_a_value_found_on_the_vehicle_is_on_the_sheet_and_one_that_cannot_be_is_not() -> None:
    good, bad = change("W3", "colour", "RD"), change("W3", "colour", "plaid")
    assert _colour(replayed(Job().add("sheet edited", changes=[good]))) == "RD"
    refused = replayed(Job().add("sheet edited", changes=[bad]))
    assert _colour(refused) == "GN/WH"
    assert any("plaid" in problem for problem in refused.problems)


def _colour(known: Replayed) -> str | None:
    return next(w.colour for w in known.read.sheet.wires if w.id == "W3")


def test_the_supply_measured_at_the_beginning_of_a_sitting_is_evidence_and_none_is_not() -> None:
    known = replayed(Job().add("sitting begun", engine="off", supply_volts=25.1)).case
    (taken,) = known.evidence
    assert (taken.check.instrument, taken.value) == (VOLTS, 25.1)  # type: ignore[union-attr]
    assert replayed(Job().add("sitting begun", engine="off")).case.evidence == ()


@pytest.mark.parametrize("absent", [{"complaint": "absent"}, {"choice": "not steady"}])
def test_a_reading_without_the_complaint_or_unsteady_clears_nothing(
    absent: dict[str, str],
) -> None:
    assert replayed(Job().volts("X4.1.a", 12.0, "3", **absent)).case.evidence == ()
    assert len(replayed(Job().volts("X4.1.a", 12.0, "3")).case.evidence) == 1


def test_a_place_that_cannot_be_reached_and_a_tool_that_is_missing_are_remembered() -> None:
    job = Job().tools("meter", "clamp")
    job.add("check skipped", check="volts X4.1.a earth S1=1", reason="cannot reach")
    job.add("check skipped", check="clamp W8 S1=1", reason="no instrument")
    job.add("check skipped", check="volts F1.2 earth S1=1", reason="other")
    case = replayed(job).case
    assert case.unreachable == {"X4"}
    assert case.tools.names == ("meter",)
    assert len(case.skipped) == 3


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ({"instrument": "volts", "red": "X9.1.a"}, "not a place"),
        ({"instrument": "volts", "red": "F1.2", "black": "F1.2"}, "one and the same metal"),
        ({"instrument": "ohms", "red": "X1.1.a", "black": "X2.1.a"}, "belongs to no part"),
        ({"instrument": "substitute lamp", "red": "X4"}, "needs a load's plug"),
        ({"instrument": "direct feed", "red": "F1"}, "is not a load"),
    ],
)
def test_a_reading_that_the_sheet_has_no_place_for_is_kept_and_told(
    body: dict[str, str], told: str
) -> None:
    known = replayed(Job().add("reading taken", value=1.0, **body))
    assert known.case.evidence == ()
    assert any(told in problem for problem in known.problems)
