"""A vehicle that is not like its sheet: what fits no fault is told, and nothing is renewed for it."""

from __future__ import annotations

from dataclasses import replace

from footwell.diagnosis.case import ends_id, look_id
from footwell.diagnosis.conclude import Next, conclude
from footwell.diagnosis.unlike import UNLIKE_FROM, astray
from footwell.faults.miswiring import as_drawn
from footwell.job.replay import replay
from footwell.messages import CheckStep, FinishedStep, WiringStep
from footwell.page.job_view import job_view

from .job_rig import MINIBUS, Job
from .sample_circuits import sample

ODD = (("X1.1.a", -7.77), ("F1.1", 41.3), ("F1.2", -6.41))
"""Volts that no fault of the minibus makes, two of them below earth and one far above the supply."""
BLOWN = (("F1.1", 25.1), ("F1.2", 0.0), ("X1.1.a", 0.0))


def dead_fan(*readings: tuple[str, float]) -> Job:
    job = Job().tools("meter").dead()
    for place, volts in readings:
        job.volts(place, volts, "1")
    return job


def step(job: Job) -> Next:
    return conclude(replay(job.stored()).case).step


def test_one_of_several_readings_that_fit_nothing_is_read_once_more() -> None:
    shown = job_view(dead_fan(*ODD).stored()).step
    assert isinstance(shown, CheckStep)
    assert shown.check.id.startswith(f"volts {ODD[-1][0]} ")
    assert "fits nothing: read it once more" in shown.check.goal and "6.4 V" in shown.check.goal
    assert "fit no fault on this sheet" in shown.check.why


def looked_into_all(job: Job) -> list[str]:
    """The plugs that the job asks to look into, each found as it should be, in their order."""
    seen: list[str] = []
    while (due := step(job)).kind == "wiring" and due.half is not None:
        drawn = as_drawn(sample(MINIBUS), due.half)
        job.add("wiring found", connector=due.half[0], half=due.half[1], found=drawn)
        seen.append(due.half[0])
    return seen


def test_every_plug_is_looked_into_before_the_sheet_is_doubted_those_of_odd_readings_first() -> (
    None
):
    job = dead_fan(*ODD, ODD[-1])
    shown = job_view(job.stored()).step
    assert isinstance(shown, WiringStep) and "before the sheet is doubted" in shown.why
    seen = looked_into_all(job)
    assert seen[:2] == ["X2", "X1"], "at the other end of the fuse's wire, and where a lead lay"
    assert sorted(seen) == sorted(sample(MINIBUS).connectors)


def followed_all(job: Job) -> list[str]:
    """The wires whose ends the job asks for, each found as the sheet has it, in their order."""
    seen: list[str] = []
    while (due := step(job)).kind == "ends":
        wire = next(w for w in sample(MINIBUS).sheet.wires if w.id == due.wire)
        job.add("wire followed", wire=wire.id, start=wire.start, end=wire.end)
        seen.append(wire.id)
    return seen


def test_the_wires_at_odd_readings_are_followed_before_the_sheet_is_doubted_and_no_others() -> None:
    job = dead_fan(*ODD, ODD[-1])
    looked_into_all(job)
    assert followed_all(job) == ["W1", "W2", "W3", "W6"], "at the fuse, and at way 1 of plug X1"


def test_where_it_reads_the_same_again_the_search_ends_and_what_fits_nothing_is_told() -> None:
    job = dead_fan(*ODD, ODD[-1])
    looked_into_all(job)
    followed_all(job)
    shown = job_view(job.stored()).step
    assert isinstance(shown, FinishedStep) and not shown.solved
    assert shown.title == "Something here is not on this sheet"
    words = " ".join(shown.lines)
    assert words.count("6.4 V") == 1 and "7.8 V" in words
    assert "41.3 V" in words and "6.4 V" in words and "renew nothing for it" in words


def test_where_nothing_can_be_read_again_the_search_ends() -> None:
    case = replay(dead_fan(*ODD).stored()).case
    wires = [ends_id(wire.id) for wire in case.now.sheet.wires]
    passed = {*(e.check.id for e in case.taken_now), *map(look_id, case.untold), *wires}
    found = conclude(replace(case, skipped=frozenset(passed)))
    assert found.step.kind == "finished" and not found.step.solved


def test_as_many_readings_that_a_fault_explains_lead_to_its_repair() -> None:
    found = step(dead_fan(*BLOWN))
    assert found.kind != "finished"
    case = replay(dead_fan(*BLOWN).stored()).case
    belief = conclude(case).belief
    assert belief.none < 0.05 and not astray(case, belief)
    assert belief.suspects[0].left[0][0] == "F1"


def test_one_reading_that_fits_nothing_is_taken_for_a_slip() -> None:
    case = replay(dead_fan(ODD[1], *BLOWN[1:]).stored()).case
    found = conclude(case)
    assert [item.check.red for item in astray(case, found.belief)] == ["F1.1"]
    assert found.belief.none < UNLIKE_FROM and found.step.kind != "finished"


def test_words_that_no_fault_at_all_can_give_lead_to_the_plugs_and_are_no_mistake_of_ours() -> None:
    """A battery that gasses in every position, lamps that are dim and bright beside it."""
    seen = {
        ("on", "off"): ("bright", "gasses", "dark"),
        ("off", "on"): ("dim", "gasses", "bright"),
        ("on", "on"): ("dim", "gasses", "dim"),
    }
    states = [
        {"controls": {"S0": s0, "S2": s2}, "load": load, "state": word}
        for (s0, s2), words in seen.items()
        for load, word in zip(("L1", "G3", "H1"), words, strict=True)
    ]
    job = Job("camper-split-charge").tools("meter").add("positions tried", states=states)
    case = replay(job.stored()).case
    found = conclude(case)
    assert not found.belief.suspects and not astray(case, found.belief)
    assert (found.step.kind, found.step.purpose) == ("wiring", "at last")
    assert isinstance(job_view(job.stored()).step, WiringStep)
