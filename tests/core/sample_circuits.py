"""The circuits of the sample sheets."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from footwell.circuit.circuit import Circuit, build
from footwell.sheet.reading import read_sheet

FOLDER = Path(__file__).parents[2] / "fixtures" / "circuits"
MINIBUS, TRACTOR, VAN = "minibus-saloon-fan", "tractor-work-lamps", "van-rear-screen"
NAMES = (MINIBUS, TRACTOR, VAN)


@cache
def sample(name: str) -> Circuit:
    read = read_sheet((FOLDER / f"{name}.json").read_text())
    return build(read.sheet, read.values)
