"""Large circuits folded: what is asked about stays open, all else is one symbol a group."""

from __future__ import annotations

from functools import cache
from itertools import combinations
from random import Random
from unittest.mock import patch

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.circuit import Circuit, build
from footwell.circuit.places import places
from footwell.drawing import folding
from footwell.drawing.folding import Asked
from footwell.drawing.items import wire_ends
from footwell.drawing.layout import lay_out
from footwell.drawing.path import trace
from footwell.drawing.picture import Layout, Symbol
from tests.bench.branching import BENT, LARGE, Shape, drawn_of, grown

from . import drawing_objections as wrong
from .drawing_sheets import circuits, unhurried
from .sample_circuits import NAMES, sample

SIXTY = {"grown": grown(60), "large": LARGE, "bent": BENT}
LOADS = [f"L{n}" for n in range(1, 13)]
CASES = [(name, load) for name in SIXTY for load in LOADS[:: 1 if name == "grown" else 4]]

WORDS_PX, WORDS = 14, 0.32
"""Least size of words, and their size in squares of the grid."""


@cache
def large(name: str) -> Circuit:
    return drawn_of(SIXTY[name], 1)


def way_of(circuit: Circuit, load: str) -> frozenset[str]:
    """The elements on the way through a load."""
    return frozenset(e for between in trace(circuit, load).between for e in between)


def asked(circuit: Circuit, *loads: str, working: frozenset[str] | None = None) -> Asked:
    ways = frozenset(e for load in loads for e in way_of(circuit, load))
    rest = frozenset(circuit.sheet.loads) - set(loads)
    return Asked(ways, rest if working is None else working)


def folds(layout: Layout) -> list[Symbol]:
    return [s for s in layout.symbols if s.folded]


def elements(layout: Layout) -> list[str]:
    """Elements of symbols and wires, whether in the open or in a fold."""
    inside = [e for s in layout.symbols for e in s.folded]
    return (
        [s.element for s in layout.symbols if s.element]
        + [w.element for w in layout.lines]
        + inside
    )


def loose_wires(layout: Layout) -> list[str]:
    """Wires that do not end on two pins."""
    pins = {(t.x, t.y) for s in layout.symbols for t in s.terminals}
    return [w.element for w in layout.lines if not {w.points[0], w.points[-1]} <= pins]


def off_their_pins(circuit: Circuit, layout: Layout) -> list[tuple[str, str]]:
    """Wires that end on another pin than their own, where their own is drawn."""
    pins = {t.point: (t.x, t.y) for s in layout.symbols for t in s.terminals}
    drawn = {line.element: {line.points[0], line.points[-1]} for line in layout.lines}
    return [
        (wire, point)
        for wire, ends in wire_ends(circuit).items()
        for point in ends
        if wire in drawn and point in pins and pins[point] not in drawn[wire]
    ]


def faults_of(circuit: Circuit, layout: Layout) -> list[object]:
    return [
        *wrong.overlapping_symbols(layout),
        *wrong.crossed_symbols(layout),
        *wrong.overlapping_words(layout),
        *wrong.struck_words(layout),
        *wrong.run_together(circuit, layout),
        *wrong.slanting(layout),
        *wrong.outside(layout),
        *wrong.crowded_places(layout, 48 / 44),
        *loose_wires(layout),
        *off_their_pins(circuit, layout),
    ]


@pytest.mark.parametrize(("name", "load"), CASES)
def test_sixty_parts_are_folded_without_overlaps_and_with_every_wire_on_its_pins(
    name: str, load: str
) -> None:
    circuit = large(name)
    layout = lay_out(circuit, asked(circuit, load))
    assert len(folds(layout)) == 2, "the other branches of its fuse, and the other fuse"
    assert faults_of(circuit, layout) == []


@pytest.mark.parametrize("name", SIXTY)
def test_sixty_parts_are_drawn_without_overlaps_with_everything_opened(name: str) -> None:
    circuit = large(name)
    layout = lay_out(circuit, Asked(frozenset(circuit.elements)))
    assert folds(layout) == []
    assert layout == lay_out(circuit)
    assert faults_of(circuit, layout) == []


SEEN_AT_ONCE = 332 / 44 - 0.2
"""Squares across that are seen on 360 px where words have 14 px, without frame and margins."""

WIDEST = 10.5
"""Squares across with a second load hung from the first one's own terminals."""


@pytest.mark.parametrize("load", LOADS)
def test_sixty_parts_are_narrow_where_words_have_14_px(load: str) -> None:
    circuit = large("grown")
    doubled = load.replace("L", "D") in circuit.elements
    layout = lay_out(circuit, asked(circuit, load))
    assert WORDS * 44 >= WORDS_PX
    assert layout.width <= (WIDEST if doubled else SEEN_AT_ONCE)
    assert lay_out(circuit).width > 4 * WIDEST, "as it is without a fold"


@unhurried
@given(circuits(), st.randoms(use_true_random=False))
def test_random_sheets_are_folded_without_overlaps_and_with_every_wire_on_its_pins(
    circuit: Circuit, chance: Random
) -> None:
    some = frozenset(chance.sample(list(circuit.elements), min(3, len(circuit.elements))))
    with patch.object(folding, "LARGE", 1), patch.object(folding, "LEAST", 1):
        layout = lay_out(circuit, Asked(some))
    assert faults_of(circuit, layout) == []
    found = elements(layout)
    assert len(set(found)) == len(found)
    shown = {s.element for s in layout.symbols} | {w.element for w in layout.lines}
    assert some <= shown


@unhurried
@given(circuits(), st.randoms(use_true_random=False))
def test_supply_lies_above_everything_in_folded_sheets(circuit: Circuit, chance: Random) -> None:
    some = frozenset(chance.sample(list(circuit.elements), 1))
    with patch.object(folding, "LARGE", 1), patch.object(folding, "LEAST", 1):
        layout = lay_out(circuit, Asked(some))
    top = next(t.y for s in layout.symbols for t in s.terminals if t.point == "G1.+")
    assert all(t.y >= top for s in layout.symbols for t in s.terminals)


@pytest.mark.parametrize("name", SIXTY)
def test_nothing_is_lost_in_a_fold_and_nothing_is_drawn_twice(name: str) -> None:
    """Of the wires that run side by side to a fold one is drawn for all."""
    circuit = large(name)
    found = elements(lay_out(circuit, asked(circuit, "L5")))
    assert len(set(found)) == len(found)
    assert {e for e in circuit.elements if not e.startswith("J")} <= set(found)


def test_what_is_asked_about_is_in_the_open_with_its_way_to_supply_and_earth() -> None:
    circuit = large("grown")
    layout = lay_out(circuit, Asked(frozenset({"S8"})))
    shown = {s.element for s in layout.symbols}
    assert {"G1", "F2", "S8", "L8", "E1"} <= shown
    assert not {"F1", "S7", "L6"} & shown


def test_a_fold_says_how_many_loads_it_holds_and_names_them() -> None:
    circuit = large("grown")
    one, other = folds(lay_out(circuit, asked(circuit, "L5")))
    assert sorted([one.label.lines, other.label.lines]) == [
        ("5 more", "heaters", "fine"),
        ("6 more", "heaters", "fine"),
    ]
    assert all(load in one.name + other.name for load in LOADS if load != "L5")


def test_loads_that_were_not_all_seen_to_work_are_not_called_fine() -> None:
    circuit = large("grown")
    all_but_one = frozenset(LOADS) - {"L5", "L7"}
    words = {
        load: s.label.lines[2:]
        for s in folds(lay_out(circuit, asked(circuit, "L5", working=all_but_one)))
        for load in s.folded
    }
    assert words["L7"] == words["L9"] == ("no", "suspect")
    assert words["L8"] == ("fine",)


def test_a_branch_with_something_asked_about_is_in_no_fold() -> None:
    circuit = large("grown")
    layout = lay_out(circuit, Asked(way_of(circuit, "L5") | {"W7"}))
    assert not {"S7", "W7", "X7.1", "L7"} & {e for s in folds(layout) for e in s.folded}
    closed = lay_out(circuit, Asked(way_of(circuit, "L5")))
    assert {"S7", "W7", "X7.1", "L7"} <= {e for s in folds(closed) for e in s.folded}


def test_the_same_sheet_and_the_same_suspects_give_the_same_picture() -> None:
    circuit = large("grown")
    way = sorted(way_of(circuit, "L5"))
    again = build(circuit.sheet, circuit.values)
    assert lay_out(circuit, Asked(frozenset(way))) == lay_out(again, Asked(frozenset(way[::-1])))


@pytest.mark.parametrize("opened", ["L2", "L7", "L12"])
def test_opening_one_branch_leaves_all_others_in_their_order(opened: str) -> None:
    circuit = large("grown")
    before, after = (
        lay_out(circuit, asked(circuit, "L5")),
        lay_out(circuit, asked(circuit, "L5", opened)),
    )
    there = {s.element: s for s in after.symbols if s.element}
    kept = [s for s in before.symbols if s.element]
    assert all(abs(s.y - there[s.element].y) < 2.0 for s in kept)
    turned = [
        (a.element, b.element)
        for a, b in combinations(kept, 2)
        if a.x + 0.01 < b.x and there[a.element].x > there[b.element].x + 0.01
    ]
    assert turned == []


@pytest.mark.parametrize("name", NAMES)
def test_a_circuit_that_can_be_looked_over_is_never_folded(name: str) -> None:
    assert lay_out(sample(name), Asked()) == lay_out(sample(name))


def test_places_in_a_fold_have_no_spot_and_all_others_have() -> None:
    circuit = large("grown")
    layout = lay_out(circuit, asked(circuit, "L5"))
    spots = {spot.id for spot in layout.places}
    assert {"S5.1", "X5.1.a", "L5.-"} <= spots <= set(places(circuit))
    assert not {"S7.1", "F2.1"} & spots


def test_a_shape_of_sixty_parts_is_meant() -> None:
    assert [grown(60).parts, LARGE.parts, BENT.parts] == [60, 60, 60]
    assert isinstance(grown(60), Shape)
