"""The current's path through a load, against the solved circuit and the facts of the trade."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given

from footwell.circuit.circuit import AS_DRAWN, Circuit, arranged, build
from footwell.circuit.places import places
from footwell.drawing.path import current_path, trace
from footwell.electrics.operating_point import OperatingPoint

from .drawing_sheets import SheetMaker, circuits, unhurried, values_of
from .electrics_rig import run
from .sample_circuits import MINIBUS, NAMES, TRACTOR, VAN, sample

LOADS = [(name, load) for name in NAMES for load in sample(name).sheet.loads]


def hardest_run(circuit: Circuit, load: str) -> OperatingPoint:
    """The circuit in the control positions in which the most current flows through a load."""
    controls = circuit.sheet.controls
    choices = [[(c.part, position.id) for position in c.positions] for c in controls]
    points = [run(circuit, dict(chosen)) for chosen in product(*choices)]
    return max(points, key=lambda point: abs(point.amps(load)))


@pytest.mark.parametrize(("name", "load"), LOADS)
def test_every_element_of_the_path_carries_the_loads_current_in_its_best_position(
    name: str, load: str
) -> None:
    circuit = sample(name)
    point = hardest_run(circuit, load)
    on_path = [e for elements in trace(circuit, load).between for e in elements]
    wires = [e for e in on_path if circuit.elements[e].kind.name in ("wire", "contact", "fuse")]
    assert len(wires) > 5
    assert all(abs(point.amps(e)) > 0.99 * abs(point.amps(load)) for e in wires)


@pytest.mark.parametrize(("name", "load"), LOADS)
def test_the_controls_of_the_path_are_those_of_most_current(name: str, load: str) -> None:
    point = hardest_run(sample(name), load)
    set_to = dict(point.setup.controls)
    assert all(
        set_to[part] == position for part, position in trace(sample(name), load).controls.items()
    )


@pytest.mark.parametrize(("name", "load"), LOADS)
def test_voltage_falls_from_place_to_place(name: str, load: str) -> None:
    point = hardest_run(sample(name), load)
    volts = [point.at(place) for place in current_path(sample(name), load)]
    assert volts == sorted(volts, reverse=True)
    assert volts[0] > 11 and volts[-1] < 0.5


def test_the_fans_path_runs_from_the_batteries_to_the_earth_point_past_the_pack() -> None:
    """The top position of a stepped resistor bypasses it (common practice, no source)."""
    assert current_path(sample(MINIBUS), "M1") == [
        "G1.+",
        "F1.1",
        "F1.2",
        "X2.1.a",
        "X2.4.a",
        "X1.3.a",
        "X1.3.b",
        "X4.1.a",
        "X4.2.a",
        "E1.1",
    ]
    assert trace(sample(MINIBUS), "M1").controls == {"S1": "3"}


def test_a_fan_whose_top_position_is_not_wired_is_reached_through_the_pack() -> None:
    circuit = sample(MINIBUS)
    wires = [w for w in circuit.sheet.wires if w.id != "W5"]
    sheet = circuit.sheet.model_copy(update={"wires": wires})
    path = trace(build(sheet, circuit.values), "M1")
    assert path.controls == {"S1": "2"}
    assert [
        place for place in path.places if place[:2] in ("X1", "X3", "R1") or place == "X4.1.a"
    ] == ["X1.2.a", "X1.2.b", "X3.2.a", "R1.link", "X3.3.a", "X4.1.a"]


def test_the_path_passes_the_relays_contact_and_not_its_coil() -> None:
    path = current_path(sample(VAN), "H1")
    assert "X5.30.a" in path and "X5.87.a" in path
    assert "X5.86.a" not in path and "X5.85.a" not in path


def test_a_path_through_the_mirrored_plug_is_shown_as_the_sheet_has_it() -> None:
    circuit = sample(MINIBUS)
    found = arranged(AS_DRAWN, ("X2", "a"), {"6": "W2", "5": "W3", "4": "W4", "3": "W5"})
    mirrored = build(circuit.sheet, circuit.values, found)
    assert current_path(mirrored, "M1") == current_path(circuit, "M1")


def test_a_path_that_the_wires_as_found_offer_is_the_one_shown() -> None:
    """Wires of positions 2 and 3 exchanged in the switch plug: position 2 then feeds the motor."""
    circuit = sample(MINIBUS)
    found = arranged(AS_DRAWN, ("X2", "a"), {"1": "W2", "2": "W3", "3": "W5", "4": "W4"})
    path = trace(build(circuit.sheet, circuit.values, found), "M1")
    assert path.controls == {"S1": "2"}
    assert "X2.3.a" in path.places and "X2.4.a" not in path.places


def test_a_load_that_nothing_feeds_has_no_path() -> None:
    circuit = sample(MINIBUS)
    wires = [w for w in circuit.sheet.wires if w.id != "W2"]
    sheet = circuit.sheet.model_copy(update={"wires": wires})
    assert current_path(build(sheet, circuit.values), "M1") == []


def test_both_legs_of_a_reversing_switch_are_closed_in_one_position() -> None:
    sheet = SheetMaker().sheet(("series", [("part", "fuse"), ("reversing", None)]), splices=False)
    control = {
        "part": "P2",
        "name": "window switch",
        "positions": [{"id": p, "name": p} for p in ("0", "up", "down")],
        "off": "0",
    }
    whole = type(sheet).model_validate(sheet.model_dump() | {"controls": [control]})
    circuit = build(whole, values_of(whole))
    path = trace(circuit, "P3")
    assert path.controls["P2"] in ("up", "down")
    assert abs(run(circuit, path.controls).amps("P3")) > 1.0


@unhurried
@given(circuits())
def test_a_path_leads_from_the_supply_past_each_place_once(circuit: Circuit) -> None:
    for load in circuit.sheet.loads:
        path = trace(circuit, load)
        assert len(set(path.places)) == len(path.places)
        assert set(path.places) <= set(places(circuit))
        assert not path.places or path.places[0] == "G1.+"
        assert not path.places or load in [e for elements in path.between for e in elements]


def test_the_same_sheet_gives_the_same_path() -> None:
    circuit = sample(TRACTOR)
    again = build(circuit.sheet, circuit.values)
    assert [trace(circuit, load) for load in circuit.sheet.loads] == [
        trace(again, load) for load in circuit.sheet.loads
    ]
