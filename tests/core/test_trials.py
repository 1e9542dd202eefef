"""Repairs on trial come to an end: after four things renewed in vain nothing more is tried."""

from __future__ import annotations

from dataclasses import replace

import pytest

from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import Belief, Weighed
from footwell.diagnosis.case import Hypothesis
from footwell.diagnosis.conclude import Conclusion, conclude
from footwell.diagnosis.elimination import in_vain
from footwell.job.replay import Replayed, circuits_of, replay
from footwell.page.causes import causes_view
from footwell.page.finished_view import finished_view
from footwell.practice.electrician import Run, begin, try_positions, work
from footwell.practice.vehicle import Vehicle

from .loop_rig import read

HORN = "coupe-horn"
BROKEN = Fault("H1", "open")
SOUND = ("W2", "K1", "W4", "W1")


def renewed_in_turn(elements: tuple[str, ...]) -> tuple[Run, Vehicle]:
    """A job without a tool in which one thing after another was renewed, every position tried in between."""
    vehicle = Vehicle(circuits_of(read(HORN)), (BROKEN,))
    run = begin(read(HORN).sheet, vehicle, ())
    for element in elements:
        mode = "open" if element.startswith("W") else "open:coil"
        run.add("repair done", element=element, mode=mode, what="renewed")
        vehicle = vehicle.mended(element)
        try_positions(run, vehicle)
    return run, vehicle


def looked_at(run: Run) -> tuple[Replayed, Conclusion]:
    replayed = replay(run.events)
    return replayed, conclude(replayed.case)


@pytest.mark.parametrize("count", [1, 3])
def test_after_one_or_three_that_were_sound_trials_go_on_and_find_what_is_broken(
    count: int,
) -> None:
    run, vehicle = renewed_in_turn(SOUND[:count])
    replayed, conclusion = looked_at(run)
    assert in_vain(replayed.case, conclusion.belief) == sorted(SOUND[:count])
    work(run, vehicle)
    assert run.replaced, "something was tried"


def test_after_four_that_were_sound_nothing_more_is_tried_and_the_end_names_them() -> None:
    run, vehicle = renewed_in_turn(SOUND)
    work(run, vehicle)
    replayed, conclusion = looked_at(run)
    assert not run.replaced and not run.solved
    assert conclusion.step.kind == "finished"
    shown = finished_view(replayed.case, conclusion, causes_view(replayed.case, conclusion))
    assert shown.title == "Renew nothing more on trial"
    assert all(name in shown.lines[0] for name in SOUND)


def test_what_was_at_fault_does_not_count_as_renewed_in_vain() -> None:
    replayed, conclusion = looked_at(renewed_in_turn((*SOUND[:2], BROKEN.element))[0])
    assert conclusion.step.solved
    assert BROKEN.element not in in_vain(replayed.case, conclusion.belief)


def left_over(well: float, poor: float) -> Belief:
    """A belief in which the break is mended, and a poor joint is left or not."""
    joint = Fault("X2.1", "high_resistance", 0.02)
    rows = [((), well), ((joint,), poor)]
    return Belief(
        tuple(
            Weighed(
                Hypothesis((BROKEN, *now), 1.0, ()),
                share,
                (BROKEN, *now),
                (("H1", "renew"),),
                now,
                tuple((f.element, "renew") for f in now),
            )
            for now, share in rows
        ),
        0.01,
    )


@pytest.mark.parametrize(("renewed", "tried"), [(BROKEN.element, False), (SOUND[0], True)])
def test_once_it_works_nothing_is_renewed_on_trial_for_nothing_would_tell_whether_it_helped(
    renewed: str, tried: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    run, _ = renewed_in_turn((renewed,))
    case = replace(replay(run.events).case, untold=())  # every plug was looked into
    monkeypatch.setattr("footwell.diagnosis.conclude.believe", lambda _: left_over(0.2, 0.79))
    monkeypatch.setattr("footwell.diagnosis.conclude.choices", lambda *_: [])
    step = conclude(case).step
    assert (step.kind != "finished") == tried and not step.solved
