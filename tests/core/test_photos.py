"""Photos of a connector in a job: told in its history and its report, and no evidence of anything."""

from __future__ import annotations

from typing import Any

import pytest

from .job_rig import Data, Job

SHA256 = "0123456789abcdef" * 4


def body(**changed: Any) -> Data:
    plain = {"connector": "X2", "half": "a", "shows": "half", "sha256": SHA256}
    return plain | {"width": 1600, "height": 1200, "bytes": 181_000} | changed


def told() -> Job:
    return Job().tools("meter").dead().volts("X4.1.a", 0.0, "3")


def photographed(**changed: Any) -> Job:
    return told().add("connector photographed", **body(**changed))


def evidence(job: Job) -> list[str]:
    (lines,) = [part["lines"] for part in job.look()["report"] if part["title"] == "Evidence"]
    return [line for line in lines if "photo" in line]


def test_a_photo_is_told_with_its_half_and_changes_no_belief() -> None:
    view, before = photographed().look(), told().look()
    assert view["problems"] == []
    assert view["history"][-1]["title"] == "Photo of switch plug X2, wire side"
    for part in ("step", "others", "suspects", "connectors", "path"):
        assert view[part] == before[part]


def test_a_photo_of_the_old_plug_says_so_and_one_of_the_other_half_too() -> None:
    job = photographed(shows="old plug").add("connector photographed", **body(half="b"))
    titles = [line["title"] for line in job.look()["history"]]
    assert titles[-2:] == [
        "Photo of old plug of switch plug X2, wire side",
        "Photo of switch plug X2, switch",
    ]


def test_the_report_counts_photos_by_what_is_on_them_and_leaves_out_what_was_removed() -> None:
    job = photographed().add("connector photographed", **body(connector="X4", sha256="f" * 64))
    again = job.add("connector photographed", **body(sha256="e" * 64))
    assert evidence(again) == [
        "3 photos kept with the job: switch plug X2, wire side (2); motor plug X4, wire side (1)."
    ]
    assert evidence(again.withdraw(5).withdraw(6)) == [
        "1 photo kept with the job: switch plug X2, wire side (1)."
    ]
    assert evidence(again.withdraw(7)) == []
    assert evidence(told()) == []


def test_a_photo_of_a_connector_that_the_sheet_does_not_have_is_told_and_kept() -> None:
    view = photographed(connector="X9").look()
    assert view["problems"] == [
        "Entry 5 (connector photographed) is kept, but not used. X9 is not a connector on this sheet."
    ]
    assert view["history"][-1]["title"] == "Photo of X9"


@pytest.mark.parametrize(
    "changed",
    [
        {"half": "c"},
        {"shows": "the customer"},
        {"connector": ""},
        {"sha256": SHA256[1:]},
        {"sha256": SHA256.upper()},
        {"sha256": SHA256 + "\n"},
        {"width": 0},
        {"width": 1601},
        {"height": 1200.5},
        {"height": True},
        {"bytes": 0},
        {"bytes": 200_001},
        {"bytes": "9"},
    ],
    ids=str,
)
def test_a_body_out_of_bounds_is_kept_and_not_used(changed: Data) -> None:
    assert photographed(**changed).look()["problems"] == [
        "Entry 5 (connector photographed) cannot be read. It is kept, but not used."
    ]
