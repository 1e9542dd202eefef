"""Wires found in other ways of a plug that is then passed over, put back, looked into late, or not to be
opened."""

from __future__ import annotations

import pytest

from footwell.circuit.circuit import AS_DRAWN, ENDS, arranged
from footwell.diagnosis.case import Case, look_id
from footwell.diagnosis.conclude import conclude
from footwell.faults.miswiring import as_drawn
from footwell.job.replay import replay

from .job_rig import Job
from .misplaced_rig import (
    EXCHANGED,
    GLOW,
    HALF,
    cold,
    drawn_run,
    found_wrong,
    in_way,
    led,
    with_hazard,
)
from .sample_circuits import sample

OTHER = ("W14", "X1.86.a", "X2.1.a")
"""W14 in the way of W13, and where it belongs."""
OTHER_DRAWN = ("W14", "X1.85.a", "X2.1.a")
BOTH = {"30": "W2", "86": "W14", "85": "W13", "87": "W3"}
DRAWN = as_drawn(sample(GLOW), HALF)


def case_of(job: Job) -> Case:
    return replay(job.stored()).case


def runs(case: Case, epoch: int = -1) -> list[str]:
    """Wires that run otherwise than on the sheet, each by itself."""
    return [where for where, what in dict(case.epochs[epoch].arrangement) if what == ENDS]


def shut(job: Job) -> Job:
    return job.add("check skipped", check=look_id(HALF), reason="other")


def looked(job: Job, found: dict[str, str | None]) -> Job:
    return job.add("wiring found", connector="X1", half="a", found=found)


def righted(job: Job) -> Job:
    return job.add("wiring corrected", connector="X1", half="a", now=DRAWN)


def test_two_wires_in_each_others_way_are_both_known_where_nobody_can_look_into_the_plug() -> None:
    both = led(in_way("85"), OTHER)
    assert runs(case_of(shut(both))) == ["W13", "W14"]
    assert not runs(case_of(looked(both, BOTH))), "seen after all"
    assert case_of(both).epochs[-1].arrangement == arranged(AS_DRAWN, HALF, BOTH)


def test_plug_is_looked_into_until_no_wire_of_it_is_told_in_another_way() -> None:
    assert case_of(led(in_way("85"), OTHER, OTHER_DRAWN)).misplaced == (HALF,)
    assert not case_of(led(in_way("85"), OTHER, OTHER_DRAWN, drawn_run())).misplaced


@pytest.mark.parametrize("passed", [True, False])
def test_wire_that_was_put_back_explains_what_was_seen_before(passed: bool) -> None:
    told = led(in_way("85"))
    case = case_of((shut(told) if passed else told).add("wire put back", wire="W13"))
    assert runs(case, 0) == ["W13"] and case.epochs[1].arrangement == AS_DRAWN


def test_wire_that_the_plug_showed_in_its_own_way_explains_nothing() -> None:
    job = looked(led(in_way("85")), DRAWN).add("wire put back", wire="W13")
    assert [e.arrangement for e in case_of(job).epochs] == [AS_DRAWN, AS_DRAWN]


def test_plug_put_right_leaves_no_wire_of_it_to_be_put_back() -> None:
    job = looked(looked(cold(), DRAWN).add("wire followed", **told(in_way("85"))), BOTH)
    assert case_of(job).epochs[-1].arrangement == arranged(AS_DRAWN, HALF, BOTH)
    assert case_of(righted(job)).epochs[-1].arrangement == AS_DRAWN


def test_wire_that_ends_beside_the_plug_is_put_back_though_the_plug_was_put_right() -> None:
    job = looked(cold(), DRAWN).add("wire followed", **told(("W13", "F2.2", "SP1.1")))
    assert runs(case_of(righted(looked(job, BOTH)))) == ["W13"]


WIPER = "van-wiper"


@pytest.mark.parametrize("passed", [True, False])
def test_where_all_works_so_and_nobody_can_look_the_sheet_follows_the_wire(passed: bool) -> None:
    """The twin, where all does not work so, is put back: see test_misplaced."""
    (wire,) = (w for w in sample(WIPER).sheet.wires if w.id == "W6")
    ends = [p.replace("X1.1.a", "X1.2.a") for p in (wire.start, wire.end)]
    job = Job(WIPER).tools("meter").add("wire followed", **told(("W6", *ends)))
    if passed:
        job.add("check skipped", check=look_id(HALF), reason="cannot reach")
    case = case_of(job)
    (now,) = (w for w in case.drawn.sheet.wires if w.id == "W6")
    assert case.epochs[-1].arrangement == AS_DRAWN
    assert case.misplaced == (() if passed else (HALF,))
    assert ([now.start, now.end] == ends) == passed


@pytest.mark.parametrize(("hazard", "may"), [("restraint system", False), ("hot part", True)])
def test_nobody_is_sent_to_move_a_wire_in_a_plug_of_a_restraint_system(
    hazard: str, may: bool
) -> None:
    stored = with_hazard(hazard).add("wire followed", **told(in_way("85")))
    case = case_of(stored)
    assert (conclude(case).step.purpose == "misplaced") == may
    if may:
        shut(stored)
    step = stored.look()["step"]
    assert step["put_back"]
    assert any("Take it off way 85" in line for line in step["do"]) == may
    assert ("Qualified work only" in step["do"][0]) != may
    assert "way 86" in " ".join(step["do"])


@pytest.mark.parametrize(("hazard", "may"), [("restraint system", False), ("hot part", True)])
def test_nobody_is_sent_to_put_the_wires_of_a_restraint_systems_plug_right(
    hazard: str, may: bool
) -> None:
    """Somebody has looked into it unasked, and it is wired wrongly."""
    job = found_wrong(hazard)
    step = job.look()["step"]
    assert step["goal"].startswith("Put the wires" if may else "Have the wires")
    assert ("Qualified work only" in step["why"]) != may and step["hands_off"] != may
    moves = job.ask("wiring", connector="X1", half="a", found=EXCHANGED)["finding"]["moves"]
    assert ("Qualified work only" in moves[0]) != may and bool(moves[1:]) == may


def told(run: tuple[str, ...]) -> dict[str, str]:
    return dict(zip(("wire", "start", "end"), run, strict=True))
