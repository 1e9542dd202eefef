"""What stands on the last screen where not all is proven: it works again, or it does not."""

from __future__ import annotations

from footwell.diagnosis.belief import believe
from footwell.diagnosis.conclude import Conclusion, Next
from footwell.job.replay import replay
from footwell.messages import FinishedStep
from footwell.page.finished_view import finished_view

from .job_rig import Job


def last_screen(**fan: str) -> FinishedStep:
    case = replay(Job().tools("meter").positions(**fan).stored()).case
    return finished_view(case, Conclusion(believe(case), (), Next("finished", solved=False)), [])


def test_where_every_position_works_nothing_is_to_be_renewed_for_what_is_not_proven() -> None:
    step = last_screen(p1="runs", p2="runs", p3="runs")
    assert not step.solved and step.title == "It works again, but not all is proven"
    assert any("renew nothing for it" in line for line in step.lines)


def test_where_the_fan_stands_still_more_tools_or_places_are_asked_for() -> None:
    step = last_screen(p1="still", p2="still", p3="still")
    assert not step.solved and step.title == "No further check helps from here"
    assert any("Add a tool" in line for line in step.lines)
