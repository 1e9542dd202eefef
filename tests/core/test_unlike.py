"""A vehicle that is not like its sheet: what fits no fault is told, and nothing is renewed for it."""

from __future__ import annotations

from footwell.diagnosis.conclude import Next, conclude
from footwell.diagnosis.unlike import UNLIKE_FROM, astray
from footwell.job.replay import replay
from footwell.messages import FinishedStep
from footwell.page.job_view import job_view

from .job_rig import Job

ODD = (("F1.1", 11.3), ("F1.2", -6.41), ("X1.1.a", 7.77))
"""Volts that no fault of the minibus makes, one of them below earth."""
BLOWN = (("F1.1", 25.1), ("F1.2", 0.0), ("X1.1.a", 0.0))


def dead_fan(*readings: tuple[str, float]) -> Job:
    job = Job().tools("meter").dead()
    for place, volts in readings:
        job.volts(place, volts, "1")
    return job


def step(job: Job) -> Next:
    return conclude(replay(job.stored()).case).step


def test_readings_that_fit_nothing_end_the_search_and_are_told_with_what_to_do() -> None:
    shown = job_view(dead_fan(*ODD).stored()).step
    assert isinstance(shown, FinishedStep) and not shown.solved
    assert shown.title == "Something here is not on this sheet"
    words = " ".join(shown.lines)
    assert "11.3 V" in words and "6.4 V" in words and "renew nothing for it" in words
    assert "Read these once more" in words


def test_as_many_readings_that_a_fault_explains_lead_to_its_repair() -> None:
    found = step(dead_fan(*BLOWN))
    assert found.kind != "finished"
    case = replay(dead_fan(*BLOWN).stored()).case
    belief = conclude(case).belief
    assert belief.none < 0.05 and not astray(case, belief)
    assert belief.suspects[0].left[0][0] == "F1"


def test_one_reading_that_fits_nothing_is_taken_for_a_slip() -> None:
    case = replay(dead_fan(ODD[0], *BLOWN[1:]).stored()).case
    found = conclude(case)
    assert [item.check.red for item in astray(case, found.belief)] == ["F1.1"]
    assert found.belief.none < UNLIKE_FROM and found.step.kind != "finished"
