"""Faces of a connector: where each way lies as seen from the wires or from the mating side.

A sheet's rows are the face of half a as seen from its wires, with the landmark where it says. Half b
meets half a face to face: what is left on one half's wire side is right on the other's.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from footwell.sheet.models import SheetConnector

Half = Literal["a", "b"]
Side = Literal["wire", "mating"]


@dataclass(frozen=True, slots=True)
class Cavity:
    """A way on a face; row and column count from 0, from the top and from the left."""

    way: str
    row: int
    column: int


def face(connector: SheetConnector, half: Half = "a", side: Side = "wire") -> tuple[Cavity, ...]:
    """The ways of one half as seen from one side, row by row in the order of the sheet.

    Shorter rows begin where the longest one begins, on the left of half a's wire side. A free layout has
    its own spots.
    """
    rows = {way: [c, r] for r, row in enumerate(connector.rows) for c, way in enumerate(row)}
    spots = rows | connector.spots
    last = max((column for column, _ in spots.values()), default=0)
    mirrored = (half == "b") != (side == "mating")
    return tuple(
        Cavity(way, row, last - column if mirrored else column)
        for way, (column, row) in spots.items()
    )
