"""Sheets built from a wiring diagram, one step after another along the current."""

from __future__ import annotations

from typing import Any

import pytest

from footwell.circuit.circuit import AS_DRAWN
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.job.replay import circuits_of
from footwell.messages import Building, BuildView
from footwell.page.build_view import view
from footwell.practice.electrician import begin, work
from footwell.practice.vehicle import Vehicle
from footwell.sheet.building.steps import (
    Change,
    Clear,
    Copy,
    Earth,
    Go,
    Join,
    Plug,
    Put,
    Split,
    Step,
)
from footwell.sheet.errors import SheetError
from footwell.sheet.reading import read_data

TWO_LAMPS: list[Step] = [
    Put(what="fuse", amount=15),
    Put(what="relay"),
    Plug(id="X3", pins="6"),
    Split(),
    Put(what="lamp", code="H7"),
    Earth(),
    Copy(of="L1"),
    Put(what="fuse", amount=5),
    Put(what="switch"),
    Join(to="K1.86"),
    Earth(),
]
FAN: list[Step] = [
    Put(what="fuse", amount=30),
    Put(what="switch", ways=4),
    Plug(id="X1", pins="6"),
    Put(what="resistor pack", ways=3),
    Put(what="fan"),
    Earth(),
    Join(to="M1.+"),
]
EARTH_SIDE_FAN: list[Step] = [
    Put(what="fuse", amount=30),
    Put(what="fan"),
    Split(),
    Put(what="resistor pack", ways=3, turned=True),
    Put(what="switch", ways=4, turned=True),
    Earth(),
    Join(to="S1.4"),
]
TOOLS = ("meter", "clamp", "fused jumper", "substitute lamp", "test lamp")


def built(*steps: Step) -> BuildView:
    return view(Building(volts=12, steps=list(steps)))


def sheet(*steps: Step) -> dict[str, Any]:
    found = built(*steps).sheet
    assert found is not None
    return found


def wire(data: dict[str, Any], start: str) -> dict[str, Any]:
    return next(each for each in data["wires"] if each["start"] == start)


@pytest.mark.parametrize(
    ("steps", "fault"),
    [
        (TWO_LAMPS, Fault("F2", "open")),
        (TWO_LAMPS, Fault("L2", "open")),
        (FAN, Fault("R1", "open:thermal fuse")),
        (FAN, Fault("F1", "open")),
        (EARTH_SIDE_FAN, Fault("R1", "open:thermal fuse")),
        (EARTH_SIDE_FAN, Fault("M1", "open")),
    ],
)
def test_a_built_sheet_finds_the_fault_that_is_there(steps: list[Step], fault: Fault) -> None:
    read = read_data(sheet(*steps))
    truth = Vehicle(circuits_of(read), (fault,), AS_DRAWN)
    run = begin(read.sheet, truth, TOOLS)
    after = work(run, truth)
    assert run.solved and not after.standing, run.steps


@pytest.mark.parametrize("steps", [TWO_LAMPS, FAN, EARTH_SIDE_FAN])
def test_every_beginning_can_be_shown_and_undo_is_dropping_the_last(steps: list[Step]) -> None:
    shown = [built(*steps[:n]) for n in range(len(steps) + 1)]
    assert [each.refused for each in shown] == [""] * len(shown)
    assert built(*steps[:-1]) == shown[-2]
    assert shown[0].sheet is None and shown[-1].sheet is not None
    assert built(*steps, Clear()) == shown[0]


def test_what_is_not_typed_is_assumed_from_the_fuse_and_marked() -> None:
    data = sheet(*FAN)
    motor = next(part for part in data["parts"] if part["id"] == "M1")
    assert motor["values"]["amps"] == 22.5 and motor["assumed"] == ["amps"]
    assert wire(data, "F1.2")["mm2"] == 4.0 and wire(data, "F1.2")["assumed"] == ["mm2"]
    told = sheet(*FAN, Change(element="W2", field="mm2", value="2,5"))
    assert wire(told, "F1.2")["mm2"] == 2.5 and "assumed" not in wire(told, "F1.2")


def test_an_assumed_section_widens_the_wire_and_a_seen_one_does_not() -> None:
    def spread(*more: Step) -> float:
        circuit = circuits_of(read_data(sheet(*FAN, *more)))(AS_DRAWN)
        return circuit.branches(circuit.elements["W2"], "")[0].spread

    assert spread() > spread(Change(element="W2", field="mm2", value="4"))


def test_a_lamp_by_its_code_has_the_watts_of_the_table_and_a_wrong_code_is_told() -> None:
    lamp = next(part for part in sheet(*TWO_LAMPS)["parts"] if part["id"] == "L2")
    assert lamp["values"]["watts"] == 55.1
    assert "No H99 lamp" in built(Put(what="lamp", code="H99")).refused


def test_an_unfinished_sheet_is_used_as_far_as_it_goes() -> None:
    data = sheet(Put(what="fuse", amount=15), Put(what="switch", ways=2), Put(what="lamp"))
    assert "unknown_stretch" in [part["kind"] for part in data["parts"]]
    assert read_data(data)


def test_nothing_to_earth_is_told_at_its_place_and_its_twin_is_not() -> None:
    open_end = [Put(what="fuse"), Put(what="lamp")]
    told = built(*open_end).problems
    assert [p.element for p in told] == ["L1"] and "leads nowhere yet" in told[0].sentence
    assert built(*open_end, Earth()).problems == []


def test_supply_straight_to_earth_is_refused_and_changes_nothing() -> None:
    shown = built(Put(what="fuse"), Earth())
    assert "straight to earth" in shown.refused
    assert shown.points == built(Put(what="fuse")).points
    assert built(Put(what="fuse"), Put(what="lamp"), Earth()).refused == ""


def test_two_wires_in_one_way_are_refused_and_the_next_way_is_taken() -> None:
    first = [Put(what="fuse"), Plug(id="X1", pins="2"), Put(what="lamp")]
    assert "Way 1 of X1 has a wire already" in built(*first, Plug(id="X1", way="1")).refused
    data = sheet(*first, Plug(id="X1", way="2"))
    assert wire(data, "XL1.2.a")["end"] == "X1.2.b"


def test_a_way_that_does_not_exist_is_told_with_those_that_do() -> None:
    assert "its ways are A1, A2" in built(Plug(id="X1", pins="A1-A2", way="7")).refused


def test_a_ring_of_plugs_is_refused() -> None:
    ring = [Plug(id="X1", pins="2"), Plug(id="X2", pins="2")]
    shown = built(Put(what="fuse"), *ring, Join(to="X1.1.b"))
    assert "would close a ring" in shown.refused


def test_a_wire_that_would_end_where_it_begins_is_told() -> None:
    split = [Put(what="fuse"), Split()]
    shown = built(*split, Join(to="SP1.3"))
    assert shown.refused == "Splice SP1 is where this wire begins; it ends somewhere else."
    assert built(*split, Put(what="lamp"), Join(to="E0.1")).refused == ""


@pytest.mark.parametrize("name", ["F1", "L1", "W1", "G1", "earth"])
def test_a_name_used_twice_is_refused_with_one_that_is_free(name: str) -> None:
    assert "already" in built(*TWO_LAMPS, Put(what="fuse", id=name)).refused
    assert built(*TWO_LAMPS, Put(what="fuse", id="F7")).refused == ""


def test_a_renamed_part_keeps_its_wires() -> None:
    data = sheet(*FAN, Change(element="F1", field="id", value="F34"))
    assert wire(data, "G1.+")["end"] == "F34.1"


def test_more_parts_than_a_sheet_holds_are_too_many_and_the_first_stay() -> None:
    shown = built(*(Put(what="fuse") for _ in range(125)))
    assert "at most 120 parts" in shown.refused
    assert len(shown.diagram.symbols) >= 118


def test_pins_are_named_in_bulk_and_a_name_twice_is_told() -> None:
    data = sheet(*FAN, Change(element="XM1", field="pins", value="3 1"))
    plug = next(each for each in data["connectors"] if each["id"] == "XM1")
    assert plug["part_ways"] == {"3": "M1.+", "1": "M1.-"}
    assert "named twice" in built(Plug(pins="1 2 1")).refused


def test_a_plug_goes_into_wires_and_what_comes_back_comes_by_its_far_half() -> None:
    data = sheet(*TWO_LAMPS, Plug(id="X9", pins="2", wires=["W1", "W2"]))
    assert wire(data, "G1.+")["end"] == "X9.1.a" and wire(data, "F1.2")["end"] == "X9.2.b"


def test_a_second_wire_at_a_way_is_drawn_as_a_splice_and_told() -> None:
    assert any("SP1" in p.sentence for p in built(*FAN).problems)
    assert not any("SP1" in p.sentence for p in built(*FAN[:-1]).problems)


def test_a_branch_begins_where_a_wire_splits_off() -> None:
    data = sheet(*FAN, Go(to="F1.2"), Put(what="lamp"), Earth(id="E1"))
    assert [part["id"] for part in data["parts"] if part["kind"] == "splice"] == ["SP1", "SP2"]


def test_a_fuse_too_small_for_its_loads_is_told() -> None:
    small = [Put(what="fuse", amount=3), Put(what="heater", amount=120), Earth()]
    assert "rated 3 A" in built(*small).problems[0].sentence
    assert built(Put(what="fuse", amount=15), *small[1:]).problems == []


REVERSING: list[Step] = [
    Put(what="fuse", amount=20),
    Put(what="reversing switch"),
    Put(what="reversing motor"),
    Join(to="S1.2"),
    Earth(),
]
TWIN: list[Step] = [
    Put(what="fuse", amount=15),
    Put(what="switch", ways=2),
    Put(what="twin-filament lamp", code="H4"),
    Earth(),
]
CHANGEOVER: list[Step] = [
    Put(what="fuse", amount=15),
    Put(what="changeover relay"),
    Put(what="lamp", code="P21W"),
    Earth(),
    Put(what="lamp", code="R5W"),
    Earth(),
    Put(what="fuse", amount=5),
    Put(what="switch"),
    Join(to="K1.86"),
    Earth(),
]


def amps(steps: list[Step], position: str, part: str, branch: str = "") -> float:
    """What flows in a built sheet with its switch in a position."""
    circuit = circuits_of(read_data(sheet(*steps)))(AS_DRAWN)
    point = operate(circuit, set_up(circuit, {"S1": position}))
    return point.amps(part, branch) if branch else point.amps(part)


def test_a_motor_on_a_reversing_switch_runs_either_way_and_rests_on_earth_at_both_sides() -> None:
    assert built(*REVERSING).problems == []
    there, back, rest = (amps(REVERSING, position, "M1") for position in "120")
    assert there > 1.0 and back == pytest.approx(-there, rel=0.02) and abs(rest) < 1e-6


def test_a_changeover_relay_feeds_one_lamp_at_rest_and_the_other_when_pulled_in() -> None:
    assert built(*CHANGEOVER).problems == []
    at_rest, pulled = ([amps(CHANGEOVER, p, lamp) > 0.2 for lamp in ("L1", "L2")] for p in "01")
    assert at_rest == [False, True] and pulled == [True, False]


def test_each_outlet_feeds_a_filament_of_a_twin_filament_lamp() -> None:
    assert built(*TWIN).problems == []
    flows = [[amps(TWIN, p, "L1", f) > 1.0 for f in ("main", "dip")] for p in "012"]
    assert flows == [[False, False], [True, False], [False, True]]


def test_the_second_filament_is_told_until_it_has_a_wire_and_a_lamp_with_one_is_refused() -> None:
    one = [Put(what="fuse"), Put(what="twin-filament lamp"), Earth()]
    assert ["minor has no wire yet" in p.sentence for p in built(*one).problems] == [True]
    assert built(*one, Put(what="fuse"), Join(to="L1.minor")).problems == []
    assert "has not two filaments" in built(Put(what="twin-filament lamp", code="H7")).refused
    assert (
        "other filaments"
        in built(*TWIN, Change(element="L1", field="code", value="P21/5W")).refused
    )
    same = Change(element="L1", field="code", value="P21/4W")
    assert built(*one, same).refused == ""


@pytest.mark.parametrize("steps", [TWO_LAMPS, FAN, REVERSING, TWIN, CHANGEOVER])
def test_every_open_end_has_its_mark_in_the_drawing_and_one_is_in_hand(steps: list[Step]) -> None:
    for n in range(1, len(steps) + 1):
        shown = built(*steps[:n])
        marked = {end.point for end in shown.ends}
        assert marked == {p.point for p in shown.points if p.open}
        assert [end.point for end in shown.ends if end.now] == [shown.at.point] * shown.at.open
        assert len({(end.x, end.y) for end in shown.ends}) == len(shown.ends)
        for end in shown.ends:
            assert end.x > 0 and end.y > 0
            assert end.x <= shown.diagram.width and end.y <= shown.diagram.height


@pytest.mark.parametrize("steps", [REVERSING, TWIN, CHANGEOVER])
def test_every_beginning_with_these_parts_can_be_used_once_it_has_a_load(steps: list[Step]) -> None:
    for n in range(1, len(steps) + 1):
        shown = built(*steps[:n])
        assert shown.refused == ""
        if any(isinstance(s, Put) and ("lamp" in s.what or "motor" in s.what) for s in steps[:n]):
            stops = [p.sentence for p in shown.problems if p.stops]
            assert shown.sheet is not None or all("coil" in sentence for sentence in stops), stops


def test_a_sheet_of_two_hundred_parts_is_told_with_both_counts() -> None:
    data = sheet(*TWO_LAMPS)
    many = [{"id": f"FF{n}", "kind": "fuse", "name": f"fuse FF{n}"} for n in range(200)]
    counts = f"{len(data['parts']) + 200} parts, and at most 120 fit"
    with pytest.raises(SheetError, match=counts):
        read_data(data | {"parts": [*data["parts"], *many]})
