"""Faces of a connector. That a face seen from the other side is mirrored left and right, and that two
mating faces are mirror images, is common practice, no source."""

from __future__ import annotations

from footwell.drawing.faces import Cavity, Half, Side, face
from footwell.sheet.models import SheetConnector

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


def test_a_single_way_looks_the_same_from_both_sides() -> None:
    blade = PLUG.model_copy(update={"rows": [["1"]]})
    assert face(blade, "a", "wire") == face(blade, "a", "mating") == (Cavity("1", 0, 0),)
