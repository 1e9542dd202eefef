"""A plug that somebody wired lately is looked into before anything is mended that no eye has seen to be hurt,
and where no one fault explains everything."""

from __future__ import annotations

import json

import pytest

from footwell.circuit.circuit import AS_DRAWN, arranged
from footwell.circuit.fault import Fault
from footwell.diagnosis.conclude import conclude
from footwell.faults.miswiring import as_drawn
from footwell.job.replay import replay
from footwell.practice.electrician import begin, do

from .job_rig import asked
from .loop_rig import ALL_TOOLS, Trial, read, tried, vehicle_of
from .sample_circuits import sample

WINDOW, HALF = "camper-side-window", ("X2", "a")
"""The plug of the window's own switch."""
TURNED = {"1": "W7", "2": "W4", "3": "W6"}
BREAK = Fault("W11", "open")
"""A break in the lead to the motor, which hides what the switch does."""


def window(wiring: dict[str, str | None], rewired: str = "X2") -> Trial:
    return Trial(WINDOW, (BREAK,), arranged(AS_DRAWN, HALF, wiring), rewired)


def test_wires_in_wrong_ways_beside_a_break_are_found_before_anything_sound_is_mended() -> None:
    done = tried(window(TURNED))
    assert done.right and not done.good_parts, done.steps
    mended = next(n for n, step in enumerate(done.steps) if step.startswith("repair"))
    assert "put right X2" in done.steps[:mended]


def test_plug_wired_as_drawn_is_looked_into_once_and_the_break_mended() -> None:
    done = tried(window(as_drawn(sample(WINDOW), HALF)))
    assert done.right and not done.good_parts, done.steps
    assert done.steps.count("look into X2") == 1 and "put right X2" not in done.steps


@pytest.mark.parametrize("rewired", ["X2", ""])
def test_only_a_plug_that_somebody_wired_is_looked_into_before_a_proven_break_is_mended(
    rewired: str,
) -> None:
    done = tried(window(as_drawn(sample(WINDOW), HALF), rewired))
    assert done.right and "repair W11 open" in done.steps
    assert ("look into X2" in done.steps) == bool(rewired)


def test_what_was_seen_to_be_hurt_is_mended_without_a_look_into_plugs() -> None:
    """X4 is the other headlamp's plug."""
    done = tried(Trial("hatchback-headlamps", (Fault("X3.1", "open"),), rewired="X4"))
    assert done.right and "repair X3.1 open" in done.steps
    assert any(step.startswith("confirm look X3.1") for step in done.steps), done.steps
    assert "look into X4" not in done.steps


def test_screen_says_why_the_plug_is_looked_into() -> None:
    vehicle = vehicle_of(window(TURNED))
    run = begin(read(WINDOW).sheet, vehicle, ALL_TOOLS, rewired=["X2"])
    told: set[str] = set()
    while (found := conclude(replay(run.events).case)).step.kind != "repair":
        if found.step.kind == "wiring":
            look = asked("look", {"events": [json.loads(e.model_dump_json()) for e in run.events]})
            told.add(look["step"]["why"])
        vehicle = do(run, replay(run.events), found, vehicle)
    assert any("no one fault explains everything" in why for why in told), told
