"""The current-path diagram of the sample sheets and of random ones."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given

from footwell.circuit.circuit import AS_DRAWN, Circuit, arranged, build
from footwell.circuit.places import places
from footwell.drawing.items import wire_ends
from footwell.drawing.layout import lay_out
from footwell.drawing.picture import Layout, Symbol

from . import drawing_objections as wrong
from .drawing_sheets import SheetMaker, circuits, unhurried, values_of
from .sample_circuits import FOLDER, MINIBUS, NAMES, TRACTOR, VAN, sample

THUMB_PX, SQUARE_PX = 48, 44
"""Least size of what is touched, and the size of a grid square on the narrowest phone."""


def faults_of(circuit: Circuit) -> list[object]:
    """Everything that is wrong with the picture of a circuit."""
    layout = lay_out(circuit)
    return [
        *wrong.overlapping_symbols(layout),
        *wrong.crossed_symbols(layout),
        *wrong.overlapping_words(layout),
        *wrong.struck_words(layout),
        *wrong.run_together(circuit, layout),
        *wrong.wires_off_their_pins(circuit, layout),
        *wrong.slanting(layout),
        *wrong.outside(layout),
        *wrong.crowded_places(layout, THUMB_PX / SQUARE_PX),
    ]


def symbol(layout: Layout, element: str) -> Symbol:
    return next(s for s in layout.symbols if s.element == element)


@pytest.mark.parametrize("name", sorted(path.stem for path in FOLDER.glob("*.json")))
def test_sheets_of_the_library_are_drawn_without_overlaps_and_with_every_wire_on_its_pins(
    name: str,
) -> None:
    assert faults_of(sample(name)) == []


@unhurried
@given(circuits())
def test_random_sheets_are_drawn_without_overlaps_and_with_every_wire_on_its_pins(
    circuit: Circuit,
) -> None:
    assert faults_of(circuit) == []


@unhurried
@given(circuits(miswired=True))
def test_wires_found_in_any_order_in_a_plug_are_drawn_without_overlaps(circuit: Circuit) -> None:
    assert faults_of(circuit) == []


@pytest.mark.parametrize("name", NAMES)
def test_every_part_contact_and_wire_is_drawn_once(name: str) -> None:
    layout = lay_out(sample(name))
    drawn = [s.element for s in layout.symbols if s.element] + [w.element for w in layout.lines]
    assert sorted(drawn) == sorted(sample(name).elements)


@pytest.mark.parametrize("name", NAMES)
def test_the_supply_is_the_highest_point_and_earths_the_lowest_symbols(name: str) -> None:
    layout = lay_out(sample(name))
    heights = {t.point: t.y for s in layout.symbols for t in s.terminals}
    assert heights["G1.+"] == min(heights.values())
    earths = [s for s in layout.symbols if s.kind == "earth_point"]
    assert earths
    floor = max(s.y + s.height / 2 for s in layout.symbols if s not in earths)
    assert all(s.y - s.height / 2 >= floor for s in earths)


@unhurried
@given(circuits())
def test_supply_lies_above_everything_in_random_sheets(circuit: Circuit) -> None:
    layout = lay_out(circuit)
    top = next(t.y for s in layout.symbols for t in s.terminals if t.point == "G1.+")
    assert all(t.y >= top for s in layout.symbols for t in s.terminals)


@pytest.mark.parametrize("name", NAMES)
def test_current_flows_downwards_through_wires_of_the_path(name: str) -> None:
    """Along the sample sheets' paths every wire ends lower than it begins, the supply bus apart."""
    for line in lay_out(sample(name)).lines:
        (_, start), (_, end) = line.points[0], line.points[-1]
        assert end >= start


def test_loads_stand_from_left_to_right_in_the_order_of_the_sheet() -> None:
    layout = lay_out(sample(TRACTOR))
    xs = [symbol(layout, load).x for load in sample(TRACTOR).sheet.loads]
    assert xs == sorted(xs)


@pytest.mark.parametrize("name", NAMES)
def test_each_wire_has_at_most_one_horizontal_stretch(name: str) -> None:
    for line in lay_out(sample(name)).lines:
        assert sum(y == next_y for (_, y), (_, next_y) in pairwise(line.points)) <= 1


@pytest.mark.parametrize("name", NAMES)
def test_wires_that_leave_one_pin_share_one_horizontal_bus(name: str) -> None:
    circuit = sample(name)
    layout = lay_out(circuit)
    by_point: dict[str, set[float]] = {}
    for wire, ends in wire_ends(circuit).items():
        flat = {
            top for w, left, top, right, _ in wrong.stretches(layout) if w == wire and left < right
        }
        for end in ends:
            by_point.setdefault(end, set()).update(flat)
    shared = [p for p in by_point if sum(p in ends for ends in wire_ends(circuit).values()) > 1]
    assert shared
    assert all(len(by_point[point]) <= 1 for point in shared)


def test_a_dot_marks_where_two_wires_join_in_one_way_of_the_motor_plug() -> None:
    layout = lay_out(sample(MINIBUS))
    way = symbol(layout, "X4.1")
    assert [(x, y < way.y) for x, y in layout.dots] == [(way.x, True)]


@pytest.mark.parametrize(("name", "widest"), [(MINIBUS, 8.5), (TRACTOR, 8.5), (VAN, 8.5)])
def test_sample_sheets_stay_legible_on_360_px(name: str, widest: float) -> None:
    """At 8.5 squares a square has 42 px, and 1.25 squares between places are 53 px."""
    assert lay_out(sample(name)).width <= widest


@pytest.mark.parametrize("name", NAMES)
def test_every_place_with_a_wire_and_every_bare_terminal_can_be_touched(name: str) -> None:
    circuit = sample(name)
    own_halves = {f"{c.id}.{way}.b" for c in circuit.sheet.connectors for way in c.part_ways}
    shown = {spot.id for spot in lay_out(circuit).places}
    assert shown == set(places(circuit)) - own_halves - {"earth"}


@pytest.mark.parametrize("name", NAMES)
def test_places_lie_on_the_pins_they_are_named_after(name: str) -> None:
    layout = lay_out(sample(name))
    pins = {t.point: (t.x, t.y) for s in layout.symbols for t in s.terminals}
    assert all((spot.x, spot.y) == pins[spot.id] for spot in layout.places)


@pytest.mark.parametrize("name", NAMES)
def test_the_same_sheet_gives_the_same_picture(name: str) -> None:
    circuit = sample(name)
    assert lay_out(circuit) == lay_out(build(circuit.sheet, circuit.values))


def moved(before: Layout, after: Layout) -> float:
    """Largest way, in grid units, that a symbol of both pictures has gone."""
    there = {s.element: s for s in after.symbols}
    pairs = [(s, there[s.element]) for s in before.symbols if s.element in there]
    return max(max(abs(a.x - b.x), abs(a.y - b.y)) for a, b in pairs)


def test_learning_a_cross_section_moves_nothing() -> None:
    circuit = sample(MINIBUS)
    thicker = [w.model_copy(update={"mm2": 4.5}) for w in circuit.sheet.wires]
    sheet = circuit.sheet.model_copy(update={"wires": thicker})
    assert moved(lay_out(circuit), lay_out(build(sheet, circuit.values))) < 0.5


def test_a_mirrored_plug_leaves_parts_side_by_side_as_they_were() -> None:
    circuit = sample(MINIBUS)
    mirrored = {"6": "W2", "5": "W3", "4": "W4", "3": "W5"}
    found = arranged(AS_DRAWN, ("X2", "a"), mirrored)
    before, after = lay_out(circuit), lay_out(build(circuit.sheet, circuit.values, found))
    across = {s.element: s.x for s in before.symbols}
    assert all(
        s.x == pytest.approx(across[s.element]) for s in after.symbols if s.element in across
    )
    assert moved(before, after) < 3.0
    assert {"X2.5.a", "X2.6.a"} <= {spot.id for spot in after.places}


def test_exchanged_coil_wires_leave_the_relay_where_it_was() -> None:
    circuit = sample(TRACTOR)
    wires = {"86": "W7", "85": "W6", "30": "W2", "87": "W8"}
    found = arranged(AS_DRAWN, ("X5", "a"), wires)
    before, after = lay_out(circuit), lay_out(build(circuit.sheet, circuit.values, found))
    order = [
        s.element for s in sorted(before.symbols, key=lambda s: (s.y, s.x)) if s.kind == "lamp"
    ]
    assert order == [
        s.element for s in sorted(after.symbols, key=lambda s: (s.y, s.x)) if s.kind == "lamp"
    ]
    assert moved(before, after) < 3.0


def test_a_wire_left_out_ends_in_a_loose_end() -> None:
    circuit = sample(MINIBUS)
    found = arranged(AS_DRAWN, ("X3", "a"), {"1": "W6", "2": "W7", "3": None})
    layout = lay_out(build(circuit.sheet, circuit.values, found))
    loose = [s for s in layout.symbols if s.kind == "loose"]
    assert [s.label.lines for s in loose] == [("W9", "loose")]


def test_ways_of_a_connector_side_by_side_in_the_loom_share_a_row() -> None:
    layout = lay_out(sample(MINIBUS))
    assert len({symbol(layout, f"X1.{way}").y for way in "123"}) == 1


def test_a_way_is_named_connector_slash_way_and_a_wire_by_colour_and_section() -> None:
    layout = lay_out(sample(MINIBUS))
    assert symbol(layout, "X3.2").label.lines == ("X3/2",)
    assert next(w for w in layout.lines if w.element == "W2").label.lines == ("RD/BK", "2.5")


def test_the_resistor_pack_shows_its_steps_and_thermal_fuse_one_below_the_other() -> None:
    pack = symbol(lay_out(sample(MINIBUS)), "R1")
    chain = [g for g in pack.glyphs if g.branch]
    assert [g.branch for g in chain] == ["step 1", "step 2", "thermal fuse"]
    assert all(above.y2 == below.y1 for above, below in pairwise(chain))
    assert len({g.x1 for g in chain}) == 1


def test_the_relay_shows_coil_and_contact_linked_and_the_diode_across_the_coil() -> None:
    relay = symbol(lay_out(sample(TRACTOR)), "K1")
    kinds = {g.kind: g for g in relay.glyphs}
    assert {"coil", "make", "link", "diode"} <= kinds.keys()
    assert kinds["diode"].y1 > kinds["diode"].y2, "anode towards 85, below"


def test_a_reversing_switch_is_a_box_with_its_motor_lying_between_two_legs() -> None:
    sheet = SheetMaker().sheet(("reversing", None), splices=False)
    layout = lay_out(build(sheet, values_of(sheet)))
    switch = next(s for s in layout.symbols if s.kind == "switch")
    motor = next(s for s in layout.symbols if s.kind == "motor")
    assert "box" in {g.kind for g in switch.glyphs}
    assert [t.point[-1] for t in sorted(motor.terminals, key=lambda t: t.x)] in (
        ["+", "-"],
        ["-", "+"],
    )
    assert len({t.y for t in motor.terminals}) == 1
    assert motor.y > switch.y


def test_parallel_branches_stand_in_the_order_of_the_loads() -> None:
    """Three lamps in parallel, in whichever order the sheet lists the loads."""
    lamps = ("parallel", [("plugged", "lamp")] * 3)
    sheet = SheetMaker().sheet(lamps, splices=True)
    for first, second in combinations(sheet.loads, 2):
        layout = lay_out(build(sheet, values_of(sheet)))
        assert symbol(layout, first).x < symbol(layout, second).x
    turned = sheet.model_copy(update={"loads": sheet.loads[::-1]})
    xs = [symbol(lay_out(build(turned, values_of(turned))), load).x for load in turned.loads]
    assert xs == sorted(xs)
