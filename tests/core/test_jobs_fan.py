"""The minibus's fan: dead since its owner renewed the switch and its plug. Two truths, one story.

Truth of both: the plug is wired in mirror image and the thermal fuse of the resistor pack is open. In the
one the bearing is stiff and has opened that fuse, in the other the motor is sound.
"""

from __future__ import annotations

from functools import cache

import pytest

from footwell.circuit.fault import Fault
from footwell.job.events import Event, ReadingTaken

from .jobs_rig import Road, road, vehicle, wired
from .sample_circuits import MINIBUS

MIRRORED = wired(("X2", "a"), w3="W5", w4="W4", w5="W3", w6="W2")
OPEN_FUSE, STIFF = Fault("R1", "open:thermal fuse"), Fault("M1", "stiff", 0.6)
METER, WITH_CLAMP = ("meter",), ("clamp", "meter")

both_tools = pytest.mark.parametrize("tools", [METER, WITH_CLAMP])
both_truths = pytest.mark.parametrize("stiff", [True, False])


@cache
def worked(stiff: bool, tools: tuple[str, ...]) -> Road:
    truth = vehicle(MINIBUS, *((STIFF,) if stiff else ()), OPEN_FUSE, arrangement=MIRRORED)
    return road(MINIBUS, truth, tools, renewed=["S1"], rewired=["X2"])


def readings(events: list[Event]) -> list[ReadingTaken]:
    return [ReadingTaken.model_validate_json(e.body) for e in events if e.kind == "reading taken"]


@both_truths
@both_tools
def test_plug_wired_by_the_owner_is_looked_into_before_anything_is_measured(
    stiff: bool, tools: tuple[str, ...]
) -> None:
    first = worked(stiff, tools).views[0].step
    assert first.kind == "wiring" and (first.connector, first.half) == ("X2", "a")


def test_mirrored_plug_alone_stills_the_fan_in_all_positions_and_spares_the_pack() -> None:
    found = worked(True, METER).finding("X2")
    assert "mirror image" in found.slip
    assert found.explains_complaint is True
    spoken = [line for line in found.effects if line.startswith("fan switch at")]
    assert len(spoken) == 3 and all("still" in line for line in spoken)
    assert "It cannot have overloaded resistor pack R1." in found.effects
    assert found.damage == []


@both_truths
@both_tools
def test_after_the_wires_are_moved_every_position_is_asked_again_and_only_the_top_one_runs(
    stiff: bool, tools: tuple[str, ...]
) -> None:
    done = worked(stiff, tools)
    assert done.kinds[:3] == ["wiring", "wiring", "positions"]
    asked = done.views[2].step
    assert asked.kind == "positions" and [c["S1"] for c in asked.ask] == ["1", "2", "3"]
    assert done.run.steps[3] == "positions still still runs"


@both_truths
@both_tools
def test_open_thermal_fuse_is_reached_with_a_reading_held_to_it(
    stiff: bool, tools: tuple[str, ...]
) -> None:
    done = worked(stiff, tools)
    confirmed = [s for s in done.run.steps if s.startswith("confirm") and "R1.link" in s]
    assert confirmed and "X3.3.a" in confirmed[0]
    cause = next(c for c in done.last.causes if "thermal fuse" in c.title)
    assert cause.proof and "terminal link of resistor pack R1" in cause.proof[0]


@both_truths
@both_tools
def test_job_is_not_finished_before_the_motors_current_was_measured(
    stiff: bool, tools: tuple[str, ...]
) -> None:
    done = worked(stiff, tools)
    taken = readings(done.run.events)
    by_clamp = [r for r in taken if r.instrument == "clamp" and (r.value or 0.0) > 1.0]
    over_fuse = [r for r in taken if {r.red, r.black} == {"F1.1", "F1.2"} and r.value]
    assert by_clamp or over_fuse


@both_truths
@both_tools
def test_fan_job_ends_solved_within_nine_readings_and_leaves_no_fault(
    stiff: bool, tools: tuple[str, ...]
) -> None:
    done = worked(stiff, tools)
    last = done.last.step
    assert last.kind == "finished" and last.solved
    assert done.left == () and done.run.good_parts == []
    assert done.run.readings <= 9


@both_tools
def test_stiff_bearing_is_named_as_the_cause_behind_the_open_fuse(tools: tuple[str, ...]) -> None:
    done = worked(True, tools)
    cause = next(c for c in done.last.causes if "thermal fuse" in c.title)
    assert any("stiff in its bearing" in r and "less cooling air" in r for r in cause.reasons)
    assert any("Fan motor M1 stiff" in c.title for c in done.last.causes)


@both_tools
def test_sound_motor_is_ruled_out_as_the_cause_and_is_not_replaced(tools: tuple[str, ...]) -> None:
    done = worked(False, tools)
    cause = next(c for c in done.last.causes if "thermal fuse" in c.title)
    assert any(r.startswith("Ruled out") and "stiff in its bearing" in r for r in cause.reasons)
    assert not any("M1" in c.title for c in done.last.causes)
    assert "M1" not in done.run.replaced
