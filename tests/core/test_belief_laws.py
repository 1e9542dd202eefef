"""Laws that belief keeps for any evidence."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import permutations
from typing import Any

import pytest

from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import Belief, believe, by_repair, entropy
from footwell.diagnosis.case import Case, Sighting
from footwell.job.replay import replay
from footwell.practice.electrician import begin, work

from .job_rig import Job, compact, sheet
from .loop_rig import Trial, read, single_trials, vehicle_of
from .sample_circuits import MINIBUS, NAMES, TRACTOR, VAN

SAME = 1e-6
TRUTHS = [
    Trial(MINIBUS, (Fault("R1", "open:thermal fuse"),)),
    Trial(MINIBUS, (Fault("M1", "stiff", 0.6),)),
    Trial(MINIBUS, (Fault("W10", "high_resistance", 6.32),)),
    Trial(TRACTOR, (Fault("K1", "stuck_open"),)),
    Trial(VAN, (Fault("W4", "high_resistance", 20.0),)),
]


def case_of(trial: Trial, readings: int, noise: int | None = None) -> Case:
    """The case after some readings on a vehicle, the meter's noise drawn by a seed."""
    chance = None if noise is None else random.Random(noise)
    vehicle = vehicle_of(trial, chance)
    run = begin(read(trial.sheet).sheet, vehicle, ["meter", "clamp"])
    work(run, vehicle, most_readings=readings)
    cut = next((n for n, e in enumerate(run.events) if e.kind == "repair done"), len(run.events))
    return replay(run.events[:cut]).case


def shares(belief: Belief) -> dict[object, float]:
    return {(w.hypothesis.faults, w.hypothesis.repairs): w.share for w in belief.suspects}


def furthest(a: Belief, b: Belief) -> float:
    """Largest difference of any share."""
    one, other = shares(a), shares(b)
    keys = one.keys() | other.keys()
    apart = max((abs(one.get(k, 0.0) - other.get(k, 0.0)) for k in keys), default=0.0)
    return max(apart, abs(a.none - b.none))


@pytest.mark.parametrize("trial", TRUTHS, ids=str)
@pytest.mark.parametrize("readings", [0, 1, 3])
def test_shares_of_all_suspects_and_of_none_sum_to_one(trial: Trial, readings: int) -> None:
    belief = believe(case_of(trial, readings, noise=1))
    assert sum(w.share for w in belief.suspects) + belief.none == pytest.approx(1.0, abs=SAME)
    assert all(w.share >= 0.0 for w in belief.suspects) and belief.none >= 0.01


@pytest.mark.parametrize("trial", TRUTHS, ids=str)
def test_order_of_readings_after_the_positions_makes_no_difference(trial: Trial) -> None:
    """The positions keep their order: a fuse that one of them blows is open in those that follow."""
    case = case_of(trial, 3, noise=2)
    straight = believe(case)
    tried = [e for e in case.evidence if isinstance(e, Sighting)]
    read = [e for e in case.evidence if not isinstance(e, Sighting)]
    for seed in range(4):
        random.Random(seed).shuffle(read)
        turned = believe(replace(case, evidence=(*tried, *read)))
        assert furthest(straight, turned) < SAME


def test_order_of_readings_makes_no_difference_in_any_of_all_orders() -> None:
    case = case_of(TRUTHS[2], 3, noise=3)
    told = [e for e in case.evidence if hasattr(e, "word") and not hasattr(e, "check")]
    read_out = [e for e in case.evidence if hasattr(e, "check")]
    straight = believe(case)
    for order in permutations(read_out):
        other = believe(replace(case, evidence=(*told, *order)))
        assert furthest(straight, other) < SAME


def renamed(text: str, names: dict[str, str]) -> str:
    """Events with every part, wire and connector under another id."""
    for old, new in sorted(names.items(), key=lambda pair: -len(pair[0])):
        for before, after in (
            ('"', '"'),
            ('"', "."),
            (" ", " "),
            (" ", "."),
            ('\\"', '\\"'),
            ('\\"', "."),
        ):
            text = text.replace(f"{before}{old}{after}", f"{before}{new}{after}")
    return text


@pytest.mark.parametrize("name", NAMES)
def test_names_of_parts_wires_and_plugs_make_no_difference(name: str) -> None:
    data = sheet(name)
    owners = [x["id"] for key in ("parts", "wires", "connectors") for x in data[key]]
    names = {old: f"Q{n:02}{old[0]}" for n, old in enumerate(reversed(owners))}
    before = believe(replay(told_on(name, data).stored()).case)
    other = told_on(name, data)
    for event in other.events:
        event["body"] = renamed(event["body"], names)
    after = believe(replay(other.stored()).case)
    assert after.none == pytest.approx(before.none, abs=SAME)
    there = {
        tuple(
            sorted((names[f.element.split(".")[0]], f.mode, f.size) for f in w.hypothesis.faults)
        ): w
        for w in before.suspects
    }
    assert len(before.suspects) == len(after.suspects)
    totals = [sorted(w.share for w in b.suspects) for b in (before, after)]
    assert totals[0] == pytest.approx(totals[1], abs=SAME) and there


def told_on(name: str, data: dict[str, Any]) -> Job:
    """A complaint and a reading on a sample circuit: the first load does nothing, no feed behind F1."""
    job = Job(name)
    load = data["loads"][0]
    dead = {MINIBUS: "still", TRACTOR: "dark", VAN: "cold"}[name]
    on = {c["part"]: c["positions"][-1]["id"] for c in data["controls"]}
    job.add("positions tried", states=[{"controls": on, "load": load, "state": dead}])
    return job.add(
        "reading taken",
        instrument="volts",
        red="F1.2",
        black="earth",
        setup={"controls": on},
        value=0.0,
    )


def test_renaming_changes_the_text_of_every_event() -> None:
    job = told_on(MINIBUS, sheet(MINIBUS))
    text = renamed(compact({"part": "S1", "end": "X2.1.a", "at": "S1.B"}), {"S1": "Q", "X2": "Z"})
    assert text == compact({"part": "Q", "end": "Z.1.a", "at": "Q.B"}) and job.events


def test_reading_that_cannot_be_raises_none_of_these_and_the_warning() -> None:
    job = Job().tools("meter").dead()
    before = job.look()["suspects"]
    for place in ("X4.1.a", "X2.1.a", "F1.2"):
        job.volts(place, -17.0, "3")
    after = job.look()["suspects"]
    assert before["none_of_these"] < 0.05 and before["warning"] == ""
    assert after["none_of_these"] > 0.5
    for reason in ("fit no fault on this sheet", "not on metal", "position", "not like the sheet"):
        assert reason in after["warning"]


def test_each_reading_that_cannot_be_leaves_none_of_these_no_smaller() -> None:
    job = Job().tools("meter").dead()
    before = job.look()["suspects"]["none_of_these"]
    for place in ("X4.1.a", "X2.1.a", "F1.2"):
        now = job.volts(place, -17.0, "3").look()["suspects"]["none_of_these"]
        assert now >= before
        before = now


def test_repairs_share_what_their_suspects_share() -> None:
    belief = believe(case_of(TRUTHS[0], 1))
    assert sum(by_repair(belief.suspects).values()) + belief.none == pytest.approx(1.0, abs=SAME)


def test_entropy_of_the_dictionary_of_six_states() -> None:
    # Pattipati and Alexandridis 1990, the dictionary of six states: 1.4549 bit (from memory).
    assert entropy([0.70, 0.01, 0.02, 0.10, 0.05, 0.12]) == pytest.approx(1.4549, abs=5e-5)


@pytest.mark.parametrize("name", NAMES)
def test_true_fault_is_never_ruled_out_by_its_own_sound_readings(name: str) -> None:
    for trial in single_trials(name, 2)[::17]:
        case = case_of(trial, 2, noise=4)
        kept = {f.element for w in believe(case).suspects for f in w.hypothesis.faults}
        assert trial.faults[0].element in kept, str(trial)
