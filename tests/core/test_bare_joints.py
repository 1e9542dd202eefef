"""Readings at a splice whose tape is off: what no other place tells apart shows there (common practice, no
source)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from footwell.checks.bare import at_bare_joints, splices_at
from footwell.checks.catalogue import working_setups
from footwell.checks.check import LAMP, LOOK, VOLTS, Check, bared
from footwell.checks.hands import Tools
from footwell.checks.minutes import minutes
from footwell.checks.safety import cautions
from footwell.circuit.circuit import AS_DRAWN, Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.case import Case
from footwell.diagnosis.choose import confirms
from footwell.diagnosis.conclude import Conclusion, Next, conclude
from footwell.job.replay import circuits_of
from footwell.job.stored import fitting
from footwell.page.check_view import check_view
from footwell.page.suspect_view import suspects_view
from footwell.sheet.reading import read_data

from .loop_rig import ALL_TOOLS, Trial, read, tried, until
from .sample_circuits import sample

WIPER, FAN, MARKERS = "van-wiper", "hatchback-radiator-fan", "truck-side-markers"
JOINT, WIRE = Fault("SP1", "open:3"), Fault("W5", "open")
"""A joint of a splice and the wire in it, to a plug that is the next place to measure."""

LIVE, DEAD = Tools(ALL_TOOLS), Tools(("clamp",))


@pytest.mark.parametrize("fault", [JOINT, WIRE])
def test_of_a_joint_and_the_wire_in_it_the_broken_one_is_mended_and_nothing_else(
    fault: Fault,
) -> None:
    done = tried(Trial(WIPER, (fault,)))
    assert done.right and not done.good_parts, done.steps
    assert any(step.startswith("bare joint ") for step in done.steps)


@pytest.mark.parametrize("fault", [JOINT, WIRE])
def test_somebody_with_a_test_lamp_alone_finds_it_there_as_well(fault: Fault) -> None:
    trial = Trial(WIPER, (fault,))
    _, found = until(trial, lambda step: step.kind == "repair", ("test lamp",))
    assert found.step.proven and found.step.proven.fault.element == fault.element


@pytest.mark.parametrize("fault", [Fault("SP3", "open:2"), Fault("W13", "open")])
def test_a_joint_on_a_bus_is_read_with_the_plug_off_that_shows_it(fault: Fault) -> None:
    done = tried(Trial("van-data-bus", (fault,)))
    assert done.right and not done.good_parts, done.steps
    assert any(step.startswith("bare joint ") and " -X" in step for step in done.steps)


def at_the_joint(fault: Fault) -> tuple[Case, Conclusion]:
    return until(Trial(WIPER, (fault,)), lambda step: step.purpose == "bare joint")


def test_the_screen_says_when_the_tape_comes_off_what_is_touched_and_why() -> None:
    case, conclusion = at_the_joint(JOINT)
    assert conclusion.step.choice and conclusion.step.choice.check
    shown = check_view(case, conclusion.belief, conclusion.step.choice.check, "bare joint")
    assert shown.do.startswith("With everything off take the tape off ")
    assert "Red lead on wire W5 (GN/BK) at " in shown.do
    assert shown.do.endswith("Tape it up again, all off.")
    assert shown.why == "No other place tells this joint from the wires that end in it."
    assert "bare joint" in {caution.hazard for caution in shown.cautions}
    assert all(len(outcome.means) > 0 for outcome in shown.outcomes)


def test_a_splice_that_cannot_be_reached_is_neither_read_nor_looked_at() -> None:
    case, conclusion = at_the_joint(JOINT)
    hidden = conclude(replace(case, unreachable=case.unreachable | {"SP1"})).step
    assert hidden.kind == "repair" and hidden.purpose == "try"
    assert conclusion.step.kind == "check"


def test_the_suspects_name_the_joint_that_parts_them() -> None:
    case, conclusion = at_the_joint(JOINT)
    (group,) = suspects_view(case, conclusion).groups
    assert {s.element for s in group.suspects} >= {"SP1", "W5"}
    assert group.apart_by.startswith("A reading at the joint of ")
    (left,) = suspects_view(case, replace(conclusion, step=Next("finished"))).groups
    assert left.apart_by == "No check with the tools at hand tells these apart."


def test_a_drop_across_a_joint_proves_it_and_one_along_the_wire_the_wire() -> None:
    circuit = sample(WIPER)
    on = set_up(circuit, {"S0": "on", "S1": "off", "S2": "away"})
    across, along = Check(VOLTS, "SP1.1", "SP1.3", on), Check(VOLTS, "X1.4.a", "SP1.3", on)
    poor_joint = Fault("SP1", "high_resistance:3", 2.0)
    poor_wire = Fault("W5", "high_resistance", 2.0)
    assert confirms(circuit, across, poor_joint) and not confirms(circuit, across, poor_wire)
    assert confirms(circuit, along, poor_wire) and not confirms(circuit, along, poor_joint)


def checks(circuit: Circuit, tools: Tools = LIVE) -> list[Check]:
    return list(at_bare_joints(circuit, ["W5"], tools, working_setups(circuit)))


def test_only_splices_at_the_suspects_are_bared_and_only_with_something_to_hold_to_them() -> None:
    circuit = sample(WIPER)
    assert splices_at(circuit, ["W5"]) == splices_at(circuit, ["SP1"]) == ["SP1"]
    assert splices_at(circuit, ["X1.4"]) == []
    assert {c.instrument for c in checks(circuit)} == {VOLTS, LAMP}
    assert checks(circuit, DEAD) == []


def test_the_tape_costs_minutes_once() -> None:
    circuit = sample(WIPER)
    on = set_up(circuit, {"S0": "on"})
    first, second = (Check(VOLTS, f"SP1.{n}", "earth", on) for n in (2, 3))
    elsewhere = Check(VOLTS, "X1.4.a", "earth", on)
    assert minutes(circuit, second, first) < minutes(circuit, second, elsewhere) - 3.0
    look = Check(LOOK, "SP1", "", set_up(circuit))
    assert minutes(circuit, look, first) < minutes(circuit, look, elsewhere) - 3.0


def test_a_joint_is_bared_only_where_no_place_of_the_sheet_is_at_it() -> None:
    circuit = sample(WIPER)
    on = set_up(circuit, {"S0": "on"})
    assert bared(circuit, Check(VOLTS, "X1.4.a", "SP1.3", on)) == "SP1"
    assert bared(circuit, Check(VOLTS, "X1.4.a", "earth", on)) == ""
    data = read(WIPER).sheet.model_dump(mode="json", exclude_unset=True)
    (splice,) = (p for p in data["parts"] if p["id"] == "SP1")
    splice["probe"] = [str(n + 1) for n in range(splice["values"]["wires"])]
    open_to_hand = circuits_of(read_data(data))(AS_DRAWN)
    assert bared(open_to_hand, Check(VOLTS, "SP1.3", "earth", set_up(open_to_hand))) == ""


@pytest.mark.parametrize(("splice", "live"), [("SP1", True), ("SP2", False)])
def test_the_battery_is_off_while_the_tape_comes_off_a_joint_that_stays_live(
    splice: str, live: bool
) -> None:
    circuit = sample(FAN)
    on = set_up(circuit, {"S2": "on"})
    told = {c.hazard for c in cautions(circuit, Check(VOLTS, f"{splice}.1", "earth", on))}
    assert "bare joint" in told and ("live joint" in told) == live


@pytest.mark.parametrize(("hazard", "some"), [("restraint system", False), ("hot part", True)])
def test_no_joint_that_leads_to_a_restraint_system_is_bared(hazard: str, some: bool) -> None:
    data = read(WIPER).sheet.model_dump(mode="json", exclude_unset=True)
    (plug,) = (c for c in data["connectors"] if c["id"] == "X1")
    plug["hazards"] = [hazard]
    assert bool(checks(circuits_of(read_data(data))(AS_DRAWN))) == some


def test_a_stored_reading_at_a_joint_fits_the_sheet() -> None:
    circuit = sample(WIPER)
    check = fitting(circuit, VOLTS, "SP1.3", "", set_up(circuit, {"S0": "on"}))
    assert (check.red, check.black) == ("SP1.3", "earth")
