"""What limits the checks proposed: tools and hands at hand, places given up, a fuse that is sound; and what
is offered with a check because the person is there. Each with its opposite."""

from __future__ import annotations

from typing import Any

import pytest

from footwell.checks.catalogue import catalogue
from footwell.checks.check import CLAMP, FUSE_LAMP, VOLTS, Check
from footwell.checks.hands import NEED_A_HAND, held_down
from footwell.checks.minutes import minutes
from footwell.circuit.fault import Fault
from footwell.diagnosis.along import along
from footwell.diagnosis.belief import Belief, believe
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.choose import behind_fuse, choices, live_of, owners, sensible
from footwell.job.replay import replay
from footwell.practice.electrician import Run, begin, work

from .job_rig import Job
from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from .sample_circuits import MINIBUS

HORN, TRAILER = "coupe-horn", "trailer-rear-lamps"


def job(sheet: str, fault: Fault, tools: tuple[str, ...] = ALL_TOOLS) -> Run:
    """A job as far as the positions tried."""
    return begin(read(sheet).sheet, vehicle_of(Trial(sheet, (fault,))), tools)


def case_of(run: Run) -> tuple[Case, Belief]:
    case = replay(run.events).case
    return case, believe(case)


def proposed(run: Run) -> list[Check]:
    return [c.check for c in choices(*case_of(run)) if c.check is not None]


def dead_fan(tools: tuple[str, ...] = ALL_TOOLS) -> Run:
    return job(MINIBUS, Fault("W4", "open"), tools)


def dead_horn() -> Run:
    """The horn's button has to be held while somebody listens to the relay."""
    return job(HORN, Fault("K1", "open:coil"))


def stated(run: Run, helper: bool) -> Run:
    run.add("tools stated", instruments=list(ALL_TOOLS), helper=helper)
    return run


def skipped(run: Run, check: Check, reason: str) -> Run:
    run.add("check skipped", check=check.id, reason=reason)
    return run


def held(run: Run) -> list[Check]:
    """Checks that take a hand at the place while another holds the control, as far as hands allow them."""
    case = replay(run.events).case
    rows = catalogue(case.now, case.tools, case.engine)
    return [c for c in rows if c.instrument in NEED_A_HAND and held_down(case.now, c)]


def test_a_tool_that_is_not_at_hand_is_not_asked_for() -> None:
    assert any(check.instrument == CLAMP for check in proposed(dead_fan()))
    without = proposed(dead_fan(("meter",)))
    assert without and {CLAMP, FUSE_LAMP}.isdisjoint(check.instrument for check in without)


def test_one_pair_of_hands_holds_no_button_and_listens_elsewhere() -> None:
    alone, helped = stated(dead_horn(), False), stated(dead_horn(), True)
    assert proposed(alone) and not held(alone)
    assert held(helped)


def test_the_helper_who_is_gone_is_counted_on_again_only_when_stated_anew() -> None:
    run = stated(dead_horn(), True)
    skipped(run, held(run)[0], "alone")
    assert proposed(run) and not held(run)
    assert held(stated(run, True))


def test_a_skip_for_another_reason_leaves_the_helper() -> None:
    run = stated(dead_horn(), True)
    first = held(run)[0]
    assert held(skipped(run, first, "other"))
    assert first not in proposed(run)


def test_a_place_out_of_reach_takes_all_its_checks_along() -> None:
    run = dead_fan()
    check = next(c for c in proposed(run) if c.instrument == VOLTS and len(owners(c)) == 1)
    gone = {c for c in proposed(run) if owners(c) & owners(check)}
    assert len(gone) > 1
    assert gone.isdisjoint(proposed(skipped(run, check, "cannot reach")))


def test_another_reason_takes_one_check_only() -> None:
    run = dead_fan()
    before = proposed(run)
    check = before[0]
    assert set(before) - set(proposed(skipped(run, check, "other"))) == {check}


def test_a_tool_that_failed_is_left_until_it_is_stated_again() -> None:
    run = dead_fan()
    clamped = next(c for c in proposed(run) if c.instrument == CLAMP)
    skipped(run, clamped, "no instrument")
    assert all(c.instrument != CLAMP for c in proposed(run))
    assert any(c.instrument == CLAMP for c in proposed(stated(run, False)))


def at_the_seat(fault: Fault, tools: tuple[str, ...] = ALL_TOOLS) -> list[str]:
    """Instruments used at an empty fuse's seat in a whole job."""
    vehicle = vehicle_of(Trial(MINIBUS, (fault,)))
    run = begin(read(MINIBUS).sheet, vehicle, tools)
    work(run, vehicle)
    taken = [e.check for e in replay(run.events).case.evidence if isinstance(e, Taken)]
    return [check.instrument for check in taken if behind_fuse(check)]


def test_a_lamp_is_put_in_place_of_a_fuse_that_a_short_has_blown() -> None:
    without = tuple(tool for tool in ALL_TOOLS if tool != "clamp")
    assert FUSE_LAMP in at_the_seat(Fault("W6", "short_to_earth"), without)
    assert set(at_the_seat(Fault("W6", "short_to_earth"))) & {FUSE_LAMP, CLAMP}


def test_a_fuse_that_holds_stays_in_its_seat() -> None:
    assert at_the_seat(Fault("W6", "open")) == []


def alongs(sheet: str, fault: Fault) -> list[tuple[Check, Check, Any]]:
    """(first, taken along, case) for every check that could come first."""
    case, belief = case_of(job(sheet, fault))
    ranked = choices(case, belief)
    return [
        (first.check, more.check, case)
        for first in ranked[:8]
        if first.check
        for more in along(case, belief, first.check, ranked)
        if more.check
    ]


@pytest.mark.parametrize("sheet", [MINIBUS, TRAILER])
def test_what_is_offered_while_there_needs_no_way_no_switching_and_no_plug(sheet: str) -> None:
    first_load = read(sheet).sheet.loads[0]
    for first, more, case in alongs(sheet, Fault(first_load, "open")):
        assert more != first and more.setup == first.setup
        assert owners(more) <= owners(first)
        assert minutes(case.now, more, first) == minutes(case.now, more, more)


def test_something_is_offered_while_there_where_it_tells_more_than_the_first() -> None:
    assert alongs(MINIBUS, Fault("W4", "open"))


def test_a_check_adds_nothing_to_itself() -> None:
    case, belief = case_of(dead_fan())
    ranked = choices(case, belief)
    first = next(c for c in ranked if c.check)
    assert first.check is not None and along(case, belief, first.check, [first]) == ()


def test_shorts_are_looked_for_from_a_fuses_seat_only_where_the_fuse_is_thought_to_be_blown() -> (
    None
):
    def asked(job: Job) -> set[str]:
        case = replay(job.stored()).case
        return {behind_fuse(check) for check in sensible(case, live_of(believe(case)))}

    dead = Job().tools("meter", "substitute lamp").dead()
    assert asked(dead) == {""}
    record = dead.ask("check_at", instrument="look", red="F1")["record"]
    assert asked(dead.add("reading taken", **(record | {"choice": "blown"}))) == {"", "F1"}
