"""After a repair one odd word may be a mistake of the eye: the positions are asked for once more."""

from __future__ import annotations

import json
import random
from functools import cache
from typing import Any

from footwell.circuit.fault import Fault
from footwell.diagnosis.conclude import Next, conclude
from footwell.job.events import Event
from footwell.job.replay import replay
from footwell.messages import PositionsStep
from footwell.page.job_view import job_view
from footwell.practice.electrician import Run, begin, do, work
from footwell.practice.vehicle import Vehicle

from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from .sample_circuits import MINIBUS

TRIAL = Trial(MINIBUS, (Fault("R1", "open:thermal fuse"),))


@cache
def mended() -> tuple[Event, ...]:
    """The events of a job that ends well, the last of them the positions tried after the repair."""
    vehicle = vehicle_of(TRIAL)
    run = begin(read(TRIAL.sheet).sheet, vehicle, ALL_TOOLS)
    work(run, vehicle)
    assert run.solved and run.events[-1].kind == "positions tried"
    return tuple(run.events)


Look = str | tuple[str, int] | None
"""An odd word for the fan in its last position, or in another; None where all is well."""


def looked(n: int, odd: Look = None) -> Event:
    """The last positions once more as event n, with a word changed."""
    last = mended()[-1]
    body: dict[str, Any] = json.loads(last.body)
    if odd:
        word, position = odd if isinstance(odd, tuple) else (odd, -1)
        body["states"][position]["state"] = word
    return last.model_copy(update={"n": n, "body": json.dumps(body, ensure_ascii=False)})


def events(*looks: Look) -> list[Event]:
    """The job once the positions have been looked at so often after the repair."""
    before = mended()[:-1]
    return [*before, *(looked(len(before) + 1 + k, odd) for k, odd in enumerate(looks))]


def step(*looks: Look) -> Next:
    return conclude(replay(events(*looks)).case).step


def test_one_odd_word_after_the_repair_is_looked_at_again() -> None:
    found = step("slow")
    assert found.kind == "positions" and found.purpose == "look again"


def test_only_what_was_odd_is_looked_at_again() -> None:
    asked = job_view(events("slow")).step
    assert isinstance(asked, PositionsStep)
    last = json.loads(mended()[-1].body)["states"][-1]
    assert asked.ask == [last["controls"]] and asked.loads == [last["load"]]
    assert asked.goal == "Look at this once more"


def test_odd_words_of_two_positions_each_seen_once_are_looked_at_again() -> None:
    found = step("slow", ("slow", -2))
    assert found.kind == "positions" and found.purpose == "look again"
    found = step("slow", ("slow", -2), None)
    assert found.kind == "finished" and found.solved


def test_a_second_look_that_is_well_ends_the_job() -> None:
    found = step("slow", None)
    assert found.kind == "finished" and found.solved


def test_a_word_that_stays_odd_is_not_asked_for_a_third_time() -> None:
    found = step("slow", "slow")
    assert found.kind != "positions"
    assert not (found.kind == "finished" and found.solved)


MARKERS, SHORT, DARK = "truck-side-markers", Fault("W2", "short_to_earth"), Fault("X2.1", "open")


def seen_dark_after_the_repair(really: bool) -> Run:
    """A job in which a lamp is said to be dark once the short is mended: it is, or the eye was mistaken."""
    vehicle = vehicle_of(Trial(MARKERS, (SHORT, DARK) if really else (SHORT,)))
    run = begin(read(MARKERS).sheet, vehicle, ALL_TOOLS)
    told = 0
    while True:
        replayed = replay(run.events)
        conclusion = conclude(replayed.case)
        if conclusion.step.kind == "finished":
            run.solved = conclusion.step.solved
            return run
        asked = conclusion.step.kind == "positions" and bool(run.replaced)
        told += asked
        eye = vehicle_of(Trial(MARKERS, (DARK,))) if asked and told == 1 else vehicle
        if eye is vehicle:
            vehicle = do(run, replayed, conclusion, vehicle)
        else:
            do(run, replayed, conclusion, eye)


def test_before_anything_is_renewed_on_one_odd_word_alone_the_load_is_looked_at_once_more() -> None:
    mistaken, right = (seen_dark_after_the_repair(really) for really in (False, True))
    assert mistaken.solved and set(mistaken.replaced) == {"W2", "F1"}, mistaken.steps
    assert right.solved and set(right.replaced) == {"W2", "F1", "X2.1"}, right.steps


RUNNING = Trial("camper-split-charge", (Fault("X4.1", "open"),))
"""A job in which the eye is mistaken once, with the engine running, and the engine is off at the end."""


def mistaken_while_it_ran() -> tuple[Run, Vehicle]:
    vehicle = vehicle_of(RUNNING, random.Random("camper-split-charge: X4.1 open 1"))
    return begin(read(RUNNING.sheet).sheet, vehicle, ALL_TOOLS), vehicle


def test_what_was_odd_in_the_other_state_of_the_engine_is_looked_at_in_that_state() -> None:
    run, vehicle = mistaken_while_it_ran()
    while (found := conclude((replayed := replay(run.events)).case)).step.purpose != "look again":
        vehicle = do(run, replayed, found, vehicle)
    asked = job_view(run.events).step
    assert isinstance(asked, PositionsStep) and asked.engine not in (None, replayed.case.engine)
    words = {"on": "Start the engine for it.", "off": "Stop the engine for it."}
    assert asked.why.endswith(words[asked.engine])
    do(run, replayed, found, vehicle)
    seen = replay(run.events).case
    last = seen.evidence[-1]
    assert last.setup.engine == asked.engine  # type: ignore[union-attr]
    assert seen.engine == replayed.case.engine, "for that look alone"


def test_such_a_job_ends_well_and_no_plug_is_opened_for_the_odd_word() -> None:
    run, vehicle = mistaken_while_it_ran()
    work(run, vehicle)
    assert run.solved and not any("look into" in step for step in run.steps), run.steps
