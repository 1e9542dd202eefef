"""A practice job: the core hides a fault, answers the readings of whoever asks, and tells both roads."""

from __future__ import annotations

import json
from functools import cache

import pytest

from footwell import messages as m
from footwell.errors import FootwellError
from footwell.job.events import EVENT_FORMAT, Event, ReadingTaken
from footwell.job.links import decode, make
from footwell.job.replay import replay
from footwell.page.job_view import job_view
from footwell.page.practice_view import answer, begin, end
from footwell.page.typed import FACTORS, number
from footwell.practice.hidden import complains, hidden_vehicle, worked_on

from .loop_rig import read
from .sample_circuits import MINIBUS, NAMES

SEEDS = range(8)


def event(n: int, kind: str, body: object) -> Event:
    text = body if isinstance(body, str) else json.dumps(body, ensure_ascii=False)
    return Event(device="phone", n=n, job="job", kind=kind, format=EVENT_FORMAT, body=text)


@cache
def begun(sheet: str, seed: int) -> tuple[Event, ...]:
    data = read(sheet).sheet.model_dump(mode="json", exclude_unset=True)
    entries = begin(m.PracticeWanted(sheet=data, seed=seed)).entries
    return tuple(event(n, e.kind, e.body) for n, e in enumerate(entries, 1))


def done(events: list[Event], most: int = 40) -> list[Event]:
    """The job after somebody has done all that is proposed, with the answers of the practice vehicle."""
    for _ in range(most):
        step = job_view(events).step
        if step.kind == "finished":
            return events
        events = [*events, event(len(events) + 1, *_act(events, step))]
    raise AssertionError("never finished")


def _act(events: list[Event], step: m.Step) -> tuple[str, object]:
    if step.kind == "check":
        told = answer(m.PracticeAsked(events=events, record=step.check.record))
        return "reading taken", taken(step.check.record, told).model_dump_json(exclude_none=True)
    if step.kind == "positions":
        states = answer(m.PracticeAsked(events=events)).states
        return "positions tried", {"seen_by": "me", "states": [s.model_dump() for s in states]}
    if step.kind == "repair":
        return "repair done", {"element": step.element, "mode": step.mode, "what": "renewed"}
    if step.kind == "ends":
        start, end = (each.point for each in step.ends)
        return "wire followed", {"wire": step.wire, "start": start, "end": end}
    half = {"connector": step.connector, "half": step.half}
    found = answer(m.PracticeAsked(events=events, **half)).found
    views = (
        c for c in job_view(events).connectors if (c.id, c.half) == (step.connector, step.half)
    )
    view = next(views)
    if view.inspected:
        return "wiring corrected", {**half, "now": {w.way: w.should for w in view.ways}}
    return "wiring found", {**half, "found": found}


def taken(record: ReadingTaken, told: m.PracticeAnswer) -> ReadingTaken:
    if told.choice:
        return record.model_copy(update={"choice": told.choice})
    value = number(told.typed)
    assert value is not None and told.unit
    return record.model_copy(update={"value": value * FACTORS[told.unit]})


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("sheet", NAMES)
def test_what_is_hidden_shows_and_is_not_told_before_the_end(sheet: str, seed: int) -> None:
    events = list(begun(sheet, seed))
    assert complains(hidden_vehicle(replay(events)))
    view = job_view(events)
    assert view.practice and view.complaint
    assert not view.suspects.proven
    assert "practice begun" not in {row.kind for row in view.history}


def test_the_same_seed_hides_the_same_and_others_hide_other_things() -> None:
    bodies = [begun(MINIBUS, seed)[1].body for seed in SEEDS]
    again = begin(
        m.PracticeWanted(
            sheet=read(MINIBUS).sheet.model_dump(mode="json", exclude_unset=True), seed=3
        )
    )
    assert json.loads(bodies[3]) == again.entries[1].body
    assert len(set(bodies)) > len(bodies) / 2


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_a_practice_job_worked_as_proposed_ends_with_nothing_left_hidden(seed: int) -> None:
    events = done(list(begun(MINIBUS, seed)))
    told = end(events)
    assert told.hidden and not told.left
    assert told.own.checks == told.footwells.checks
    assert told.own.minutes == told.footwells.minutes > 0


def test_a_practice_job_given_up_tells_what_is_left_and_footwells_road() -> None:
    events = list(begun(MINIBUS, 0))
    told = end(events)
    assert told.left == told.hidden
    assert told.own.lines == [] and told.own.checks == 0
    assert told.footwells.lines and told.footwells.checks > 0


def test_renewing_a_sound_part_leaves_the_fault_and_renewing_the_faulty_one_does_not() -> None:
    seed = next(s for s in SEEDS if not hidden_vehicle(replay(begun(MINIBUS, s))).arrangement)
    events = list(begun(MINIBUS, seed))
    faulty = {f.element for f in hidden_vehicle(replay(events)).standing}
    sound = next(p.id for p in read(MINIBUS).sheet.parts if p.id not in faulty)
    for names, left in (([sound], True), (sorted(faulty), False)):
        acts = [
            event(len(events) + n, "repair done", {"element": e, "mode": "", "what": "renewed"})
            for n, e in enumerate(names, 1)
        ]
        assert complains(worked_on(replay([*events, *acts]))) is left


def test_a_job_of_a_real_vehicle_is_given_no_computed_readings() -> None:
    events = [e for e in begun(MINIBUS, 0) if e.kind != "practice begun"]
    with pytest.raises(FootwellError, match="real vehicle"):
        answer(m.PracticeAsked(events=events))
    assert not job_view(events).practice


def test_the_report_of_a_practice_job_says_so_first_and_that_of_a_vehicle_does_not() -> None:
    events = list(begun(MINIBUS, 0))
    assert job_view(events).report[0].title == "Practice"
    real = [e for e in events if e.kind != "practice begun"]
    assert "Practice" not in {s.title for s in job_view(real).report}


def test_a_practice_job_stays_one_in_a_link() -> None:
    events = list(begun(MINIBUS, 1))
    there = decode(make(events))
    assert job_view(there).practice
    assert end(there) == end(events)
