"""A vehicle that is otherwise than its sheet: numbers, more ways, a plug for several wires, branches.

What was measured before stays at its place, and the circuit works as before.
"""

from __future__ import annotations

from typing import Any

import pytest

from footwell.circuit.circuit import AS_DRAWN, Circuit
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.job.replay import circuits_of, replay
from footwell.sheet.list_reading import take_list
from footwell.sheet.models import Sheet
from footwell.sheet.wiring_list import wiring_list

from .job_rig import Data, Job

Edit = tuple[str, str, Any]


def edited(job: Job, *edits: Edit) -> Job:
    changes = [{"element": e, "field": f, "value": v} for e, f, v in edits]
    return job.add("sheet edited", changes=changes)


def found(job: Job, inside: str, what: str, **more: str) -> Job:
    return job.add("place found", inside=inside, what=what, **more)


def sheet_of(job: Job) -> Sheet:
    replayed = replay(job.stored())
    assert replayed.problems == (), replayed.problems
    return replayed.read.sheet


def circuit_of(job: Job) -> Circuit:
    replayed = replay(job.stored())
    return circuits_of(replayed.read)(AS_DRAWN)


def motor_amps(circuit: Circuit) -> list[float]:
    return [operate(circuit, set_up(circuit, {"S1": p})).amps("M1") for p in "0123"]


def plug(job: Job, name: str, half: str = "a") -> Data:
    view: Data = next(c for c in job.look()["connectors"] if (c["id"], c["half"]) == (name, half))
    return view


def numbers(job: Job) -> dict[str, str]:
    return {way["way"]: way["number"] for way in plug(job, "X2")["ways"]}


def test_another_number_is_seen_everywhere_and_the_way_keeps_its_name() -> None:
    job = Job().tools("meter").dead().volts("X2.2.a", 24.1, "1")
    before = job.look()["history"][-1]["title"]
    edited(job, ("X2.2", "number", "B"))
    view = job.look()
    assert numbers(job)["2"] == "B" and "way 2 " in before
    reading = next(row for row in view["history"] if row["kind"] == "reading taken")
    assert "way B (GN/WH) of switch plug X2" in reading["title"]
    names = [place["name"] for place in view["diagram"]["places"] if place["id"] == "X2.2.a"]
    assert names and all(name.startswith("way B ") for name in names)
    drawn = str(view["diagram"])
    assert "X2/B" in drawn and "X2/2" not in drawn
    exchanged = {"1": "W2", "2": "W4", "3": "W3", "4": "W5", "5": None, "6": None}
    told = job.ask("wiring", connector="X2", half="a", found=exchanged)["finding"]
    assert told["slip"] == "The wires of ways B and 3 exchanged"
    assert any(move.endswith("to way B.") for move in told["moves"])


def test_a_number_that_another_way_has_changes_over_and_none_gives_the_own_one_back() -> None:
    job = edited(Job(), ("X2.2", "number", "3"))
    assert numbers(job) | {"2": "3", "3": "2"} == numbers(job)
    edited(job, ("X2.2", "number", None))
    assert numbers(job) == {str(n): str(n) for n in range(1, 7)}


def test_undo_takes_a_number_back() -> None:
    job = edited(Job(), ("X2.2", "number", "B"))
    assert numbers(job.withdraw(len(job.events)))["2"] == "2"


def test_a_wiring_list_has_the_numbers_that_people_see_and_is_read_by_them() -> None:
    sheet = sheet_of(edited(Job(), ("X2.2", "number", "B"), ("X2.3", "number", "C")))
    text = wiring_list(sheet)
    assert "W3,X2.B.a,X1.1.a" in text and "X2.2" not in text
    assert take_list(text, sheet).sheet == sheet
    painted = take_list("from,to,colour\r\nX2.B,X1.1.a,BK\r\n", sheet).sheet
    assert next(w for w in painted.wires if w.id == "W3").colour == "BK"
    refused = Job.refused(
        edited(Job(), ("X2.2", "number", "B")),
        "list_read",
        text="wire,from,to\r\nW3,X2.2,X1.1.a\r\n",
    )
    assert "X2 has no way 2" in refused and "1, B, 3" in refused


def test_a_plug_gets_more_ways_at_the_end_of_its_row_and_loses_empty_ones() -> None:
    job = edited(Job(), ("X2", "row 1", 8))
    assert [way["way"] for way in plug(job, "X2")["ways"]] == [*"12345678"]
    edited(job, ("X2", "row 1", 4))
    assert [way["way"] for way in plug(job, "X2")["ways"]] == [*"1234"]
    assert motor_amps(circuit_of(job)) == motor_amps(circuit_of(Job()))


@pytest.mark.parametrize(
    ("edit", "told"),
    [
        (("X2.9", "number", "B"), "X2 has no way 9; its ways are 1, 2, 3, 4, 5, 6"),
        (("X9.1", "number", "B"), "X9 is no connector"),
        (("X2.1", "number", "a b"), '"a b" cannot be a number of a way'),
        (("X2.1", "number", "123456789"), "up to 8 letters or digits"),
        (("X2", "row 1", 3), "X2 has a wire or a terminal in way 4, so that way stays"),
        (("X2", "row 2", 3), "X2 has 1 rows, and no row 2"),
        (("X2", "row 1", 25), "can have 1 to 24 ways in a row"),
        (("X2", "row 1", 2.5), "needs a number of ways"),
    ],
)
def test_a_change_that_cannot_be_is_told_before_it_is_stored(edit: Edit, told: str) -> None:
    change = {"element": edit[0], "field": edit[1], "value": edit[2]}
    body = Job().add("sheet edited", changes=[change]).events[-1]["body"]
    assert told in Job().refused("entry_try", kind="sheet edited", body=body)
    assert any(told in problem for problem in edited(Job(), edit).look()["problems"])


@pytest.mark.parametrize("edit", [("X2.1", "number", "A1"), ("X2", "row 1", 7), ("W3", "mm2", 4.0)])
def test_a_change_that_can_be_is_not_refused_and_not_stored(edit: Edit) -> None:
    job = Job()
    body = edited(Job(), edit).events[-1]["body"]
    assert job.ask("entry_try", kind="sheet edited", body=body) == {}
    assert len(job.events) == 1 and job.look()["sheet"] == Job().look()["sheet"]


def test_a_second_wire_goes_through_the_plug_that_the_first_one_went_through() -> None:
    job = found(Job(), "W8", "plug", at="under the sill")
    before = circuit_of(job)
    found(job, "W7", "way of a plug", plug="X5")
    sheet = sheet_of(job)
    connector = next(c for c in sheet.connectors if c.id == "X5")
    assert connector.rows == [["1", "2"]]
    ends = {w.id: (w.start, w.end) for w in sheet.wires}
    assert ends["W7"] == ("X1.2.b", "X5.2.a")
    assert motor_amps(circuit_of(job)) == pytest.approx(motor_amps(before), rel=0.02)


def test_a_wire_that_comes_back_enters_the_plug_by_its_far_half() -> None:
    """The earth wire begins at the motor, to which half b leads."""
    job = found(found(Job(), "W8", "plug"), "W10", "way of a plug", plug="X5")
    ends = {w.id: (w.start, w.end) for w in sheet_of(job).wires}
    assert ends["W10"] == ("X4.2.a", "X5.2.b")


@pytest.mark.parametrize(
    ("inside", "what", "more", "told"),
    [
        ("W8", "way of a plug", {"plug": "X9"}, "X9 is no plug on this sheet"),
        ("W8", "way of a plug", {"plug": "X2"}, "sits on a part"),
        ("W8", "way of a plug", {"plug": "X1"}, "W8 ends in X1 already"),
        ("W8", "way of a plug", {}, "goes through a plug: say which"),
        ("F1", "branch to a lamp", {}, "F1 is no wire and no splice"),
        ("W2", "branch", {"to": "E1.1"}, "W2 would lead straight to earth, with no load between"),
        ("W8", "branch", {"to": "E1.1"}, "W8 would lead straight to earth"),
        ("W2", "branch", {"to": "X9.1.a"}, "X9.1.a is no place with a wire"),
    ],
)
def test_what_cannot_be_found_there_is_told(
    inside: str, what: str, more: dict[str, str], told: str
) -> None:
    body = found(Job(), inside, what, **more).events[-1]["body"]
    assert told in Job().refused("entry_try", kind="place found", body=body)


def test_a_branch_feeds_a_load_of_its_own_that_is_asked_for_and_assumed() -> None:
    job = found(Job(), "W2", "branch to a lamp", at="dash")
    sheet, circuit = sheet_of(job), circuit_of(job)
    assert sheet.loads == ["M1", "L1"]
    assert next(p for p in sheet.parts if p.id == "L1").assumed == ["watts"]
    rest = operate(circuit, set_up(circuit, {"S1": "0"}))
    assert rest.amps("L1") > 0.5 and abs(rest.amps("M1")) < 1e-6
    assert motor_amps(circuit) == pytest.approx(motor_amps(circuit_of(Job())), rel=0.02)


def ends_of(sheet: Sheet) -> dict[str, tuple[str, str]]:
    return {w.id: (w.start, w.end) for w in sheet.wires}


def test_a_branch_to_a_load_is_earthed_where_it_was_found_to_be_or_at_a_point_of_its_own() -> None:
    shared = sheet_of(found(Job(), "W2", "branch to a lamp", to="E1.1"))
    own = sheet_of(found(Job(), "W2", "branch to a lamp"))
    assert ("L1.2", "E1.1") in ends_of(shared).values()
    assert ("L1.2", "E2.1") in ends_of(own).values()
    assert [len([p for p in s.parts if p.kind == "earth_point"]) for s in (shared, own)] == [2, 3]


def test_a_branch_between_two_places_carries_current_and_an_open_one_carries_none() -> None:
    sound = motor_amps(circuit_of(Job()))
    open_end = found(Job(), "W8", "branch", at="sill")
    bridge = found(Job(), "W2", "branch", to="X4.1.a")
    assert motor_amps(circuit_of(open_end)) == pytest.approx(sound, rel=0.02)
    assert motor_amps(circuit_of(bridge))[0] > 0.5 > abs(sound[0])
    end = next(p for p in sheet_of(open_end).parts if p.id == "SP2")
    assert (end.name, end.at, end.probe, end.spare) == ("open end SP2", "sill", ["1"], ["2"])
    places = {place["id"]: place["name"] for place in open_end.look()["diagram"]["places"]}
    assert places["SP2.1"].endswith("at open end SP2")


def test_an_open_end_that_turns_out_to_lead_on_takes_a_branch() -> None:
    job = found(found(Job(), "W8", "branch"), "SP2", "branch to a lamp", to="E1.1")
    end = next(p for p in sheet_of(job).parts if p.id == "SP2")
    assert end.spare == [] and end.values["wires"] == 2
    assert ("SP2.2", "L1.1") in ends_of(sheet_of(job)).values()


def test_a_second_earth_of_the_earth_side_is_no_short() -> None:
    job = found(Job(), "W10", "branch", to="E0.1")
    assert motor_amps(circuit_of(job)) == pytest.approx(motor_amps(circuit_of(Job())), rel=0.02)


def test_a_splice_takes_one_branch_more_until_it_is_full() -> None:
    job = found(Job(), "W2", "branch to a lamp")
    for _ in range(9):
        found(job, "SP1", "branch to a heater")
    splice = next(p for p in sheet_of(job).parts if p.id == "SP1")
    assert splice.values["wires"] == 12
    body = found(Job(), "SP1", "branch to a motor").events[-1]["body"]
    assert "joins 12 wires already" in job.refused("entry_try", kind="place found", body=body)
    assert job.ask("entry_try", kind="place found", body=body.replace("SP1", "W5")) == {}


def test_a_sheet_has_twelve_loads_and_no_more() -> None:
    job = Job()
    for n in range(11):
        found(job, f"W{n % 5 + 1}", "branch to a motor")
    body = found(Job(), "W5", "branch to a motor").events[-1]["body"]
    assert "at most 12" in job.refused("entry_try", kind="place found", body=body)
