"""A wire that is found in another way of its plug than the sheet has it: the plug is looked into, and the
wire is neither renewed nor put back by itself."""

from __future__ import annotations

import pytest

from footwell.circuit.circuit import AS_DRAWN, ENDS, arranged
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import look_id
from footwell.diagnosis.conclude import conclude
from footwell.faults.miswiring import as_drawn
from footwell.job.replay import replay
from footwell.job.stored import wire_on_sheet
from footwell.page.ends_view import places_of

from .job_rig import Job
from .loop_rig import Trial, tried
from .misplaced_rig import EXCHANGED, GLOW, HALF, cold, drawn_run, in_way, led
from .sample_circuits import sample


def test_plug_is_looked_into_where_a_wire_sits_in_another_way_of_it() -> None:
    job = led(in_way("87"))
    step = conclude(replay(job.stored()).case).step
    assert (step.kind, step.half, step.purpose) == ("wiring", HALF, "misplaced")
    assert replay(job.stored()).case.epochs[-1].arrangement == AS_DRAWN
    view = job.look()
    assert "in another way than on the sheet" in view["step"]["why"] and not view["problems"]


def test_plug_is_not_looked_into_where_the_wire_sits_in_its_own_way() -> None:
    step = conclude(replay(led(drawn_run()).stored()).case).step
    assert step.purpose != "misplaced"


def test_wire_told_in_its_own_way_after_all_sends_nobody_to_the_plug() -> None:
    step = conclude(replay(led(in_way("87"), drawn_run()).stored()).case).step
    assert step.purpose != "misplaced"


def test_withdrawn_it_sends_nobody_to_the_plug() -> None:
    job = led(in_way("87"))
    step = conclude(replay(job.withdraw(len(job.events)).stored()).case).step
    assert step.purpose != "misplaced"


@pytest.mark.parametrize("wrong", [True, False])
def test_what_is_seen_in_the_plug_counts_and_the_wire_is_not_put_back_by_itself(
    wrong: bool,
) -> None:
    seen = EXCHANGED if wrong else as_drawn(sample(GLOW), HALF)
    job = led(in_way("87")).add("wiring found", connector="X1", half="a", found=seen)
    case = replay(job.stored()).case
    assert not case.misplaced
    assert case.epochs[-1].arrangement == (arranged(AS_DRAWN, HALF, seen) if wrong else AS_DRAWN)


def test_put_right_with_its_plug_the_wire_sits_where_the_sheet_has_it() -> None:
    job = led(in_way("87")).add("wiring found", connector="X1", half="a", found=EXCHANGED)
    job.add("wiring corrected", connector="X1", half="a", now=as_drawn(sample(GLOW), HALF))
    case = replay(job.stored()).case
    assert case.epochs[-1].arrangement == AS_DRAWN and case.positions_due


def test_where_the_plug_cannot_be_looked_into_the_wire_is_put_back_by_itself() -> None:
    job = led(in_way("87")).add("check skipped", check=look_id(HALF), reason="other")
    found = dict(replay(job.stored()).case.epochs[-1].arrangement)
    assert [*found] == [("W13", ENDS)]
    assert conclude(replay(job.stored()).case).step.purpose == "put back"


def test_plug_that_was_looked_into_before_is_not_asked_for_again() -> None:
    job = cold().add("wiring found", connector="X1", half="a", found=as_drawn(sample(GLOW), HALF))
    wire, start, end = in_way("87")
    job.add("wire followed", wire=wire, start=start, end=end)
    case = replay(job.stored()).case
    assert not case.misplaced and [*dict(case.epochs[-1].arrangement)] == [("W13", ENDS)]


def test_wires_in_each_others_ways_are_put_right_and_neither_is_renewed() -> None:
    done = tried(Trial(GLOW, (), arranged(AS_DRAWN, HALF, EXCHANGED)))
    assert done.right and not done.good_parts, done.steps
    assert done.steps[-3:-1] == ("look into X1", "put right X1"), done.steps


def test_wire_that_sits_where_it_should_and_is_broken_is_renewed() -> None:
    done = tried(Trial(GLOW, (Fault("W13", "open"),)))
    assert done.right and not done.good_parts
    assert "repair W13 open" in done.steps and "look into X1" not in done.steps


LOCKS, SWAPPED = "hatchback-door-locks", {"1": "W7", "2": "W6", "3": "W3"}


def test_contact_is_not_made_anew_before_its_plug_was_looked_into() -> None:
    done = tried(Trial(LOCKS, (), arranged(AS_DRAWN, HALF, SWAPPED)))
    assert done.right and not done.good_parts, done.steps
    assert "put right X1" in done.steps


PUMP, PLUG = "estate-fuel-pump", ("X3", "a")
"""The tank plug has four ways, of which two are empty."""


def test_a_wire_may_be_told_in_an_empty_way_and_not_on_the_parts_own_side() -> None:
    told = {place.id: place.name for place in places_of(sample(PUMP))}
    assert told["X3.4.a"] == "empty way 4 of tank plug X3, wire side"
    assert "X3.1.a" in told and not {"X3.1.b", "X3.4.b"} & told.keys()
    for point in told:
        wire_on_sheet(sample(PUMP), "W5", point)


def test_a_wire_in_an_empty_way_leads_to_its_plug() -> None:
    (wire,) = (w for w in sample(PUMP).sheet.wires if "X3.1.a" in (w.start, w.end))
    ends = {"start": wire.start, "end": wire.end}
    moved = {key: "X3.4.a" if point == "X3.1.a" else point for key, point in ends.items()}
    job = Job(PUMP).tools("meter")
    assert not replay(job.stored()).case.misplaced
    job.add("wire followed", wire=wire.id, **moved)
    assert replay(job.stored()).case.misplaced == (PLUG,)
