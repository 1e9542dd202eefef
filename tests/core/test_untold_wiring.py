"""A connector wired wrongly of which the story says nothing: suspected where no fault fits."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from footwell.circuit.circuit import AS_DRAWN, Arrangement, Circuit, HalfId, arranged
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import believe
from footwell.diagnosis.case import Case
from footwell.diagnosis.choose import choices
from footwell.diagnosis.conclude import conclude
from footwell.diagnosis.hypotheses import untold
from footwell.faults.miswiring import as_drawn, slips
from footwell.faults.orders import OTHER_ORDER, as_suspects
from footwell.job import replay as replaying
from footwell.job.replay import circuits_of, halves_to_open, replay
from footwell.practice.electrician import begin, try_positions
from footwell.sheet.models import Sheet
from footwell.sheet.reading import read_data

from .job_rig import asked, sheet
from .loop_rig import ALL_TOOLS, Trial, complains, read, tried, vehicle_of
from .sample_circuits import sample

HEADLAMPS, HALF = "hatchback-headlamps", ("X3", "a")
"""A headlamp's plug of three wires."""


def wired(what: str = "ways 1 and 3 exchanged", half: HalfId = HALF) -> Trial:
    """A vehicle with the first slip of that kind, or that title, that shows; the story says nothing of it."""
    circuit = sample(HEADLAMPS)
    every = [*slips(circuit, half), *as_suspects(circuit, half)]
    fit = [s for s in every if what == s.kind or s.title.endswith(what)]
    trials = (Trial(HEADLAMPS, (), arranged(AS_DRAWN, half, dict(s.wiring))) for s in fit)
    return next(t for t in trials if complains(vehicle_of(t)))


def case_of(trial: Trial, **story: Any) -> Case:
    """The case once every position was tried."""
    return replay(begin(read(trial.sheet).sheet, vehicle_of(trial), ALL_TOOLS, **story).events).case


def wiring_share(case: Case, half: HalfId) -> float:
    every = believe(case).suspects
    return sum(w.share for w in every if w.hypothesis.slip and w.hypothesis.slip.half == half)


@pytest.mark.parametrize("what", ["ways 1 and 3 exchanged", "too far up"])
def test_wrong_wiring_of_which_nobody_speaks_is_looked_for_and_put_right(what: str) -> None:
    done = tried(wired(what))
    assert done.right and not done.good_parts, done.steps
    assert "look into X3" in done.steps and "put right X3" in done.steps


def test_wrong_wiring_that_a_mended_fault_hid_is_suspected_once_it_is_mended() -> None:
    vehicle = vehicle_of(replace(wired(), faults=(Fault("F2", "open"),)))
    run = begin(read(HEADLAMPS).sheet, vehicle, ALL_TOOLS)
    run.add("repair done", element="F2", mode="open", what="renewed")
    try_positions(run, vehicle.mended("F2"))
    assert wiring_share(replay(run.events).case, HALF) > 0.5


@pytest.mark.parametrize(("most_wires", "halves"), [(3, 0), (4, 2), (6, 2)])
def test_orders_that_no_slip_gives_are_suspects_of_halves_with_so_many_wires(
    most_wires: int, halves: int
) -> None:
    """Two relay sockets of four wires; a plug of three wires has slips alone."""
    every = [h.slip for h in untold(case_of(Trial(HEADLAMPS, ())), most_wires) if h.slip]
    rare = Counter(s.half for s in every if s.kind == OTHER_ORDER)
    assert len(rare) == halves and all(count <= 23 for count in rare.values())
    assert not any(s.kind == "left out" for s in every)
    assert HALF in {s.half for s in every}


@pytest.mark.parametrize("fault", [Fault("X3.2", "open"), Fault("H1", "open:56b")])
def test_fault_that_explains_all_by_itself_sends_nobody_to_the_wires(fault: Fault) -> None:
    trial = Trial(HEADLAMPS, (fault,))
    assert wiring_share(case_of(trial), HALF) == 0.0
    assert not [s for s in tried(trial).steps if s.startswith("look into")]


def test_a_connector_that_the_story_names_is_suspected_more_than_one_of_which_nobody_speaks() -> (
    None
):
    trial = wired("left out")
    assert (
        wiring_share(case_of(trial), HALF)
        < 0.01
        < wiring_share(case_of(trial, rewired=["X3"]), HALF)
    )


def test_what_was_looked_into_is_suspected_no_more() -> None:
    trial = wired()
    run = begin(read(trial.sheet).sheet, vehicle_of(trial), ALL_TOOLS)
    assert wiring_share(replay(run.events).case, HALF) > 0.5
    sound = as_drawn(sample(HEADLAMPS), HALF)
    run.add("wiring found", connector="X3", half="a", found=sound)
    case = replay(run.events).case
    assert HALF not in case.untold and wiring_share(case, HALF) == 0.0


def test_screen_says_why_a_connector_of_which_nobody_spoke_is_looked_into() -> None:
    trial = wired()

    def why(**story: Any) -> str:
        run = begin(read(trial.sheet).sheet, vehicle_of(trial), ALL_TOOLS, **story)
        look = asked("look", {"events": [json.loads(e.model_dump_json()) for e in run.events]})
        return str(look["step"]["why"])

    assert why().startswith("Nobody spoke of it")
    assert why(rewired=["X3"]).startswith("It was wired by hand.")


@pytest.mark.parametrize("reached", [True, False])
def test_a_plug_that_is_out_of_reach_is_no_choice_while_there_are_others(reached: bool) -> None:
    case = replace(case_of(wired()), unreachable=frozenset(() if reached else {"X3"}))
    assert (HALF in {c.half for c in choices(case, believe(case))}) == reached


@pytest.mark.parametrize(
    ("hazard", "may"), [("restraint system", False), ("high voltage", False), ("hot part", True)]
)
def test_plug_of_a_restraint_system_or_of_high_voltage_is_not_opened(
    hazard: str, may: bool
) -> None:
    data = sheet(HEADLAMPS)
    (plug,) = (c for c in data["connectors"] if c["id"] == "X3")
    plug["hazards"] = [hazard]
    circuit = circuits_of(read_data(data))(AS_DRAWN)
    assert (HALF in halves_to_open(circuit)) == may
    assert (("X4", "a") in halves_to_open(circuit)) == (hazard != "high voltage")


def test_restraint_plug_is_not_looked_into_though_somebody_wired_it() -> None:
    data = sheet(HEADLAMPS)
    (plug,) = (c for c in data["connectors"] if c["id"] == "X3")
    run = begin(read_data(data).sheet, vehicle_of(wired()), ALL_TOOLS, rewired=["X3"])
    assert conclude(replay(run.events).case).step.half == HALF
    plug["hazards"] = ["restraint system"]
    run = begin(read_data(data).sheet, vehicle_of(wired()), ALL_TOOLS, rewired=["X3"])
    assert conclude(replay(run.events).case).step.half != HALF


TRUCK, SOCKET = "truck-starter", ("X1", "a")
TURNED = {"30": "W9", "86": "W5", "85": "W7", "87": "W10"}
"""The starter relay's socket wired so that the fuse blows at "start"."""
BOUGHT = Fault("K2", "short:hold")


@pytest.mark.parametrize(
    ("wiring", "faults"), [(TURNED, ()), (as_drawn(sample(TRUCK), SOCKET), (BOUGHT,))]
)
def test_plug_is_looked_into_before_a_part_is_bought_on_trial(
    wiring: dict[str, str | None], faults: tuple[Fault, ...]
) -> None:
    """A shorted solenoid blows the same fuse as the socket wired wrongly."""
    done = tried(Trial(TRUCK, faults, arranged(AS_DRAWN, SOCKET, wiring)))
    assert done.right and not done.good_parts, done.steps
    assert ("put right X1" in done.steps) == (not faults)
    repairs = [n for n, step in enumerate(done.steps) if step.startswith("repair K2")]
    assert bool(repairs) == bool(faults)
    assert all("look into X1" in done.steps[:n] for n in repairs)


CLUSTER, PLUG = "coupe-rear-cluster", ("X1", "a")
ROTATED = {"1": "W9", "2": "W8", "3": "W7", "4": None, "5": None, "6": None}


@pytest.mark.parametrize(
    ("wiring", "fault"),
    [
        (ROTATED, Fault("X1.3", "open")),
        (as_drawn(sample(CLUSTER), PLUG), Fault("S1", "stuck_closed:30-58")),
    ],
)
def test_plug_is_looked_into_before_a_part_is_bought_since_all_else_is_ruled_out(
    wiring: dict[str, str | None], fault: Fault
) -> None:
    """No check shows at the switch that it does not open."""
    done = tried(Trial(CLUSTER, (fault,), arranged(AS_DRAWN, PLUG, wiring)))
    assert done.right and not done.good_parts, done.steps
    assert ("put right X1" in done.steps) == (wiring is ROTATED)
    bought = [n for n, step in enumerate(done.steps) if step.startswith("repair S1")]
    assert bool(bought) == (wiring is not ROTATED)
    assert all("look into X1" in done.steps[:n] for n in bought)


FAN, SOCKET_2 = "hatchback-radiator-fan", ("X2", "a")
CROSSED = {"30": "W4", "86": "W15", "85": "W11", "87": "W9"}
"""The fan relay's socket with contact and coil exchanged: the fan does as it should all the same."""


@pytest.mark.parametrize("wiring", [CROSSED, as_drawn(sample(FAN), SOCKET_2)])
def test_where_all_works_and_readings_are_odd_the_plug_is_looked_into_before_the_end(
    wiring: dict[str, str | None],
) -> None:
    """A contact that was mended hid it; nothing is left where the socket is as drawn."""
    done = tried(Trial(FAN, (Fault("X1.86", "open"),), arranged(AS_DRAWN, SOCKET_2, wiring)))
    assert done.right, done.steps
    assert ("put right X2" in done.steps) == (wiring is CROSSED)
    assert ("look into X2" in done.steps) == (wiring is CROSSED)


def test_a_slip_is_weighed_whole_before_the_next_so_that_few_circuits_are_kept(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What is left of a phone's memory holds fewer circuits than there are slips."""
    vehicle = vehicle_of(replace(wired(), faults=(Fault("F2", "open"),)))
    run = begin(read(HEADLAMPS).sheet, vehicle, ALL_TOOLS)
    run.add("repair done", element="F2", mode="open", what="renewed")
    try_positions(run, vehicle.mended("F2"))
    replaying._CIRCUITS.clear()
    case = replay(run.events).case
    built: list[Arrangement] = []
    plain = replaying.build

    def noted(sheet: Sheet, values: Mapping[str, Any], arrangement: Arrangement) -> Circuit:
        built.append(arrangement)
        return plain(sheet, values, arrangement)

    monkeypatch.setattr(replaying, "build", noted)
    believe(case)
    count = Counter(built)
    assert len(count) > replaying.MOST_CIRCUITS
    assert max(count.values()) <= 3, "by what came last, by all, and beside what is mended"


def test_circuits_of_another_sheet_make_room_first() -> None:
    replaying._CIRCUITS.clear()
    own, other = circuits_of(read(HEADLAMPS)), circuits_of(read(CLUSTER))
    kept, gone = own(AS_DRAWN), other(AS_DRAWN)
    for slip in (s for half in halves_to_open(kept) for s in slips(kept, half)):
        own(arranged(AS_DRAWN, slip.half, dict(slip.wiring)))
    assert own(AS_DRAWN) is kept and other(AS_DRAWN) is not gone


def test_of_other_sheets_the_circuit_used_longest_ago_goes_first() -> None:
    """A job whose sheet was corrected works with two sheets, by turns."""
    replaying._CIRCUITS.clear()
    one, other = circuits_of(read(HEADLAMPS)), circuits_of(read(CLUSTER))
    kept = one(AS_DRAWN)
    every = [s for half in halves_to_open(kept) for s in slips(kept, half)]
    for slip in every[: replaying.MOST_CIRCUITS - 1]:
        one(arranged(AS_DRAWN, slip.half, dict(slip.wiring)))
    assert one(AS_DRAWN) is kept
    other(AS_DRAWN)
    assert one(AS_DRAWN) is kept
