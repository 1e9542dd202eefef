"""Sentences of a step that must fit what the step does: what is held, opened or fed, and the engine."""

from __future__ import annotations

from dataclasses import replace

import pytest

from footwell.checks.catalogue import catalogue, working_setups
from footwell.checks.check import FEED, LAMP, LOOK, OHMS, VOLTS, Check
from footwell.checks.hands import Tools, held_down
from footwell.checks.safety import cautions
from footwell.circuit.circuit import Circuit, build
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.belief import believe
from footwell.diagnosis.case import Case, started
from footwell.diagnosis.choose import confirming
from footwell.diagnosis.proof import confirmed_by
from footwell.job.events import Event
from footwell.job.replay import replay
from footwell.messages import Check as CheckView
from footwell.messages import ExplainAsked
from footwell.page.check_view import MOST_WORDS, check_view, together
from footwell.page.do_words import START_ENGINE, STOP_ENGINE, TRY_LAMP
from footwell.page.explain import explanation
from footwell.page.job_view import job_view
from footwell.page.words import condition
from footwell.practice.electrician import begin, take

from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from .sample_circuits import sample

HORN, STARTER, CHARGING = "coupe-horn", "hatchback-starter", "estate-charging"


def told(sheet: str, *faults: Fault) -> list[Event]:
    return begin(read(sheet).sheet, vehicle_of(Trial(sheet, faults)), ALL_TOOLS).events


def begun(sheet: str, *faults: Fault) -> Case:
    return replay(told(sheet, *faults)).case


def first(case: Case, instrument: str, held: bool) -> Check:
    rows = catalogue(case.now, case.tools, case.engine)
    return next(
        c for c in rows if c.instrument == instrument and bool(held_down(case.now, c)) == held
    )


def shown(case: Case, check: Check) -> CheckView:
    return check_view(case, believe(case), check)


def belts(circuit: Circuit, check: Check) -> bool:
    return any(c.hazard == "moving belt" for c in cautions(circuit, check))


def test_who_is_alone_wedges_what_has_to_be_held_before_anything_else() -> None:
    case = begun(HORN, Fault("F1", "open"))
    assert shown(case, first(case, VOLTS, held=True)).do.startswith(
        "Wedge horn button at pressed first:"
    )


def test_a_starter_is_never_wedged() -> None:
    case = begun(STARTER, Fault("F1", "open"))
    do = shown(case, first(case, VOLTS, held=True)).do
    assert do.startswith("Let somebody hold") and "Never wedge it." in do


def test_a_check_that_cranks_the_engine_warns_of_it_wherever_the_hands_are() -> None:
    circuit = begun(STARTER, Fault("F1", "open")).now
    rows = [
        c
        for c in catalogue(circuit, Tools(ALL_TOOLS), "off")
        if c.instrument == VOLTS and c.red == "F1.2"
    ]
    cranked = [c for c in rows if dict(c.setup.controls) == {"S1": "start", "S2": "down"}]
    others = [c for c in rows if dict(c.setup.controls).get("S1", "off") == "off"]
    assert cranked and all(belts(circuit, c) for c in cranked)
    assert others and not any(belts(circuit, c) for c in others)


def test_nothing_is_opened_or_measured_in_ohms_with_the_engine_running() -> None:
    case = begun(CHARGING, Fault("G2", "dead"))
    assert case.engine == "on"
    rows = catalogue(case.now, case.tools, case.engine)
    opened = [next(c for c in rows if c.instrument == i) for i in (LOOK, OHMS)]
    for check in opened:
        assert check.setup.engine == "off", "foretold as it is read"
        view = shown(case, check)
        assert view.do.startswith(STOP_ENGINE) and "engine off" in view.condition
    live = shown(case, first(case, VOLTS, held=False))
    assert STOP_ENGINE not in live.do and "engine running" in live.condition


@pytest.mark.parametrize(("named", "at"), [(["on"], {"on"}), ([], {"off", "on"})])
def test_a_running_engine_is_asked_for_only_where_the_ignition_lets_it_run(
    named: list[str], at: set[str]
) -> None:
    """A sheet that says nothing of it leaves the control its positions."""
    sheet = sample(CHARGING).sheet
    controls = [
        c.model_copy(update={"running": named}) if c.part == "S0" else c for c in sheet.controls
    ]
    circuit = build(sheet.model_copy(update={"controls": controls}), sample(CHARGING).values)
    running = [*working_setups(circuit, "on"), set_up(circuit, engine="on")]
    assert {dict(setup.controls)["S0"] for setup in running} == at
    assert {dict(s.controls)["S0"] for s in working_setups(circuit)} == {"off", "on"}
    assert dict(set_up(circuit).controls)["S0"] == "off"


@pytest.mark.parametrize(("engine", "at"), [("on", {"on"}), ("off", {"off", "on"})])
def test_positions_are_asked_for_with_the_engine_as_it_is(engine: str, at: set[str]) -> None:
    run = begin(
        read(CHARGING).sheet, vehicle_of(Trial(CHARGING, (Fault("G2", "dead"),))), ALL_TOOLS
    )
    run.add("sitting begun", engine=engine)
    run.add("repair done", element="G2", mode="dead", what="renewed")
    step = job_view(run.events).step
    assert step.kind == "positions" and {row["S0"] for row in step.ask} == at
    assert ("engine running" in step.why) == (engine == "on")


def test_a_generator_is_proven_with_the_engine_running_though_it_stands_still_now() -> None:
    """Told with the engine off alone: it is started for the one reading, and that is kept with it."""
    vehicle = vehicle_of(Trial(CHARGING, (Fault("G2", "open:field"),)))
    run = begin(read(CHARGING).sheet, vehicle, ALL_TOOLS)
    for engine in ("on", "off"):
        run.add("sitting begun", engine=engine)
        case = replay(run.events).case
        check = confirming(case, Fault("G2", "open:field"))[0].check
        assert check is not None and check.setup.engine == "on" and belts(case.now, check)
        view = shown(case, check)
        assert "engine running" in view.condition
        assert view.do.startswith(START_ENGINE) == (engine == "off")
        assert view.record.setup.engine == ("on" if engine == "off" else None)
        assert ('"engine"' in view.record.model_dump_json()) == (engine == "off")
    assert case.engine == "off"
    take(run, vehicle, check, 1.0, "confirm", started(case, check))
    (read_now,) = replay(run.events).case.taken_now
    assert read_now.check == check
    assert confirmed_by(replay(run.events).case, Fault("G2", "open:field")) == read_now.number


def test_the_engine_is_not_started_for_what_shows_without_it() -> None:
    case = replay(told(CHARGING, Fault("H1", "open"))).case
    still = replace(case, engine="off")
    checks = [c.check for c in confirming(still, Fault("H1", "open"))]
    assert checks and all(check and check.setup.engine == "off" for check in checks)


def test_a_part_that_is_fed_directly_is_not_said_to_be_plugged_in() -> None:
    case = begun(HORN, Fault("F1", "open"))
    fed, live = first(case, FEED, held=False), first(case, VOLTS, held=True)
    assert "left horn H1 unplugged" in shown(case, fed).condition
    assert "everything plugged in" not in shown(case, fed).condition
    assert shown(case, live).condition == condition(case.now, live.setup)


@pytest.mark.parametrize("sheet", ["estate-coolant-sensor", "hatchback-sensor-trio"])
def test_no_more_falls_than_its_own_source_gives(sheet: str) -> None:
    """A unit's pull-up has a voltage of its own: the battery's is no measure of what falls behind it."""
    events = told(sheet)
    case = replay(events).case
    from_a_unit = 0
    for check in catalogue(case.now, case.tools, "off"):
        if check.instrument == VOLTS and check.black == "earth" and not check.setup.apart:
            asked = ExplainAsked(events=events, red=check.red, controls=dict(check.setup.controls))
            for line in explanation(asked).lines:
                if line.startswith("Of the "):
                    from_a_unit += line.startswith("Of the 5.0 V of ")
                    assert _first_fall(line) <= _volts(line, "Of the ") + 0.1, line
    assert from_a_unit > 0


def _volts(line: str, before: str) -> float:
    return float(line.removeprefix(before).split(" V")[0])


def _first_fall(line: str) -> float:
    """Volts in "…, 4.5 V fall on the way here"."""
    words = line.split(" fall on the way here")[0].split()
    value, unit = float(words[-2]), words[-1]
    return value / 1000.0 if unit == "mV" else value


def test_faults_at_once_are_named_as_one_phrase() -> None:
    assert together(["F1", "M1"]) == "F1 and M1 together"


@pytest.mark.parametrize("sheet", [HORN, "camper-split-charge"])
def test_no_outcome_is_longer_than_a_glance(sheet: str) -> None:
    fault = Fault("E2", "open")
    events = told(sheet, fault)
    view = job_view(events)
    assert view.step.kind == "check"
    for outcome in view.step.check.outcomes:
        assert len(outcome.means.split()) <= MOST_WORDS + 9, outcome.means


def test_what_cleared_a_part_reads_as_it_should_or_is_said_not_to_be_its_doing() -> None:
    """One marker lamp is dark: the lit ones clear the fuse, the dark one clears what would leave it lit."""
    view = job_view(told("truck-side-markers", Fault("L2", "open")))
    by = {c.title: c.by for c in view.suspects.cleared}
    assert by["marker fuse F1"] == "marker lamp 1 L1 bright, light switch on"
    assert by["marker lamp 1 L1"] == "marker lamp 1 L1 bright, light switch on"
    odd = [text for text in by.values() if "L2 dark" in text]
    assert all(text.endswith("which it would not cause") for text in odd)


def test_the_complaint_leaves_out_what_is_as_it_should_be() -> None:
    view = job_view(told("truck-side-markers", Fault("L2", "open")))
    assert view.complaint == "marker lamp 2 L2 dark (light switch on)."
    lines = next(s.lines for s in view.report if s.title == "Complaint")
    assert lines[1].startswith("In order: marker lamp 1 L1 bright")


@pytest.mark.parametrize(
    ("fault", "lit"), [(Fault("F1", "open"), False), (Fault("K1", "stuck_open"), True)]
)
def test_a_test_lamp_is_tried_at_the_battery_until_it_was_seen_alight(
    fault: Fault, lit: bool
) -> None:
    """Behind a blown fuse the lamp stays dark, and so does one that is broken itself."""
    vehicle = vehicle_of(Trial(HORN, (fault,)))
    run = begin(read(HORN).sheet, vehicle, ["test lamp"])
    case = replay(run.events).case
    check = next(
        c
        for c in catalogue(case.now, case.tools, "off")
        if c.instrument == LAMP and c.red == "F1.2" and held_down(case.now, c)
    )
    assert TRY_LAMP in shown(case, check).do
    take(run, vehicle, check, 1.0, "narrow")
    assert (TRY_LAMP not in shown(replay(run.events).case, check).do) == lit


@pytest.mark.parametrize(
    ("fault", "asked"),
    [
        (Fault("F1", "open"), "Is there a way to earth behind fuse F1?"),
        (Fault("W9", "open"), "What is lost across fuse F1?"),
    ],
)
def test_across_a_blown_fuse_the_way_behind_it_is_asked_for_and_across_a_sound_one_its_loss(
    fault: Fault, asked: str
) -> None:
    sheet = "tractor-work-lamps"
    run = begin(read(sheet).sheet, vehicle_of(Trial(sheet, (fault,))), ALL_TOOLS)
    case = replay(run.events).case
    looked = shown(case, Check(LOOK, "F1", "", set_up(case.now))).record.model_dump()
    run.add("reading taken", **(looked | {"choice": "blown" if fault.element == "F1" else "whole"}))
    case = replay(run.events).case
    across = Check(VOLTS, "F1.1", "F1.2", set_up(case.now, {"A1": "on", "S2": "on"}))
    assert shown(case, across).goal == asked
    empty = Check(VOLTS, "F1.1", "F1.2", set_up(case.now, {"A1": "on"}, ("F1",)))
    assert shown(case, empty).goal == "Is there a way to earth behind fuse F1?"
