"""Slips in wiring a connector: each is named, and what it does is computed."""

from __future__ import annotations

from itertools import combinations, permutations

import pytest

from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.faults.miswiring import as_drawn, nearest_slip, slip_named, slips
from footwell.page.wiring_words import HalfWords

from .sample_circuits import NAMES, sample
from .wiring_rig import HALF, plug, wired


@pytest.mark.parametrize("name", NAMES)
def test_every_slip_of_every_half_is_named_by_what_it_is(name: str) -> None:
    circuit = sample(name)
    for connector in circuit.connectors:
        for side in ("a", "b"):
            half = (connector, side)
            for slip in slips(circuit, half):
                assert slip_named(circuit, half, dict(slip.wiring)) == slip.title
            assert slip_named(circuit, half, as_drawn(circuit, half)) == ""


@pytest.mark.parametrize("name", NAMES)
def test_slips_of_a_half_are_all_different_and_none_is_as_drawn(name: str) -> None:
    circuit = sample(name)
    for connector in circuit.connectors:
        for side in ("a", "b"):
            found = [s.wiring for s in slips(circuit, (connector, side))]
            assert len(found) == len(set(found))
            assert tuple(as_drawn(circuit, (connector, side)).items()) not in found


def test_every_exchange_of_two_wires_and_every_wire_left_out_is_among_the_slips() -> None:
    circuit = plug(5)
    drawn = as_drawn(circuit, HALF)
    found = [dict(s.wiring) for s in slips(circuit, HALF)]
    for a, b in combinations(drawn, 2):
        assert drawn | {a: drawn[b], b: drawn[a]} in found
    for way in drawn:
        assert drawn | {way: None} in found


def test_face_read_from_the_wrong_side_is_named_mirrored() -> None:
    drawn = as_drawn(plug(5), HALF)
    mirrored = dict(zip(drawn, reversed(list(drawn.values())), strict=True))
    assert "mirror image" in slip_named(plug(5), HALF, mirrored)


@pytest.mark.parametrize(("step", "word"), [(1, "up"), (-1, "down")])
def test_wires_one_way_too_far_are_named_shifted(step: int, word: str) -> None:
    drawn = as_drawn(plug(4, 1), HALF)
    held = list(drawn.values())
    shifted = dict(zip(drawn, held[-step:] + held[:-step], strict=True))
    assert word in slip_named(plug(4, 1), HALF, shifted)


def test_wire_in_an_empty_way_is_named_with_both_ways() -> None:
    drawn = as_drawn(plug(4, 1), HALF)
    title = slip_named(plug(4, 1), HALF, drawn | {"2": None, "5": drawn["2"]})
    assert title == "the wire of way 2 put into empty way 5"


def test_wire_left_out_is_named_with_its_way() -> None:
    title = slip_named(plug(4), HALF, as_drawn(plug(4), HALF) | {"3": None})
    assert title == "the wire of way 3 left out"


def test_wiring_that_no_single_slip_explains_is_not_named() -> None:
    drawn = as_drawn(plug(5), HALF)
    held = list(drawn.values())
    ring = dict(zip(drawn, [held[1], held[2], held[0], held[4], held[3]], strict=True))
    assert slip_named(plug(5), HALF, ring) == ""


def test_a_slip_that_explains_most_of_the_differences_is_named_with_the_rest() -> None:
    drawn = as_drawn(plug(6), HALF)
    held = list(drawn.values())
    # Mirrored, and the wires of the first two ways exchanged besides.
    found = dict(zip(drawn, [held[4], held[5], held[3], held[2], held[1], held[0]], strict=True))
    near = nearest_slip(plug(6), HALF, found)
    assert near is not None
    title, rest = near
    assert "mirror" in title and rest == list(drawn)[:2]


def test_a_ring_of_wires_is_near_no_slip() -> None:
    drawn = as_drawn(plug(5), HALF)
    held = list(drawn.values())
    ring = dict(zip(drawn, [held[2], held[3], held[4], held[1], held[0]], strict=True))
    near = nearest_slip(plug(5), HALF, ring)
    assert near is None or 2 * len(near[1]) <= 5


@pytest.mark.parametrize("name", NAMES)
def test_a_slip_that_explains_everything_leaves_nothing_over(name: str) -> None:
    circuit = sample(name)
    for connector in circuit.connectors:
        for slip in slips(circuit, (connector, "a")):
            near = nearest_slip(circuit, slip.half, dict(slip.wiring))
            assert near is not None and near[1] == []


@pytest.mark.parametrize(("wires", "empty"), [(2, 0), (3, 0), (4, 0), (5, 0), (4, 1)])
def test_every_order_of_the_wires_is_computed_without_error(wires: int, empty: int) -> None:
    drawn = as_drawn(plug(wires, empty), HALF)
    for order in sorted(set(permutations(drawn.values())), key=str):
        circuit = wired(wires, empty, dict(zip(drawn, order, strict=True)))
        for position in ("off", "on"):
            point = operate(circuit, set_up(circuit, {"S1": position}))
            assert point.settled and all(abs(v) < 20.0 for v in point.volts)


def test_wire_left_out_leaves_its_lamp_alone_dark() -> None:
    drawn = as_drawn(plug(4), HALF)
    circuit = wired(4, 0, drawn | {"3": None})
    point = operate(circuit, set_up(circuit, {"S1": "on"}))
    assert abs(point.amps("L3")) < 1e-6
    assert point.amps("L2") > 0.2 and point.amps("L4") > 0.2


def test_two_wires_in_one_way_are_named_by_the_way_that_one_of_them_has_left() -> None:
    drawn = as_drawn(plug(4), HALF)
    words = HalfWords(plug(4), HALF)
    both = drawn | {"2": f"{drawn['3']}+{drawn['2']}", "3": None}
    assert words.slip(both) == "The wire of way 3 put into way 2, beside the one that belongs there"
    three = both | {"2": f"{drawn['2']}+{drawn['4']}+{drawn['3']}", "4": None}
    assert "beside" not in words.slip(three)
    assert "beside" not in words.slip(drawn | {"3": None})
