"""What is kept between two looks at a job changes nothing: a look at a stranger's job says the same."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

import pytest

from core.loop_rig import ALL_TOOLS, read
from core.sample_circuits import sample
from footwell.checks.memory import spare
from footwell.circuit.circuit import AS_DRAWN, arranged
from footwell.circuit.fault import Fault
from footwell.diagnosis import recall
from footwell.diagnosis.belief import Belief, believe
from footwell.diagnosis.case import Case, Evidence, Hypothesis
from footwell.diagnosis.course import Track
from footwell.diagnosis.likelihood import Piece
from footwell.faults.miswiring import slips
from footwell.job.events import Event
from footwell.job.replay import circuits_of, replay
from footwell.practice.electrician import begin, work
from footwell.practice.vehicle import Vehicle

JOBS = {
    "minibus-saloon-fan": (Fault("M1", "stiff", 0.6), Fault("R1", "open:thermal fuse")),
    "van-rear-screen": (Fault("W4", "high_resistance", 20.0),),
}


@cache
def worked(name: str) -> list[Event]:
    """A job from the complaint to its end, repairs and looking again with it."""
    vehicle = Vehicle(circuits_of(read(name)), JOBS[name])
    run = begin(read(name).sheet, vehicle, ALL_TOOLS)
    work(run, vehicle)
    return run.events


def case_of(events: Sequence[Event]) -> Case:
    return replay(events).case


def afresh(case: Case) -> Belief:
    """The belief of somebody who has not looked before."""
    kept = case.drawn.cache.pop("recall", None)
    found = believe(case)
    case.drawn.cache["recall"] = kept
    return found


def without(events: Sequence[Event], kind: str) -> list[Event]:
    """The job with its last entry of a kind withdrawn."""
    gone = [e for e in events if e.kind == kind][-1]
    last = events[-1]
    body = f'{{"device": "{gone.device}", "n": {gone.n}}}'
    data = {**last.model_dump(), "n": last.n + 1, "kind": "event withdrawn", "body": body}
    return [*events, Event.model_validate(data)]


@pytest.mark.parametrize("name", JOBS)
def test_every_look_of_a_job_says_what_a_first_look_would_say(name: str) -> None:
    events = worked(name)
    for n in range(2, len(events) + 1):
        case = case_of(events[:n])
        assert believe(case) == afresh(case), n


@pytest.mark.parametrize("kind", ["reading taken", "positions tried", "repair done"])
def test_what_is_withdrawn_is_forgotten(kind: str) -> None:
    events = worked("minibus-saloon-fan")
    believe(case_of(events))
    case = case_of(without(events, kind))
    assert case.evidence != case_of(events).evidence or case.epochs != case_of(events).epochs
    assert believe(case) == afresh(case)


def sets_kept(case: Case) -> int:
    """Predictions of sets of faults that the circuit of a job keeps."""
    names = ("expected", "outlook", "outside")
    return sum(
        isinstance(key, tuple) and key[0] in names and len(key) == 3 and len(key[2]) > 1
        for key in case.now.cache
    )


def test_predictions_of_sets_of_faults_are_kept_up_to_a_number_and_the_newest_stay(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Twin: without the limit they grow beyond it."""
    case = case_of(worked("minibus-saloon-fan"))
    case.now.cache.clear()
    monkeypatch.setattr(recall, "spare", lambda _: None)
    believe(case)
    grown, newest = sets_kept(case), [*case.now.cache][-1]
    assert grown > 1_000
    spare(case.now, 1_000)
    assert sets_kept(case) == 1_000 and newest in case.now.cache


@pytest.mark.parametrize("name", JOBS)
def test_what_was_forgotten_is_predicted_anew_and_the_same(name: str) -> None:
    events = worked(name)
    kept = [believe(case_of(events[:n])) for n in range(2, len(events) + 1)]
    for n, belief in enumerate(kept, start=2):
        case = case_of(events[:n])
        spare(case.now, 0)
        assert sets_kept(case) == 0
        assert believe(case) == belief, n


def test_two_jobs_on_one_sheet_say_nothing_of_each_other() -> None:
    events = worked("minibus-saloon-fan")
    vehicle = Vehicle(circuits_of(read("minibus-saloon-fan")), (Fault("F1", "open"),))
    run = begin(read("minibus-saloon-fan").sheet, vehicle, ALL_TOOLS)
    work(run, vehicle)
    for one, other in zip(range(3, len(events)), range(3, len(run.events)), strict=False):
        for case in (case_of(events[:one]), case_of(run.events[:other])):
            assert believe(case) == afresh(case)


def weighed(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Hypothesis, Piece]]:
    """What single suspects are asked for from now on."""
    plain, asked = recall.log_chance, list[tuple[Hypothesis, Piece]]()

    def noted(case: Case, h: Hypothesis, piece: Piece, track: Track) -> float:
        asked.extend([(h, piece)] if len(h.faults) < 2 else [])
        return plain(case, h, piece, track)

    monkeypatch.setattr(recall, "log_chance", noted)
    return asked


def items_of(asked: Sequence[tuple[Hypothesis, Piece]]) -> set[Evidence]:
    return {item for _, piece in asked for item in piece.items}


def test_single_suspects_weigh_only_what_is_new(monkeypatch: pytest.MonkeyPatch) -> None:
    events = worked("minibus-saloon-fan")
    last = next(n for n, e in enumerate(events) if e.kind == "reading taken")
    before, after = case_of(events[:last]), case_of(events[: last + 1])
    asked = weighed(monkeypatch)
    after.drawn.cache.pop("recall", None)
    believe(before)
    assert items_of(asked) == {*before.evidence}
    asked.clear()
    believe(after)
    assert items_of(asked) == {*after.evidence} - {*before.evidence}


def test_plug_put_right_leaves_nothing_to_be_weighed_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = read("hatchback-headlamps")
    slip = slips(sample("hatchback-headlamps"), ("X3", "a"))[0]
    wired = arranged(AS_DRAWN, slip.half, dict(slip.wiring))
    vehicle = Vehicle(circuits_of(sheet), (), wired)
    run = begin(sheet.sheet, vehicle, ALL_TOOLS, rewired=["X3"])
    work(run, vehicle)
    right = next(n for n, e in enumerate(run.events) if e.kind == "wiring corrected")
    before, after = case_of(run.events[:right]), case_of(run.events[: right + 1])
    assert before.epochs[-1].arrangement and not after.epochs[-1].arrangement
    believe(before)
    asked = weighed(monkeypatch)
    kept = believe(after)
    assert not [h for h, _ in asked if len(h.faults) == 1]
    assert kept == afresh(after)


def test_look_that_fails_keeps_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    case = case_of(worked("van-rear-screen"))
    case.drawn.cache.pop("recall", None)
    plain, left = recall.log_chance, [40]

    def failing(case: Case, h: Hypothesis, piece: Piece, track: Track) -> float:
        left[0] -= 1
        if not left[0]:
            raise RuntimeError("stopped half way")
        return plain(case, h, piece, track)

    monkeypatch.setattr(recall, "log_chance", failing)
    with pytest.raises(RuntimeError):
        believe(case)
    monkeypatch.setattr(recall, "log_chance", plain)
    assert believe(case) == afresh(case)
