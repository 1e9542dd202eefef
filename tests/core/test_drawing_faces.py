"""Faces of a connector. That a face seen from the other side is mirrored left and right, and that two
mating faces are mirror images, is common practice, no source."""

from __future__ import annotations

from footwell.drawing.faces import Cavity, Half, Side, face
from footwell.sheet.models import SheetConnector

SIDES: tuple[Side, Side] = ("wire", "mating")

PLUG = SheetConnector(
    id="X1", name="plug X1", half_a="one", half_b="other", rows=[["1", "2", "3", "4"], ["5", "6"]]
)


def columns(half: Half, side: Side) -> dict[str, tuple[int, int]]:
    return {cavity.way: (cavity.row, cavity.column) for cavity in face(PLUG, half, side)}


def test_the_wire_side_of_half_a_is_the_sheets_own_view() -> None:
    assert columns("a", "wire") == {
        "1": (0, 0),
        "2": (0, 1),
        "3": (0, 2),
        "4": (0, 3),
        "5": (1, 0),
        "6": (1, 1),
    }


def test_the_mating_side_is_mirrored_left_and_right_and_rows_stay() -> None:
    assert columns("a", "mating") == {
        "1": (0, 3),
        "2": (0, 2),
        "3": (0, 1),
        "4": (0, 0),
        "5": (1, 3),
        "6": (1, 2),
    }


def test_mating_faces_of_both_halves_are_mirror_images() -> None:
    assert columns("b", "mating") == columns("a", "wire")
    assert columns("b", "wire") == columns("a", "mating")


ROUND = PLUG.model_copy(
    update={
        "rows": [["1", "2", "3"]],
        "spots": {"1": [1, 0], "2": [0, 1], "3": [2, 2]},
    }
)
"""Three ways that lie in no rows."""


def test_a_free_layout_keeps_its_own_spots_and_is_mirrored_as_rows_are() -> None:
    seen = {side: {c.way: [c.column, c.row] for c in face(ROUND, "a", side)} for side in SIDES}
    assert seen["wire"] == ROUND.spots
    assert seen["mating"] == {"1": [1, 0], "2": [2, 1], "3": [0, 2]}


def test_ways_read_from_the_mating_side_in_the_order_of_the_wire_side_are_those_of_a_mirrored_slip() -> (
    None
):
    """The classic mistake: the number that stands on the wire side's spot, read on the other face."""
    row = PLUG.model_copy(update={"rows": [["1", "2", "3", "4"]]})
    wire = {c.column: c.way for c in face(row, "a", "wire")}
    mating = {c.column: c.way for c in face(row, "a", "mating")}
    assert [mating[n] for n in range(4)] == [wire[n] for n in range(4)][::-1]


def test_a_single_way_looks_the_same_from_both_sides() -> None:
    blade = PLUG.model_copy(update={"rows": [["1"]]})
    assert face(blade, "a", "wire") == face(blade, "a", "mating") == (Cavity("1", 0, 0),)
