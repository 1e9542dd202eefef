"""What a fault hides is told before its repair, and two faults apart that look like one are thought of."""

from __future__ import annotations

from functools import cache

import pytest

from core.loop_rig import ALL_TOOLS, read
from footwell.checks.outlook import activities
from footwell.circuit.fault import Fault
from footwell.diagnosis.apart import apart
from footwell.diagnosis.complaint import noticed, odd_sightings
from footwell.diagnosis.conclude import conclude
from footwell.diagnosis.hypotheses import hypotheses
from footwell.diagnosis.multiple import Singles
from footwell.diagnosis.unseen import plain_faults
from footwell.job.events import Event
from footwell.job.replay import circuits_of, replay
from footwell.messages import RepairStep
from footwell.page.step_view import hidden_now, step_view
from footwell.page.suspect_view import suspects_view
from footwell.practice.electrician import begin, work
from footwell.practice.vehicle import Vehicle

LAMPS = "tractor-work-lamps"
NO_CLAMP = tuple(tool for tool in ALL_TOOLS if tool != "clamp")
"""With a lamp in place of the fuse a clamp would show what the lamps draw."""


@cache
def worked(element: str) -> list[Event]:
    """A job on the two work lamps with one break, from the complaint to its end."""
    vehicle = Vehicle(circuits_of(read(LAMPS)), (Fault(element, "open"),))
    run = begin(read(LAMPS).sheet, vehicle, NO_CLAMP)
    work(run, vehicle)
    return run.events


def before_the(kind: str, events: list[Event]) -> list[Event]:
    return events[: next(n for n, e in enumerate(events) if e.kind == kind)]


def told_before_repair(element: str) -> str:
    case = replay(before_the("repair done", worked(element))).case
    found = conclude(case)
    step = step_view(case, found, [], hidden_now(case, found))
    assert isinstance(step, RepairStep) and step.element == element
    return step.unseen


def test_lamps_behind_a_blown_fuse_are_not_judged_before_it_is_renewed() -> None:
    said = told_before_repair("F1")
    assert said.startswith("Not judged yet: nothing so far could show a fault of left work lamp L1")
    assert "right work lamp L2" in said
    assert said.endswith("Try every position again after this.")


def test_what_is_hidden_is_not_called_cleared() -> None:
    case = replay(before_the("repair done", worked("L1"))).case
    found = conclude(case)
    cleared = {c.title for c in suspects_view(case, found).cleared}
    kept = {c.title for c in suspects_view(case, found, ["L2"]).cleared}
    assert cleared - kept == {"right work lamp L2"}


def test_lamp_that_shines_beside_the_broken_one_is_judged() -> None:
    assert "lamp L2" not in told_before_repair("L1")


@pytest.mark.parametrize(("element", "thought_of"), [("W13", True), ("W11", False)])
def test_two_lamps_broken_each_by_itself_are_thought_of_where_both_are_dark(
    element: str, thought_of: bool
) -> None:
    events = before_the("reading taken", worked(element))
    case = replay(events).case
    singles = Singles.of(hypotheses(case)).seconds(lambda _: True)
    both = (Fault("H1", "open"), Fault("L2", "open"))
    assert (both in {h.faults for h in apart(case, singles)}) is thought_of


def test_every_two_faults_apart_explain_what_neither_explains_alone() -> None:
    """Against a look at all pairs: what is said of every load under both, and under each."""
    case = replay(before_the("reading taken", worked("F1"))).case
    singles = Singles.of(hypotheses(case)).seconds(lambda fault: fault.mode == "open")
    found = {h.faults for h in apart(case, singles)}
    assert found
    dark = [(e.setup, e.load) for e in odd_sightings(case)]

    def explains(*faults: Fault) -> bool:
        shown = [activities(case.now, setup, tuple(sorted(faults)))[load] for setup, load in dark]
        return all(share < 0.01 for share in shown)

    for a, b in found:
        assert explains(a, b) and not explains(a) and not explains(b)


def test_faults_that_come_in_factors_are_thought_of_by_these() -> None:
    circuit = circuits_of(read("hatchback-door-locks"))(())
    worn = [f for f in plain_faults(circuit, "M1") if f.mode == "worn_brushes"]
    assert worn and all(f.size > 1.0 for f in worn)
    assert all(noticed(circuit, f, "off") in (True, False) for f in plain_faults(circuit, "M1"))
