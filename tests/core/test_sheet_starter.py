"""Sheets begun without a diagram, and places found in what nobody had seen."""

from __future__ import annotations

import json
from itertools import product

import pytest

from footwell.checks.outlook import activities
from footwell.circuit.circuit import AS_DRAWN
from footwell.circuit.setup import set_up
from footwell.diagnosis.belief import believe
from footwell.job.events import Event
from footwell.job.replay import circuits_of, replay
from footwell.page.job_view import job_view
from footwell.sheet.errors import ChangeError
from footwell.sheet.finding import Found, with_place
from footwell.sheet.models import Sheet
from footwell.sheet.reading import read_again, read_data
from footwell.sheet.starter import USUAL, Wanted, starter_sheet

EVERY = [
    Wanted(load, volts, positions, relay)
    for load, volts, positions, relay in product(USUAL, (12, 24), (2, 5), (False, True))
]
MOTOR_PLUG = "X1.1.a"


def _job(*bodies: tuple[str, dict[str, object]], load: str = "lamp") -> list[Event]:
    sheet = starter_sheet(Wanted(load))  # type: ignore[arg-type]
    told = [("job opened", {"title": "A job", "sheet": sheet}), *bodies]
    return [
        Event(device="d", n=n, job="j", kind=kind, format=1, body=json.dumps(body))
        for n, (kind, body) in enumerate(told, start=1)
    ]


def _dark() -> tuple[str, dict[str, object]]:
    seen = {"controls": {"S1": "1"}, "load": "M1", "state": "dark"}
    return "positions tried", {"seen_by": "customer", "states": [seen]}


def _reading(volts: float) -> tuple[str, dict[str, object]]:
    return "reading taken", {
        "instrument": "volts",
        "red": MOTOR_PLUG,
        "black": "earth",
        "setup": {"controls": {"S1": "1"}},
        "value": volts,
    }


@pytest.mark.parametrize("wanted", EVERY, ids=str)
def test_every_set_of_answers_makes_a_sheet_that_reads(wanted: Wanted) -> None:
    read = read_data(starter_sheet(wanted))
    assert any(part.kind == "unknown_stretch" for part in read.sheet.parts)
    assert read.assumed
    assert all(wire.metres is None and wire.mm2 is None for wire in read.sheet.wires)


@pytest.mark.parametrize("load", ["lamp", "fan", "pump", "heater", "horn"])
def test_a_dead_load_has_a_first_check_at_once(load: str) -> None:
    word = {"lamp": "dark", "heater": "cold", "horn": "silent"}.get(load, "still")
    seen = {"controls": {"S1": "1"}, "load": "M1", "state": word}
    told = "positions tried", {"seen_by": "customer", "states": [seen]}
    tools = "tools stated", {"instruments": ["meter"], "helper": False}
    assert job_view(_job(tools, told, load=load)).step.kind == "check"


@pytest.mark.parametrize("what", ["plug", "fuse", "splice"])
def test_a_place_found_halves_a_stretch(what: Found) -> None:
    sheet = read_data(starter_sheet(Wanted("lamp"))).sheet
    found = read_again(with_place(sheet, "U1", what, "behind the trim")).sheet
    halves = [part for part in found.parts if part.kind == "unknown_stretch"]
    assert [part.values.get("share") for part in halves[:2]] == [0.5, 0.5]
    assert len(halves) == 1 + sum(part.kind == "unknown_stretch" for part in sheet.parts)


def test_a_stretch_seen_from_end_to_end_is_a_wire() -> None:
    sheet = read_data(starter_sheet(Wanted("lamp"))).sheet
    found = read_again(with_place(sheet, "U2", "plain wire")).sheet
    assert "U2" not in [part.id for part in found.parts]
    assert ("X2.2.a", MOTOR_PLUG) in [(wire.start, wire.end) for wire in found.wires]


def test_an_earth_point_ends_the_earth_side_and_no_other() -> None:
    sheet = read_data(starter_sheet(Wanted("lamp"))).sheet
    found = read_again(with_place(sheet, "U3", "earth point", "floor")).sheet
    assert [part.at for part in found.parts if part.kind == "earth_point"] == ["", "floor"]
    with pytest.raises(ChangeError, match="not the body"):
        with_place(sheet, "U1", "earth point")


def test_a_plug_goes_into_a_wire_and_shares_its_length() -> None:
    data = starter_sheet(Wanted("lamp"))
    data["wires"][1] |= {"metres": 3.0, "colour": "RD"}
    found = read_again(with_place(read_data(data).sheet, "W1", "plug")).sheet
    halves = [wire for wire in found.wires if wire.colour == "RD"]
    assert [wire.metres for wire in halves] == [1.5, 1.5]
    assert halves[0].end == "X3.1.a" and halves[1].start == "X3.1.b"


@pytest.mark.parametrize("inside", ["M1", "nowhere"])
def test_nothing_is_found_inside_what_is_no_wire(inside: str) -> None:
    with pytest.raises(ChangeError, match="no wire and no unknown stretch"):
        with_place(read_data(starter_sheet(Wanted("lamp"))).sheet, inside, "plug")


def test_readings_stay_when_a_place_is_found_and_undo_takes_it_back() -> None:
    found = "place found", {"inside": "U1", "what": "fuse", "at": "under the dash"}
    job = _job(_dark(), _reading(0.0), found)
    replayed = replay(job)
    assert "F1" in replayed.case.now.elements
    assert [taken.value for taken in replayed.case.evidence if hasattr(taken, "value")] == [0.0]
    undone = _job(_dark(), _reading(0.0), found, ("event withdrawn", {"device": "d", "n": 4}))
    assert "F1" not in replay(undone).case.now.elements
    assert not replay(undone).problems


def _share(volts: float, stretch: str) -> float:
    """Share of one stretch among all suspects once the lamp's plug, switched on, reads so much."""
    suspects = believe(replay(_job(_dark(), _reading(volts))).case).suspects
    return sum(w.share for w in suspects if any(f.element == stretch for f in w.faults))


def test_supply_at_a_dark_lamp_clears_the_unseen_feed_and_none_there_blames_it() -> None:
    assert _share(0.0, "U1") > 0.1 > _share(12.6, "U1")
    assert _share(12.6, "U3") > 0.05 > _share(0.0, "U3")


def test_a_value_marked_as_assumed_widens_what_it_decides() -> None:
    data = starter_sheet(Wanted("lamp"))
    seen = {**data, "parts": [{**part, "assumed": []} for part in data["parts"]]}
    guessed, known = (circuits_of(read_data(each))(AS_DRAWN) for each in (data, seen))
    spreads = [c.branches(c.elements["M1"], "")[0].spread for c in (guessed, known)]
    assert spreads[0] > 0.3 > spreads[1]


@pytest.mark.parametrize(
    ("stretch", "contact", "coil"), [("U1", "30", "86"), ("U2", "86", "30"), ("U3", "30", "86")]
)
def test_a_relay_found_has_its_coil_behind_the_control_and_its_contact_elsewhere(
    stretch: str, contact: str, coil: str
) -> None:
    sheet = read_data(starter_sheet(Wanted("lamp"))).sheet
    found = read_again(with_place(sheet, stretch, "relay", "fuse box")).sheet
    joined = {(wire.start, wire.end) for wire in found.wires}
    assert (f"{stretch}.2", f"X3.{contact}.a") in joined
    assert any(end == f"X3.{coil}.a" and start != f"{stretch}.2" for start, end in joined)


def _lit(sheet: Sheet, control: str) -> float:
    circuit = circuits_of(read_again(sheet))(AS_DRAWN)
    return activities(circuit, set_up(circuit, {"S1": control}), ())["M1"]


@pytest.mark.parametrize("stretch", ["U1", "U2", "U3"])
def test_with_a_relay_found_the_load_still_follows_the_control(stretch: str) -> None:
    plain = read_data(starter_sheet(Wanted("lamp"))).sheet
    found = with_place(plain, stretch, "relay")
    # What is unseen is longer by the relay's wires, so that the lamp is a little less bright.
    assert _lit(found, "1") > _lit(plain, "1") / 2
    assert _lit(found, "0") == pytest.approx(0.0, abs=1e-3)


def test_no_relay_is_found_in_a_wire_seen_from_end_to_end() -> None:
    with pytest.raises(ChangeError, match="seen from end to end"):
        with_place(read_data(starter_sheet(Wanted("lamp"))).sheet, "W0", "relay")


def _blamed(plug_point: str, volts: float, element: str) -> float:
    """Share of an element once a point of the dead sensor's circuit reads so much."""
    on = {"S1": "1", "B1": "50 %"}
    seen = {"controls": on, "load": "M1", "state": "signal missing"}
    taken = {"instrument": "volts", "red": plug_point, "black": "earth", "value": volts}
    job = _job(
        ("positions tried", {"seen_by": "customer", "states": [seen]}),
        ("reading taken", {**taken, "setup": {"controls": on}}),
        load="sensor",
    )
    suspects = believe(replay(job).case).suspects
    return sum(w.share for w in suspects if any(f.element == element for f in w.faults))


def test_five_volts_at_a_dead_sensor_clears_their_wire_and_none_there_blames_it() -> None:
    # The input's pull-up of 100 kΩ leaves 0.12 V behind half of a 5 kΩ track (derived).
    assert _blamed("X1.1.a", 0.12, "U4") > 0.05 > _blamed("X1.1.a", 5.0, "U4")


def test_a_dead_sensor_has_a_first_check_at_once_and_nothing_of_it_is_fed_from_outside() -> None:
    seen = {"controls": {"S1": "1", "B1": "50 %"}, "load": "M1", "state": "signal missing"}
    told = "positions tried", {"seen_by": "customer", "states": [seen]}
    tools = "tools stated", {"instruments": ["meter", "test lamp"], "helper": False}
    view = job_view(_job(tools, told, load="sensor"))
    assert view.step.kind == "check"
    checks = [view.step.check, *view.others]
    assert all(
        "lamp" not in check.record.instrument for check in checks if "X1" in check.record.red
    )


def test_only_of_a_sensor_it_is_asked_whether_its_signal_is_wrong() -> None:
    told = {load: [each.words for each in job_view(_job(load=load)).complaints] for load in USUAL}
    wrong = ["Signal wrong: too low", "Signal wrong: too high"]
    assert told == {load: wrong if load == "sensor" else [] for load in USUAL}
