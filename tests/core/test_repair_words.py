"""What a repair mends, how sure that is, what its steps are, and what is said where nothing was mended."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from footwell.circuit.fault import Fault
from footwell.messages import JobView, RepairStep
from footwell.page.concluded import concluded
from footwell.page.job_view import job_view
from footwell.page.repair_words import OTHER, advice
from footwell.parts import KINDS
from footwell.practice.electrician import Run, begin, do, opened, work

from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of

MARKERS, LIGHTS, FAN = "truck-side-markers", "hatchback-headlamps", "hatchback-radiator-fan"


def before_repair(
    sheet: str, *faults: Fault, tools: Sequence[str] = ALL_TOOLS
) -> tuple[RepairStep, Run, Trial]:
    """The first repair that is asked for, and the job up to it."""
    trial = Trial(sheet, faults)
    vehicle = vehicle_of(trial)
    run = begin(read(sheet).sheet, vehicle, tools)
    while True:
        replayed, conclusion = concluded(run.events)
        if conclusion.step.kind in ("repair", "finished"):
            break
        vehicle = do(run, replayed, conclusion, vehicle)
    step = job_view(run.events).step
    assert isinstance(step, RepairStep)
    return step, run, trial


def finished(sheet: str, *faults: Fault) -> JobView:
    """The job at its end."""
    vehicle = vehicle_of(Trial(sheet, faults))
    run = begin(read(sheet).sheet, vehicle, ALL_TOOLS)
    work(run, vehicle)
    return job_view(run.events)


def section(view: JobView, title: str) -> list[str]:
    return next(s.lines for s in view.report if s.title == title)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_that_can_fail_has_steps_of_its_own(kind: str) -> None:
    assert advice(kind, "open") != OTHER


def test_a_wire_mended_on_trial_is_laid_anew_and_one_that_was_found_is_mended_there() -> None:
    on_trial = " ".join(advice("wire", "short_to_earth", on_trial=True))
    assert "Put the old one back" in on_trial
    assert "Put the old one back" not in " ".join(advice("wire", "short_to_earth"))
    assert advice("switch", "open", on_trial=True) == advice("switch", "open")


def test_steps_follow_what_is_wrong_with_a_part() -> None:
    assert "chafed" in " ".join(advice("wire", "short_to_earth"))
    assert "chafed" not in " ".join(advice("wire", "open"))
    assert "same code" in " ".join(advice("lamp", "open"))
    assert "same code" not in " ".join(advice("lamp", "wrong_part"))
    assert "clips" in " ".join(advice("fuse", "high_resistance"))
    assert "overloaded" in " ".join(advice("fuse", "open"))


@pytest.mark.parametrize("kind", ["fuse", "breaker"])
@pytest.mark.parametrize("mode", ["open", "high_resistance"])
def test_no_fuse_is_ever_made_larger(kind: str, mode: str) -> None:
    assert "never a larger one" in " ".join(advice(kind, mode))


def test_a_repair_on_trial_is_not_called_proven_though_a_reading_at_its_place_fits() -> None:
    """A marker lamp the wrong way round stays dark when fed, and so does a dead one."""
    step, _, _ = before_repair(MARKERS, Fault("L2", "reversed"))
    assert step.element == "L2" and step.why.startswith("No check at hand tells the rest apart.")
    view = finished(MARKERS, Fault("L2", "reversed"))
    assert view.causes[0].title.startswith("Marker lamp 2 L2 dead")
    assert view.causes[0].title.endswith("or fitted the wrong way round")
    assert section(view, "What was found") == [f"{view.causes[0].title}."]
    assert "No reading tells" in view.causes[0].proof[0]


def test_a_repair_whose_fault_was_measured_is_called_proven() -> None:
    step, _, _ = before_repair(MARKERS, Fault("E1", "open"))
    assert (step.element, step.why) == ("E1", "It is proven by a reading at its own place.")


def test_a_repair_whose_fault_was_seen_is_not_called_measured() -> None:
    step, _, _ = before_repair(FAN, Fault("X1.30", "open"))
    assert (step.element, step.why) == (
        "X1.30",
        "It is proven by what was seen at its own place.",
    )


def test_what_one_repair_mends_is_told_with_all_that_it_may_be() -> None:
    """Fed directly, a seized motor and a shorted one both stand still."""
    view = finished(FAN, Fault("M1", "seized"))
    found = [c.title for c in view.causes if c.title.startswith("Fan motor M1")]
    assert len(found) == 1 and "seized" in found[0] and "shorted inside" in found[0]


def test_what_a_reading_tells_apart_is_told_alone() -> None:
    view = finished(MARKERS, Fault("E1", "open"))
    assert [c.title for c in view.causes] == ["Earth point E1 open"]


def test_a_wire_that_lay_on_earth_is_why_the_fuse_blew() -> None:
    view = finished(LIGHTS, Fault("W8", "short_to_earth"))
    fuse = next(c for c in view.causes if c.title == "Left dipped fuse F2 blown")
    assert fuse.reasons == [
        "YE/BU wire (W8) chafed through to earth: that blows left dipped fuse F2."
    ]
    assert not fuse.open_questions


def test_a_fuse_that_nothing_blew_keeps_its_question_open() -> None:
    view = finished(LIGHTS, Fault("F2", "open"))
    fuse = next(c for c in view.causes if c.title == "Left dipped fuse F2 blown")
    assert not any("that blows" in line for line in fuse.reasons)


def test_where_nothing_was_wrong_nothing_is_called_mended() -> None:
    vehicle = vehicle_of(Trial(MARKERS, ()))
    run = begin(read(MARKERS).sheet, vehicle, ALL_TOOLS)
    view = job_view(run.events)
    assert view.step.kind == "finished" and view.step.title == "Nothing shows wrong"
    assert section(view, "What stays open") == [
        "Nothing was mended: every position does what it should."
    ]


def test_where_something_was_mended_the_end_says_so() -> None:
    view = finished(MARKERS, Fault("E1", "open"))
    assert view.step.kind == "finished" and view.step.title == "Mended and proven"
    assert section(view, "What stays open") == [
        "Nothing: every position was tried again and works."
    ]


def test_what_only_eyes_speak_for_is_said_to_be_measured_before_a_part_is_bought() -> None:
    fault = Fault("G2", "over_voltage")
    step, run, _ = before_repair("estate-charging", fault, tools=("test lamp",))
    assert step.element == "G2" and step.why.startswith("Only what was seen points to it")
    assert job_view(run.events).causes[0].proof == [
        "Nothing was measured: what was seen fits nothing else."
    ]


def test_with_a_meter_it_is_measured_before_anything_else() -> None:
    step, run, _ = before_repair("estate-charging", Fault("G2", "over_voltage"))
    assert step.element == "G2" and step.why.startswith("It is proven by a reading")
    assert "16." in job_view(run.events).causes[0].proof[0]


def test_what_a_reading_speaks_for_is_not_said_to_be_only_seen() -> None:
    step, run, _ = before_repair("estate-charging", Fault("G2", "open:field"))
    assert step.element == "G2" and "Only what was seen" not in step.why
    assert "Nothing was measured:" not in " ".join(job_view(run.events).causes[0].proof)


def test_trying_a_charging_circuit_warns_of_its_belts() -> None:
    """The generator is no load, but its belt moves while the positions are tried."""
    view = job_view(opened(read("estate-charging").sheet, ALL_TOOLS).events)
    assert view.step.kind == "positions"
    assert "moving belt" in [c.hazard for c in view.step.cautions]
    lamps = job_view(opened(read(MARKERS).sheet, ALL_TOOLS).events)
    assert lamps.step.kind == "positions"
    assert "moving belt" not in [c.hazard for c in lamps.step.cautions]
