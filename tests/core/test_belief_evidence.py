"""What single pieces of evidence may and may not do to belief."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations
from typing import Any

import pytest
from parity.seed import some

from footwell.checks.check import VOLTS
from footwell.checks.predict import volts_sigma
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import Belief, believe
from footwell.diagnosis.elimination import JOINT_COST, PART_COST, best_try
from footwell.diagnosis.hypotheses import hypotheses
from footwell.faults.suspects import Circumstances, Repair, single_faults
from footwell.job.events import ReadingTaken
from footwell.job.replay import replay
from footwell.practice.electrician import Run, begin, work
from footwell.practice.vehicle import Vehicle

from .job_rig import Job, suspects
from .loop_rig import Trial, read, vehicle_of
from .sample_circuits import MINIBUS, NAMES, TRACTOR, VAN, sample

MET_WRONG_PIN = [
    Trial(MINIBUS, (Fault("R1", "open:thermal fuse"),)),
    Trial(MINIBUS, (Fault("W10", "open"),)),
    Trial(TRACTOR, (Fault("E1", "open"),)),
    Trial(TRACTOR, (Fault("K1", "stuck_open"),)),
    Trial(VAN, (Fault("W4", "high_resistance", 20.0),)),
    Trial(VAN, (Fault("H1", "open"),)),
]


def held(belief: Belief, element: str) -> float:
    """Share of suspects that hold a fault of an element."""
    return sum(w.share for w in belief.suspects if any(f.element == element for f in w.faults))


# ---- presence of the complaint ---------------------------------------------------------------------


def test_reading_taken_while_the_complaint_is_absent_says_nothing() -> None:
    silent = Job().tools("meter").dead()
    spoken = Job().tools("meter").dead().volts("X4.1.a", 25.0, "3", complaint="absent")
    assert suspects(silent.look()) == suspects(spoken.look())


def test_same_reading_with_the_complaint_present_says_much() -> None:
    silent = Job().tools("meter").dead()
    spoken = Job().tools("meter").dead().volts("X4.1.a", 25.0, "3", complaint="present")
    assert suspects(silent.look()) != suspects(spoken.look())


def test_reading_of_a_fault_that_comes_and_goes_is_kept_in_the_history() -> None:
    job = Job().tools("meter").dead().volts("X4.1.a", 25.0, "3", complaint="absent")
    assert any(row["kind"] == "reading taken" for row in job.look()["history"])


# ---- a slip of the hand ----------------------------------------------------------------------------


def misread(run: Run, number: int, value: float) -> None:
    """Change the n-th reading on volts to that of a wrong pin."""
    taken = {
        n: ReadingTaken.model_validate_json(e.body)
        for n, e in enumerate(run.events)
        if e.kind == "reading taken"
    }
    at, body = [(n, body) for n, body in taken.items() if body.instrument == VOLTS][number]
    wrong = body.model_copy(update={"value": value}).model_dump_json(exclude_none=True)
    run.events[at] = run.events[at].model_copy(update={"body": wrong})


@pytest.mark.parametrize("place", ["X4.1.a", "X2.1.a", "F1.2"])
def test_one_reading_from_the_wrong_pin_condemns_no_part(place: str) -> None:
    """The fan stands still for want of its earth; a probe off its metal reads 0 V on a live feed."""
    job = Job().tools("meter", "clamp").dead().volts(place, 0.0, "3")
    view = job.look()
    assert view["suspects"]["proven"] == [] and view["step"]["kind"] == "check"


def first_on_volts(run: Run, vehicle: Vehicle) -> ReadingTaken:
    """Work up to the first reading on volts."""
    for readings in range(1, 6):
        work(run, vehicle, most_readings=readings)
        taken = ReadingTaken.model_validate_json(run.events[-1].body)
        if taken.instrument == VOLTS:
            return taken
    raise AssertionError("nothing was measured on volts")


@pytest.mark.parametrize("trial", some(MET_WRONG_PIN, 1), ids=str)
def test_job_with_one_reading_from_the_wrong_pin_still_mends_the_true_fault(trial: Trial) -> None:
    vehicle = vehicle_of(trial)
    run = begin(read(trial.sheet).sheet, vehicle, ["meter", "clamp"])
    first = first_on_volts(run, vehicle)
    live = float(sample(trial.sheet).context.system_volts)
    misread(run, 0, 0.0 if abs(first.value or 0.0) > 1.0 else live)
    vehicle = work(run, vehicle)
    assert trial.faults[0].element in run.replaced
    assert vehicle.standing == ()


# ---- the supply ------------------------------------------------------------------------------------


def bad_feed(job: Job) -> float:
    """Share of a poor joint in the fan's feed, when a little voltage is missing at its plug."""
    belief = believe(replay(job.volts("X4.1.a", 23.1, "3").stored()).case)
    return sum(held(belief, e) for e in ("F1", "W8", "X1.3", "X2.4", "X4.1"))


def slow(volts: float | None) -> Job:
    job = Job().tools("meter")
    job.add("sitting begun", engine="off", **({} if volts is None else {"supply_volts": volts}))
    return job.positions(p1="slow", p2="slow", p3="slow")


def test_supply_once_measured_tightens_what_is_expected_elsewhere() -> None:
    full, low = bad_feed(slow(25.2)), bad_feed(slow(23.6))
    assert full > 1.5 * low
    assert full > bad_feed(slow(None)) > low


def test_supply_of_another_sitting_tightens_nothing() -> None:
    earlier = slow(25.2).add("sitting begun", engine="off")
    case = replay(earlier.stored()).case
    assert not case.supply_measured
    assert replay(slow(25.2).stored()).case.supply_measured


def test_standard_deviation_of_the_meter_is_half_its_limit() -> None:
    # Limit ±(0.5 % of reading + 2 counts of 0.01 V) at 12 V: 0.08 V.
    assert volts_sigma(12.0) == pytest.approx(0.04, abs=1e-9)


# ---- outputs ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_output_that_was_not_told_to_switch_on_is_a_suspect_of_its_own(name: str) -> None:
    circuit = sample(name)
    outputs = {e.id for e in circuit.elements.values() if e.kind.name == "output"}
    found = {
        s.fault.element: s
        for s in single_faults(circuit, Circumstances())
        if s.fault.mode == "not_commanded"
    }
    assert found.keys() == outputs
    assert all("find why" in s.repair[1] and s.odds > 0.0 for s in found.values())


def test_dead_lamps_suspect_the_order_to_the_output_as_much_as_the_output() -> None:
    job = Job(TRACTOR).tools("meter")
    on = {"A1": "on", "S2": "on"}
    rows = [{"controls": on, "load": x, "state": "dark"} for x in ("L1", "L2", "H1")]
    belief = believe(replay(job.add("positions tried", states=rows).stored()).case)
    by_mode: dict[str, float] = {}
    for w in belief.suspects:
        for f in w.faults:
            if f.element == "A1":
                by_mode[f.mode] = by_mode.get(f.mode, 0.0) + w.share
    assert by_mode["not_commanded"] >= 0.5 * by_mode["open"] > 0.0


# ---- the story -------------------------------------------------------------------------------------


def odds(job: Job, element: str) -> float:
    found = hypotheses(replay(job.stored()).case)
    return sum(h.odds for h in found if any(f.element == element for f in h.faults))


@pytest.mark.parametrize(
    ("told", "element"),
    [
        ({"renewed": ["S1"]}, "X2.1"),
        ({"rewired": ["X4"]}, "X4.1"),
        ({"seen": [{"where": "X4", "what": "burnt"}]}, "X4.1"),
        ({"seen": [{"where": "W8", "what": "chafed"}]}, "W8"),
    ],
)
def test_what_the_story_tells_of_a_place_raises_its_odds(
    told: dict[str, Any], element: str
) -> None:
    plain, story = Job().dead(), Job().add("story told", **told).dead()
    assert odds(story, element) > 3.0 * odds(plain, element)
    assert odds(story, "E1") == pytest.approx(odds(plain, "E1"))


# ---- repairs that nothing tells apart --------------------------------------------------------------


def expected_cost(order: tuple[Repair, ...], chance: dict[Repair, float]) -> float:
    """Cost of trying repairs in an order until the true one is met."""
    total, spent = 0.0, 0.0
    for repair in order:
        spent += PART_COST if repair[0] in ("S1", "M1", "R1") else JOINT_COST
        total += chance[repair] * spent
    return total


@pytest.mark.parametrize("shares", [(0.5, 0.3, 0.2), (0.7, 0.2, 0.1), (0.85, 0.1, 0.05)])
def test_repair_tried_first_begins_the_cheapest_of_all_orders(shares: tuple[float, ...]) -> None:
    """Chance over cost gives the order of least expected cost; here against every order."""
    repairs: list[Repair] = [("S1", "renew"), ("X2.1", "renew both terminals"), ("W2", "mend")]
    for given in permutations(shares):
        chance = dict(zip(repairs, given, strict=True))
        best = min(permutations(repairs), key=lambda order: round(expected_cost(order, chance), 9))
        first = best_try(sample(MINIBUS), chance)
        assert first is not None
        rest = tuple(r for r in best if r != first)
        least = min(expected_cost((first, *o), chance) for o in permutations(rest))
        assert least == pytest.approx(expected_cost(best, chance))


def test_repair_that_is_hardly_likely_is_not_tried() -> None:
    assert best_try(sample(MINIBUS), {("S1", "renew"): 0.04, ("W2", "mend"): 0.01}) is None


def test_case_without_evidence_believes_in_its_odds_alone() -> None:
    case = replay(Job().stored()).case
    assert believe(replace(case, evidence=())).suspects[0].faults == ()
