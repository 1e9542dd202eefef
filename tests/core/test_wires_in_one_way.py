"""Wires crimped into one way, as a plug's screen lists them: together, and each alone."""

from __future__ import annotations

from typing import Any

from .job_rig import MINIBUS, Data, Job, sheet

HALF = {"connector": "X1", "half": "b"}


def job_with(*wires: Data) -> Job:
    """The minibus with more wires."""
    data = sheet(MINIBUS)
    job = Job()
    job.events = []
    return job.add("job opened", title="two", sheet=data | {"wires": [*data["wires"], *wires]})


def plug(job: Job, name: str = "X1", half: str = "b") -> Data:
    views = job.look()["connectors"]
    return next(view for view in views if (view["id"], view["half"]) == (name, half))


def listed(view: Data) -> dict[str, tuple[str, str]]:
    return {wire["id"]: (wire["colour"], wire["name"]) for wire in view["wires"]}


SECOND: dict[str, Any] = {"id": "W90", "start": "X1.2.b", "end": "E1.1", "colour": "PK"}
BRIDGE: dict[str, Any] = {"id": "W91", "start": "X1.1.b", "end": "X1.2.b", "colour": "PK"}


def test_each_of_two_wires_in_one_way_can_be_found_elsewhere_by_itself() -> None:
    wires = listed(plug(job_with(SECOND)))
    together = wires["W7+W90"]
    assert together[0] == f"{wires['W7'][0]} + PK"
    assert wires["W90"] == ("PK", "to E1")
    assert "W90" not in listed(plug(job_with()))


def test_a_wire_from_way_to_way_leads_to_the_other_way_and_not_to_its_own() -> None:
    view = plug(job_with(BRIDGE))
    by_way = {way["way"]: way["should"] for way in view["ways"]}
    wires = listed(view)
    assert "W91" in by_way["1"] and "W91" in by_way["2"]
    assert wires[by_way["1"]][1].endswith("X1 way 2")
    assert wires[by_way["2"]][1].endswith("X1 way 1")


def test_a_bridge_is_found_in_both_its_ways_or_in_another_and_never_in_three() -> None:
    job = job_with(BRIDGE)
    drawn = {way["way"]: way["should"] for way in plug(job)["ways"]}
    kept = job_with(BRIDGE).add("wiring found", **HALF, found=drawn)
    assert plug(kept)["finding"]["same"] and kept.look()["problems"] == []
    swapped = drawn | {"1": drawn["2"], "2": drawn["1"]}
    moved = job_with(BRIDGE).add("wiring found", **HALF, found=swapped)
    assert not plug(moved)["finding"]["same"] and moved.look()["problems"] == []
    half_told = job_with(BRIDGE).add("wiring found", **HALF, found={"1": drawn["1"]})
    assert {way["way"]: way["found"] for way in plug(half_told)["ways"]}["2"] == drawn["2"]
    thrice = dict.fromkeys(drawn, "W91") | {"1": "W91+" + str(drawn["1"])}
    (told,) = job_with(BRIDGE).add("wiring found", **HALF, found=thrice).look()["problems"]
    assert "W91 cannot sit there" in told


def test_one_of_two_that_went_astray_is_put_back_and_both_in_place_are_left() -> None:
    job = job_with(SECOND)
    ways = plug(job)["ways"]
    sound = {way["way"]: way["should"] for way in ways}
    astray = sound | {"1": f"{sound['1']}+W90" if sound["1"] else "W90", "2": "W7"}
    found = job.add("wiring found", **HALF, found=astray)
    finding = plug(found)["finding"]
    assert not finding["same"]
    assert any("PK" in move and "way 2" in move for move in finding["moves"])
    kept = job_with(SECOND).add("wiring found", **HALF, found=sound)
    assert plug(kept)["finding"]["same"]
