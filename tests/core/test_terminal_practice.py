"""From a terminal: a vehicle with a known fault answers what Footwell asks, to the end of the job."""

from __future__ import annotations

from pathlib import Path

import pytest

from footwell.terminal.shapes import JobState, PracticeRun

from .terminal_rig import MINIBUS_FILE, TRACTOR_FILE, VAN_FILE, answer, printed, refused

ALL_TOOLS = ("--tools", "meter,clamp,test lamp,substitute lamp,fused jumper")


def practised(*arguments: str) -> PracticeRun:
    return answer(PracticeRun, "practice", *arguments)


def test_a_fault_is_found_and_mended() -> None:
    run = practised(VAN_FILE, "--fault", "W4:high_resistance@20", *ALL_TOOLS)
    assert run.solved
    assert run.replaced == ["W4"]
    assert run.left == []
    assert [f.model_dump(exclude={"where"}) for f in run.faults] == [
        {"part": "W4", "mode": "high_resistance", "size": 20.0}
    ]


def test_its_twin_with_the_loom_sound_and_the_screen_broken_ends_at_the_screen() -> None:
    assert practised(VAN_FILE, "--fault", "H1:open", *ALL_TOOLS).replaced == ["H1"]


def test_nothing_is_replaced_where_nothing_is_wrong() -> None:
    run = practised(VAN_FILE, *ALL_TOOLS)
    assert run.replaced == []
    assert run.solved


def test_a_plug_in_mirror_image_is_put_right_and_what_lay_behind_it_is_found() -> None:
    run = practised(
        MINIBUS_FILE,
        *("--fault", "R1:open:thermal fuse", "--fault", "M1:stiff@0.6"),
        *("--wiring", "X2=mirrored", "--renewed", "S1", "--tools", "meter,clamp"),
    )
    assert [w.half for w in run.wiring] == ["X2.a"]
    assert "put right X2" in run.steps
    assert run.solved
    assert run.readings <= 9


def test_the_road_is_printed_step_by_step() -> None:
    asked = (VAN_FILE, "--fault", "W4:high_resistance@20", *ALL_TOOLS)
    run, text = practised(*asked), printed("practice", *asked)
    assert all(f"  {step}\n" in text for step in run.steps)
    assert f"Solved with {run.readings} readings" in text


def test_the_same_seed_draws_the_same_scatter_and_none_draws_none() -> None:
    asked = (TRACTOR_FILE, "--fault", "L1:open", *ALL_TOOLS)
    assert practised(*asked, "--seed", "7") == practised(*asked, "--seed", "7")
    assert practised(*asked) == practised(*asked)
    steps = {tuple(practised(*asked, "--seed", str(seed)).steps) for seed in range(6)}
    assert len(steps) > 1


def test_its_events_are_a_job(tmp_path: Path) -> None:
    file = tmp_path / "run.json"
    asked = ("practice", VAN_FILE, "--fault", "H1:open", *ALL_TOOLS, "--json")
    file.write_text(printed(*asked), encoding="utf-8")
    state = answer(JobState, "job", str(file))
    assert state.next.kind == "finished"
    assert state.groups.mended == ["rear screen H1"]


REFUSED = {
    "slip": (["--wiring", "X2=inside out"], "Slips are: mirrored, exchanged"),
    "connector": (["--wiring", "X9=mirrored"], "X9 is no connector of this sheet"),
    "half": (["--wiring", "X2.c=mirrored"], "nor half a or b of one"),
    "several": (["--wiring", "X2=exchanged"], "X2=exchanged may be any of "),
    "no slip": (["--wiring", "X2"], "--wiring takes a name and a value"),
    "tool": (["--tools", "meter,nose"], "There is no tool 'nose'."),
    "renewed": (["--renewed", "R9"], "R9 is not on this sheet"),
    "seed": (["--seed", "x"], "invalid int value: 'x'"),
    "fault": (["--fault", "R1"], "--fault takes PART:MODE"),
}


@pytest.mark.parametrize(("arguments", "sentence"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_simulated_is_one_sentence(arguments: list[str], sentence: str) -> None:
    assert sentence in refused("practice", MINIBUS_FILE, *arguments)


@pytest.mark.parametrize(
    ("slip", "told"),
    [
        ("X2=exchanged:1,2", "the wires of ways 1 and 2 exchanged"),
        ("X2=shifted:up", "every wire one way too far up"),
        ("X2=left out:3", "the wire of way 3 left out"),
        ("X2=in an empty way:3,6", "the wire of way 3 put into empty way 6"),
    ],
)
def test_a_slip_is_named_with_its_ways(slip: str, told: str) -> None:
    run = practised(MINIBUS_FILE, "--wiring", slip, "--tools", "meter")
    assert [w.slip for w in run.wiring] == [told]
    assert run.solved
