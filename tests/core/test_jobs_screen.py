"""The van's rear screen: full voltage with its plug off, and no heat. The hinge loom, or the screen.

The voltage was read before the phone came out and is entered first.
"""

from __future__ import annotations

from functools import cache

import pytest

from footwell.checks.check import VOLTS, Check
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState, set_up
from footwell.job.events import ReadingTaken
from footwell.practice.electrician import opened, take

from .jobs_rig import Road, gone, vehicle
from .loop_rig import read
from .sample_circuits import VAN, sample

POOR_LOOM, BROKEN_SCREEN = Fault("W4", "high_resistance", 20.0), Fault("H1", "open")
ON = {"S0": "on", "S1": "on"}
METER, MORE = ("meter",), ("meter", "substitute lamp", "clamp")

all_tools = pytest.mark.parametrize("tools", [METER, MORE])
all_truths = pytest.mark.parametrize("fault", [POOR_LOOM, BROKEN_SCREEN])


def unplugged() -> Check:
    setup: SetupState = set_up(sample(VAN), ON, ("X2",))
    return Check(VOLTS, "X2.1.a", "earth", setup)


@cache
def worked(fault: Fault, tools: tuple[str, ...]) -> Road:
    truth = vehicle(VAN, fault)
    run = opened(read(VAN).sheet, tools)
    take(run, truth, unplugged(), 0.0, "before")
    return gone(Road(run=run), truth)


@all_truths
def test_full_voltage_with_the_plug_off_says_nothing_between_loom_and_screen(fault: Fault) -> None:
    done = worked(fault, METER)
    assert done.run.steps[0].endswith("12.5")
    told = next(view for view in done.views if view.step.kind == "check")
    suspected = {s.element for group in told.suspects.groups for s in group.suspects}
    assert "H1" in suspected and {"W4", "W5"} & suspected


@all_truths
def test_positions_are_asked_although_a_reading_was_entered_first(fault: Fault) -> None:
    assert worked(fault, METER).kinds[0] == "positions"


@all_truths
@all_tools
def test_screen_job_ends_with_the_true_fault_alone_mended(
    fault: Fault, tools: tuple[str, ...]
) -> None:
    done = worked(fault, tools)
    last = done.last.step
    assert last.kind == "finished" and last.solved and done.left == ()
    assert done.run.replaced == [fault.element]


@all_tools
def test_poor_loom_is_found_by_a_check_under_load(tools: tuple[str, ...]) -> None:
    done = worked(POOR_LOOM, tools)
    taken = [
        ReadingTaken.model_validate_json(e.body)
        for e in done.run.events
        if e.kind == "reading taken"
    ]
    proof = taken[-1]
    assert proof.setup.controls == ON and (not proof.setup.apart or proof.setup.stand_in)
    assert (proof.value or 0.0) > 1.0
    assert any("nearly broken through" in c.title for c in done.last.causes)
    assert "H1" not in done.run.replaced


@all_tools
def test_broken_screen_is_proven_at_the_screen_itself(tools: tuple[str, ...]) -> None:
    cause = worked(BROKEN_SCREEN, tools).last.causes[0]
    assert cause.title == "Rear screen H1 broken"
    assert cause.proof and "rear screen H1" in cause.proof[0]
