"""A wire that runs elsewhere than on the sheet: found before it is renewed, told by the sheet or put back."""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from parity.seed import some

from footwell.checks.catalogue import catalogue
from footwell.checks.hands import Tools
from footwell.checks.predict import foretold
from footwell.checks.works import works_alike
from footwell.circuit.circuit import AS_DRAWN, ENDS, Arrangement, astray
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, ends_id
from footwell.diagnosis.conclude import Conclusion, conclude
from footwell.diagnosis.elimination import may_follow
from footwell.faults.miswiring import as_drawn
from footwell.job.replay import circuits_of, replay
from footwell.messages import EndsStep
from footwell.page.step_view import step_view
from footwell.parts.base import EARTH
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import read_data

from .job_rig import MINIBUS, MIRRORED, Data, Job, compact
from .loop_rig import ALL_TOOLS, Result, Trial, read, tried, until
from .sample_circuits import FOLDER, sample

CHARGING, CAMPER, LOCKS = "estate-charging", "camper-split-charge", "hatchback-door-locks"
BESIDE = ("W9", "X3.3.a", "X1.3.b")
"""On the minibus a wire ends at another way, where it does the same as on the sheet."""
TO_EARTH = ("W2", "F5.2", "E1.1")
"""On the camper a charging wire that blows its fuse from there."""


def run_of(job: Job, wire: str) -> tuple[str, str]:
    (found,) = (w for w in job.look()["sheet"]["wires"] if w["id"] == wire)
    return found["start"], found["end"]


def followed(job: Job, wire: str, start: str, end: str) -> Job:
    return job.add("wire followed", wire=wire, start=start, end=end)


@cache
def ends_due() -> tuple[Case, Conclusion]:
    """Where a short in one of nine wires is left, for somebody who neither looks along wires nor measures at
    bare joints."""
    case, conclusion = until(
        Trial(LOCKS, (Fault("W18", "short_to_earth"),)),
        lambda step: step.purpose == "look",
        skipped="bare joint",
    )
    while conclusion.step.purpose == "look":
        assert conclusion.step.choice and conclusion.step.choice.check
        case = replace(case, skipped=case.skipped | {conclusion.step.choice.check.id})
        conclusion = conclude(case)
    return case, conclusion


def shown(case: Case, conclusion: Conclusion) -> EndsStep:
    view = step_view(case, conclusion, [], ())
    assert isinstance(view, EndsStep)
    return view


def test_a_wire_that_does_its_work_from_elsewhere_corrects_the_sheet_and_nothing_is_put_back() -> (
    None
):
    job = followed(Job().tools("meter").dead(), *BESIDE)
    assert run_of(job, "W9") == ("X3.3.a", "X1.3.b")
    assert job.look()["step"]["kind"] != "ends" and not job.look()["problems"]
    assert any("runs from" in row["title"] for row in job.look()["history"])


def test_a_wire_that_does_harm_from_there_leaves_the_sheet_and_is_put_back() -> None:
    job = followed(Job(CAMPER).tools("meter"), *TO_EARTH)
    job.add("positions tried", states=_all_as_usual(job))
    step = job.look()["step"]
    assert run_of(job, "W2") == ("F5.2", "G2.B+")
    assert (step["kind"], step["put_back"]) == ("ends", True)
    assert "F5 blows without any fault" in step["why"]
    assert len(step["do"]) == 1 and "E1" in step["do"][0] and "B+" in step["do"][0]
    assert "battery" in [c["hazard"] for c in step["cautions"]]
    after = job.add("wire put back", wire="W2").look()
    assert after["step"]["kind"] == "positions"
    assert any("joined to the wrong place" in cause["title"] for cause in after["causes"])


def test_a_wire_off_its_only_post_is_put_back_though_no_sheet_leaves_a_post_bare() -> None:
    job = followed(Job().tools("meter").dead(), "W1", "F1.1", "G1.-")
    view = job.look()
    assert view["step"]["put_back"] and not view["problems"]
    assert run_of(job, "W1") == ("G1.+", "F1.1")
    tried = Job().tools("meter").dead()
    body = compact({"wire": "W1", "start": "F1.1", "end": "G1.-"})
    assert "ok" in tried.answer("entry_try", kind="wire followed", body=body)


def _all_as_usual(job: Job) -> list[Data]:
    view = job.look()
    return [
        {"controls": controls, "load": load["id"], "state": load["states"][-1]}
        for controls in view["asked_positions"]
        for load in view["loads"]
    ]


@pytest.mark.parametrize(
    ("sheet", "run", "alike"),
    [
        (MINIBUS, BESIDE, True),
        (CAMPER, TO_EARTH, False),
        (CHARGING, ("W3", "X1.1.a", "E1.1"), False),
        (CHARGING, ("W4", "F1.2", "X7.1.a"), True),
    ],
)
def test_whether_a_wire_does_its_work_from_elsewhere(
    sheet: str, run: tuple[str, str, str], alike: bool
) -> None:
    circuit_for = circuits_of(read(sheet))
    assert works_alike(circuit_for(AS_DRAWN), circuit_for(astray(AS_DRAWN, *run))) == alike


def test_readings_from_before_a_wire_was_put_back_are_held_to_where_it_was() -> None:
    job = followed(Job(CHARGING).tools("meter"), "W3", "X1.1.a", "E1.1").add(
        "wire put back", wire="W3"
    )
    case = replay(job.stored()).case
    assert [e.arrangement != AS_DRAWN for e in case.epochs] == [True, False]
    assert case.circuit(0, None).elements["W3"].nodes != case.now.elements["W3"].nodes


def test_a_wire_on_trial_is_renewed_only_after_both_its_ends_were_found() -> None:
    case, conclusion = ends_due()
    wire = next(w for w in case.now.sheet.wires if w.id == conclusion.step.wire)
    view = shown(case, conclusion)
    assert not view.put_back and [end.point for end in view.ends] == [wire.start, wire.end]
    assert all(wire.id in end.told for end in view.ends) and "Before it is renewed" in view.why
    assert len(view.elsewhere) == 2 * len(case.now.sheet.wires)


def test_a_wire_that_reads_broken_is_renewed_only_then_too_since_one_that_ends_elsewhere_reads_so() -> (
    None
):
    done = tried(Trial(LOCKS, (Fault("W18", "open"),)))
    assert done.right and not done.good_parts, done.steps
    at = done.steps.index("repair W18 open")
    assert done.steps[at - 1] == "ends of W18"


def test_a_wire_that_was_seen_to_be_hurt_is_mended_at_once() -> None:
    done = tried(Trial(LOCKS, (Fault("W18", "short_to_earth"),)))
    assert done.right and "look look W18 S1=rest -> chafed or pinched" in done.steps, done.steps
    assert not any(step.startswith("ends of") for step in done.steps)


def test_where_its_ends_are_as_drawn_or_cannot_be_found_the_wire_is_renewed() -> None:
    case, conclusion = ends_due()
    wire = conclusion.step.wire
    for known in (
        replace(case, followed=frozenset({wire})),
        replace(case, skipped=case.skipped | {ends_id(wire)}),
        replace(case, unreachable=frozenset({"X6", "SP4", *_plugs_of(case, wire)})),
    ):
        step = conclude(known).step
        assert step.kind == "repair" and step.proven and step.proven.fault.element == wire


def _plugs_of(case: Case, wire: str) -> set[str]:
    found = next(w for w in case.now.sheet.wires if w.id == wire)
    return {point.split(".")[0] for point in (found.start, found.end)}


def test_a_wire_into_a_plug_of_a_restraint_system_is_not_followed() -> None:
    data = read(LOCKS).sheet.model_dump(mode="json", exclude_unset=True)
    case, _ = ends_due()
    for plug in data["connectors"]:
        plug["hazards"] = ["restraint system"]
    marked = replace(case, circuit_for=circuits_of(read_data(data)))
    wires = [w.id for w in case.now.sheet.wires if "X6" in _plugs_of(case, w.id)]
    assert wires and not any(may_follow(marked, wire) for wire in wires)
    assert all(may_follow(case, wire) for wire in wires)


def with_open_contact(arrangement: Arrangement) -> Result:
    """A charging circuit with an open contact, read with a meter that scatters."""
    trial = Trial(CHARGING, (Fault("X2.2", "open"),), arrangement)
    return tried(trial, chance=random.Random("estate-charging: X2.2 open 1"))


def test_with_another_wire_at_its_end_it_is_not_renewed() -> None:
    done = with_open_contact(astray(AS_DRAWN, "W3", "X1.1.a", "E1.1"))
    assert done.right and not done.good_parts, done.steps
    at = done.steps.index("ends of W7")
    assert done.steps[at + 1 : at + 3] == ("W3 runs from X1.1.a to E1.1", "put back W3")


def test_with_the_same_fault_and_the_sheet_right_no_wire_is_followed() -> None:
    done = with_open_contact(AS_DRAWN)
    assert done.right and not done.good_parts, done.steps
    assert not any("ends of" in step for step in done.steps)


def test_a_strange_wire_in_a_plug_that_is_followed_counts_as_found_there() -> None:
    vehicle = Vehicle(circuits_of(read(MINIBUS)), (), astray(AS_DRAWN, "W9", "X3.3.a", "X2.4.a"))
    half = ("X2", "a")
    found = vehicle.wiring(half)
    colour = next(w.colour for w in sample(MINIBUS).sheet.wires if w.id == "W9")
    assert f"spare {colour}" in (found["4"] or "")
    job = Job().tools("meter").dead().add("wiring found", connector="X2", half="a", found=found)
    (view,) = (c for c in job.look()["connectors"] if (c["id"], c["half"]) == half)
    (strange,) = view["finding"]["strange"]
    assert strange["point"] == "X2.4.a"
    assert ("W9", "X3.3.a") in [(run["wire"], run["point"]) for run in strange["runs"]]
    followed(job, "W9", "X3.3.a", "X2.4.a")
    case = replay(job.stored()).case
    assert [h for h, _ in case.epochs[-1].arrangement] in ([], [("W9", ENDS)])


def test_a_wire_that_is_gone_from_a_plug_is_no_slip_of_the_plug_once_it_was_followed() -> None:
    vehicle = Vehicle(circuits_of(read(MINIBUS)), (), astray(AS_DRAWN, *BESIDE))
    half = ("X4", "a")
    found = vehicle.wiring(half)
    assert found != as_drawn(sample(MINIBUS), half)
    job = Job().tools("meter").dead().add("wiring found", connector="X4", half="a", found=found)
    assert replay(job.stored()).case.epochs[-1].arrangement
    followed(job, *BESIDE)
    assert not replay(job.stored()).case.epochs[-1].arrangement


@pytest.mark.parametrize("wire", ["W9", None])
def test_after_it_was_put_back_a_wire_that_is_not_in_its_way_is_a_slip_again(
    wire: str | None,
) -> None:
    job = followed(Job().tools("meter").dead(), "W9", "E1.1", "X4.1.a").add(
        "wire put back", wire="W9"
    )
    drawn = as_drawn(sample(MINIBUS), ("X3", "a"))
    assert drawn["3"] == "W9"
    job.add("wiring found", connector="X3", half="a", found=drawn | {"3": wire})
    halves = [half for half, _ in replay(job.stored()).case.epochs[-1].arrangement]
    assert halves == ([] if wire else [("X3", "a")])


EARTH_ELSEWHERE = ("W11", "X4.2.a", "E1.1")
"""On the horn an earth wire joined to another earth point, its own left without any."""
LEAVES_EMPTY = ("W2", "E1.1", "F1.1")
"""On the camper both ends of a wire moved to where the charge lamp glows, and a fuse left without a wire."""


def test_a_wire_that_leaves_a_terminal_empty_can_be_told() -> None:
    job = Job(CAMPER).tools("meter")
    wire, start, end = LEAVES_EMPTY
    job.ask(
        "entry_try", kind="wire followed", body=compact({"wire": wire, "start": start, "end": end})
    )
    followed(job, *LEAVES_EMPTY).add("positions tried", states=_all_as_usual(job))
    view = job.look()
    assert view["step"]["put_back"] and not view["problems"]


def test_found_where_it_was_drawn_after_all_nothing_is_put_back() -> None:
    job = followed(followed(Job(CAMPER).tools("meter"), *TO_EARTH), "W2", "F5.2", "G2.B+")
    assert replay(job.stored()).case.epochs[-1].arrangement == AS_DRAWN


def test_found_to_run_elsewhere_after_all_it_is_put_back() -> None:
    job = followed(followed(Job(CAMPER).tools("meter"), "W2", "F5.2", "G2.B+"), *TO_EARTH)
    assert replay(job.stored()).case.epochs[-1].arrangement == astray(AS_DRAWN, *TO_EARTH)


@pytest.mark.parametrize("first", [True, False])
def test_a_splice_in_a_wire_that_corrected_the_sheet_makes_it_no_stray(first: bool) -> None:
    job = Job().tools("meter").dead()
    splice = {"inside": "W9", "what": "splice"}
    if first:
        job.add("place found", **splice)
    followed(job, *BESIDE)
    if not first:
        job.add("place found", **splice)
    assert replay(job.stored()).case.epochs[-1].arrangement == AS_DRAWN
    assert not job.look()["problems"]


def test_a_list_that_comes_after_a_wire_was_followed_has_the_last_word() -> None:
    job = followed(Job().tools("meter").dead(), *BESIDE)
    job.add("wires listed", wires=[{"id": "W9", "start": "X3.3.a", "end": "X4.1.a"}])
    assert run_of(job, "W9") == ("X3.3.a", "X4.1.a")
    assert replay(job.stored()).case.epochs[-1].arrangement == AS_DRAWN


def _plug(job: Job, kind: str, connector: str, **otherwise: str | None) -> Job:
    """A plug's half a as drawn, but for some ways."""
    wired = as_drawn(sample(MINIBUS), (connector, "a")) | {
        way.removeprefix("w"): wires for way, wires in otherwise.items()
    }
    under = "found" if kind == "wiring found" else "now"
    return job.add(kind, connector=connector, half="a", **{under: wired})


@pytest.mark.parametrize("connector", ["X4", "X1"])
@pytest.mark.parametrize("kind", ["wiring found", "wiring corrected"])
def test_a_plug_told_to_be_as_drawn_is_so_too_once_a_wire_of_it_corrected_the_sheet(
    connector: str, kind: str
) -> None:
    job = followed(_plug(Job().tools("meter").dead(), kind, connector), *BESIDE)
    assert not job.look()["problems"]
    assert replay(job.stored()).case.epochs[-1].arrangement == AS_DRAWN


def test_a_plug_found_wired_wrongly_stays_so_though_its_wire_is_followed_before_or_once_put_right() -> (
    None
):
    drawn = ("W2", *run_of(Job(), "W2"))
    before = Job().tools("meter").add("wiring found", connector="X2", half="a", found=MIRRORED)
    slip = replay(before.stored()).case.epochs[0].arrangement
    after = followed(Job().tools("meter"), *drawn)
    after.add("wiring found", connector="X2", half="a", found=MIRRORED)
    assert slip and replay(after.stored()).case.epochs[0].arrangement == slip
    epochs = replay(followed(_plug(before, "wiring corrected", "X2"), *drawn).stored()).case.epochs
    assert [e.arrangement for e in epochs] == [slip, AS_DRAWN]


def test_a_run_that_cannot_be_explains_nothing_and_leaves_the_wire_to_be_followed() -> None:
    job = followed(Job().tools("meter").dead(), "W9", "F9.1", "F1.2")
    case = replay(_plug(job, "wiring found", "X4", w1="W8").stored()).case
    assert [h for h, _ in case.epochs[-1].arrangement] == [("X4", "a")]
    assert may_follow(case, "W9") and len(job.look()["problems"]) == 1


def test_a_terminal_left_empty_by_a_wire_that_does_its_work_elsewhere_is_spare() -> None:
    job = followed(Job("coupe-horn").tools("meter"), *EARTH_ELSEWHERE)
    view = job.look()
    assert run_of(job, EARTH_ELSEWHERE[0]) == EARTH_ELSEWHERE[1:] and not view["problems"]
    assert replay(job.stored()).case.epochs[-1].arrangement == AS_DRAWN


def test_no_wire_that_the_sheet_does_not_have_is_put_back() -> None:
    job = Job().tools("meter").dead().add("wire put back", wire="W99")
    assert "W99 is not a wire" in job.look()["problems"][0]
    assert len(replay(job.stored()).case.epochs) == 1


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ({"wire": "W99", "start": "F1.1", "end": "F1.2"}, "W99 is not a wire on this sheet"),
        ({"wire": "W9", "start": "F9.1", "end": "F1.2"}, "F9.1"),
        ({"wire": "W9", "start": "F1.1", "end": "F1.1"}, "W9"),
        ({"wire": "W9", "start": "F1.1", "end": "X4.1.b"}, "Choose X4.1.a"),
    ],
)
def test_a_run_that_cannot_be_is_kept_told_and_not_used(body: dict[str, Any], told: str) -> None:
    job = Job().tools("meter").dead()
    before = job.look()["step"]
    assert told in job.refused("entry_try", kind="wire followed", body=compact(body))
    view = job.add("wire followed", **body).look()
    assert any(told in problem for problem in view["problems"])
    assert view["step"] == before


def test_withdrawn_a_wire_is_where_the_sheet_has_it() -> None:
    job = followed(Job().tools("meter").dead(), *BESIDE)
    n = len(job.events)
    assert run_of(job.withdraw(n), "W9") == ("X3.3.a", "X4.1.a")


def test_before_a_job_is_given_up_the_wires_at_an_odd_reading_are_followed() -> None:
    standing, wire = "hatchback-standing-drain", ("W1", "G1.-", "F4.1")
    done = tried(Trial(standing, (Fault("A2", "open"),), astray(AS_DRAWN, *wire)))
    assert any(step.startswith("ends of") for step in done.steps), done.steps
    assert done.right and not done.good_parts, done.steps


@pytest.mark.parametrize("sheet", some(sorted(path.stem for path in FOLDER.glob("*.json")), 4))
def test_wherever_a_wire_runs_every_check_of_the_sheet_is_foretold(sheet: str) -> None:
    chance = random.Random(f"runs {sheet}")
    circuit_for = circuits_of(read(sheet))
    drawn = circuit_for(AS_DRAWN)
    checks = catalogue(drawn, Tools(ALL_TOOLS, helper=True))
    points = [point for point in drawn.node_of if point != EARTH]
    for wire in drawn.sheet.wires:
        kept, away = chance.sample((wire.start, wire.end), 1)[0], chance.choice(points)
        if drawn.node_of[kept] == drawn.node_of[away]:
            continue
        found = circuit_for(astray(AS_DRAWN, wire.id, kept, away))
        assert found.elements.keys() >= drawn.elements.keys()
        assert all(foretold(found, check, ()) for check in chance.sample(checks, 15))


def test_both_ends_that_are_elsewhere_are_taken_back_each_to_its_own() -> None:
    job = followed(Job().tools("meter").dead(), "W5", "X2.5.a", "E1.1")
    first, second = job.look()["step"]["do"]
    assert "off empty way 5 of switch plug X2" in first and "to way 4 (GN/RD) of switch" in first
    assert "off terminal 1 of earth point E1" in second and "to way 3 (GN/RD) of plug X1" in second
