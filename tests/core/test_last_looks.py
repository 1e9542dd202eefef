"""A wire that may lie on earth is looked along, and the tape taken off a splice, before a trial."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from parity.seed import some

from footwell.checks.catalogue import looked_at
from footwell.checks.check import CLAMP, LOOK, Check
from footwell.checks.minutes import minutes
from footwell.checks.safety import cautions, refusal
from footwell.circuit.circuit import AS_DRAWN
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.case import Case
from footwell.diagnosis.choose import confirms
from footwell.diagnosis.conclude import Conclusion, conclude
from footwell.job.replay import circuits_of
from footwell.page.check_view import check_view
from footwell.page.suspect_view import suspects_view
from footwell.sheet.reading import read_data

from .loop_rig import Trial, read, tried, until

LOCKS = "hatchback-door-locks"
ON_EARTH, BROKEN = Fault("W18", "short_to_earth"), Fault("W18", "open")
"""One of nine wires that meet in splices, with no place between them to measure."""


def wires_followed(steps: tuple[str, ...]) -> list[str]:
    return [step.split()[2] for step in steps if " look W" in step]


def test_of_wires_that_nothing_tells_apart_the_one_on_earth_is_seen_and_no_other_is_mended() -> (
    None
):
    done = tried(Trial(LOCKS, (ON_EARTH,)))
    wires = wires_followed(done.steps)
    assert done.right and not done.good_parts, done.steps
    assert wires[-1] == "W18" and len({*wires}) == len(wires)


def test_for_a_break_no_wire_is_followed_since_it_hides_in_the_insulation() -> None:
    done = tried(Trial(LOCKS, (BROKEN,)))
    assert done.right and not done.good_parts, done.steps
    assert wires_followed(done.steps) == []


def at_the_wires() -> tuple[Case, Conclusion]:
    """The job where no measurement is left."""
    return at_the_look(Trial(LOCKS, (ON_EARTH,)))


@cache
def at_the_look(trial: Trial) -> tuple[Case, Conclusion]:
    """Of somebody who measures nothing at a bare joint."""
    return until(trial, lambda step: step.purpose == "look", skipped="bare joint")


def test_the_screen_says_where_to_look_what_may_be_seen_and_why_nothing_is_measured() -> None:
    case, conclusion = at_the_wires()
    assert conclusion.step.choice and conclusion.step.choice.check
    shown = check_view(case, conclusion.belief, conclusion.step.choice.check, "look")
    assert shown.do.startswith("Follow ")
    assert shown.choices == ["chafed or pinched", "looks sound"]
    assert shown.healthy_choice == "looks sound"
    assert shown.why.startswith("No measurement shows where a wire lies on earth.")
    assert shown.instrument_name == "Eyes"


def test_where_every_wire_was_passed_over_the_likeliest_is_mended_on_trial() -> None:
    case, conclusion = at_the_wires()
    passed: set[str] = set()
    while conclusion.step.purpose == "look":
        assert conclusion.step.choice and conclusion.step.choice.check
        check = conclusion.step.choice.check
        assert check.instrument == LOOK and check.id not in passed
        passed.add(check.id)
        case = replace(case, skipped=case.skipped | {check.id})
        conclusion = conclude(case)
    assert len(passed) > 1 and conclusion.step.kind == "ends"
    conclusion = conclude(replace(case, followed=frozenset({conclusion.step.wire})))
    assert conclusion.step.kind == "repair" and conclusion.step.purpose == "try"


@pytest.mark.parametrize(
    ("wire", "unfused"), [("W1", True), ("W3", True), ("W2", False), ("W7", False)]
)
def test_before_a_live_wire_without_a_fuse_is_followed_the_battery_is_taken_off(
    wire: str, unfused: bool
) -> None:
    """W1 and W3 come from the battery; W2 and W7 are behind the light switch and a fuse."""
    circuit = circuits_of(read("trailer-rear-lamps"))(AS_DRAWN)
    check = looked_at(circuit, wire)
    assert check
    assert ("unfused wire" in {text.hazard for text in cautions(circuit, check)}) == unfused


@pytest.mark.parametrize(("hazard", "may"), [("restraint system", False), ("hot part", True)])
def test_a_wire_into_a_plug_of_a_restraint_system_is_not_followed(hazard: str, may: bool) -> None:
    data = read(LOCKS).sheet.model_dump(mode="json", exclude_unset=True)
    (plug,) = (c for c in data["connectors"] if c["id"] == "X6")
    plug["hazards"] = [hazard]
    circuit = circuits_of(read_data(data))(AS_DRAWN)
    assert (looked_at(circuit, "W18") is not None) == may
    clamped = refusal(circuit, Check(CLAMP, "W18", "", set_up(circuit)))
    assert (clamped == "") == may
    assert looked_at(circuit, "W0") is not None, "this one ends elsewhere"


FAN = "hatchback-radiator-fan"
JOINT, BESIDE = Fault("SP2", "open:2"), Fault("W8", "open")
"""A joint of a splice and a wire that ends there."""


def test_of_a_splice_and_the_wire_beside_it_the_one_that_is_broken_is_made_anew() -> None:
    splice, wire = tried(Trial(FAN, (JOINT,))), tried(Trial(FAN, (BESIDE,)))
    assert splice.right and not splice.good_parts, splice.steps
    assert wire.right and not wire.good_parts, wire.steps
    assert any("bare joint volts SP2." in s for s in splice.steps)
    assert any("bare joint volts SP2." in s for s in wire.steps)


def test_a_bad_joint_that_was_seen_is_proven_and_a_clean_one_is_not() -> None:
    case, conclusion = at_the_look(Trial(FAN, (JOINT,)))
    assert conclusion.step.choice and conclusion.step.choice.check
    check = conclusion.step.choice.check
    assert confirms(case.now, check, JOINT) and not confirms(case.now, check, BESIDE)


def test_the_screen_says_how_a_splice_is_looked_at_and_what_the_minutes_are_for() -> None:
    case, conclusion = at_the_look(Trial(FAN, (JOINT,)))
    assert conclusion.step.choice and conclusion.step.choice.check
    check = conclusion.step.choice.check
    shown = check_view(case, conclusion.belief, check, "look")
    assert shown.do.startswith("Take the tape off ") and shown.do.endswith("Tape it up again.")
    assert shown.choices == ["burnt, green or loose", "clean and tight"]
    assert shown.healthy_choice == "clean and tight"
    assert shown.why.startswith("No measurement tells this joint from what is beside it.")
    assert shown.minutes >= 3.0 + minutes(case.now, replace(check, red="W8"), case.last_check) - 2.0


def test_the_suspects_name_the_look_that_parts_them_and_after_it_none() -> None:
    case, conclusion = at_the_look(Trial(FAN, (JOINT,)))
    (group,) = suspects_view(case, conclusion).groups
    assert {s.element for s in group.suspects} == {"SP2", "W8"}
    assert group.apart_by == "A look at coil feed splice SP2. No measurement does."
    assert conclusion.step.choice and conclusion.step.choice.check
    passed = replace(case, skipped=case.skipped | {conclusion.step.choice.check.id})
    (left,) = suspects_view(passed, conclude(passed)).groups
    assert left.apart_by == "No check with the tools at hand tells these apart."


def test_a_bad_joint_points_to_the_splice_alone_and_a_clean_one_first_to_the_wire() -> None:
    case, conclusion = at_the_look(Trial(FAN, (JOINT,)))
    assert conclusion.step.choice and conclusion.step.choice.check
    shown = check_view(case, conclusion.belief, conclusion.step.choice.check, "look")
    bad, clean = (outcome.means for outcome in shown.outcomes)
    # The wire stays a suspect, as the list of them then says.
    assert bad == "Points to coil feed splice SP2."
    assert clean == "Points to BK/YE wire (W8) or coil feed splice SP2."


@pytest.mark.parametrize(("splice", "live"), [("SP1", True), ("SP2", False)])
def test_before_the_tape_comes_off_a_joint_that_stays_live_the_battery_is_taken_off(
    splice: str, live: bool
) -> None:
    circuit = circuits_of(read(FAN))(AS_DRAWN)
    check = looked_at(circuit, splice)
    assert check
    told = {text.hazard for text in cautions(circuit, check)}
    assert ("live joint" in told) == live


@pytest.mark.parametrize(("hazard", "may"), [("restraint system", False), ("hot part", True)])
def test_no_tape_is_taken_off_a_splice_that_leads_to_a_restraint_system(
    hazard: str, may: bool
) -> None:
    data = read(FAN).sheet.model_dump(mode="json", exclude_unset=True)
    (far_end,) = (w["end"] for w in data["wires"] if w["id"] == "W8" and w["start"] == "SP2.2")
    (plug,) = (c for c in data["connectors"] if c["id"] == far_end.split(".")[0])
    plug["hazards"] = [hazard]
    circuit = circuits_of(read_data(data))(AS_DRAWN)
    assert (looked_at(circuit, "SP2") is not None) == may


WIRE, WINDING = Fault("W10", "short_to_earth"), Fault("K2", "short:hold")


@pytest.mark.long
@pytest.mark.parametrize("fault", some([WIRE, WINDING], 1), ids=str)
def test_before_a_part_that_takes_too_much_is_bought_on_trial_its_wire_is_looked_along(
    fault: Fault,
) -> None:
    """A solenoid with its hold winding shorted and its wire on earth blow the same fuse."""
    done = tried(Trial("hatchback-starter", (fault,)))
    assert done.right, (done.why, done.steps)
    if fault == WIRE:
        assert "K2" not in done.good_parts and "W10" in wires_followed(done.steps), done.steps
    else:
        assert "W10" not in done.good_parts, done.steps
