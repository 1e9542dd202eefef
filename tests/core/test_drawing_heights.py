"""Heights between supply and earth, which decide what is drawn above what."""

from __future__ import annotations

import pytest
from hypothesis import given

from footwell.circuit.circuit import Circuit, build
from footwell.drawing.heights import heights

from .drawing_sheets import SheetMaker, circuits, unhurried, values_of
from .sample_circuits import MINIBUS, NAMES, sample


def height(circuit: Circuit, point: str) -> float:
    return heights(circuit)[circuit.node_of[point]]


def test_heights_fall_evenly_along_a_path_without_branches() -> None:
    sheet = SheetMaker().sheet(("series", [("part", "fuse"), ("part", "lamp")]), splices=False)
    circuit = build(sheet, values_of(sheet))
    points = ["G1.+", "P1.1", "P1.2", "P2.1", "P2.2", "E1.1"]
    expected = [1 - n / 6 for n in range(6)]
    assert [height(circuit, p) for p in points] == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize("name", NAMES)
def test_every_wire_of_the_sample_sheets_leads_downwards_as_written(name: str) -> None:
    """The sheets list each wire from the supply on."""
    circuit = sample(name)
    wires = [w for w in circuit.sheet.wires if "SP2" not in w.end]
    assert all(height(circuit, w.start) > height(circuit, w.end) for w in wires)


@unhurried
@given(circuits())
def test_no_point_lies_above_the_supply_or_below_earth(circuit: Circuit) -> None:
    found = heights(circuit)
    assert all(0.0 <= h <= 1.0 for h in found)
    assert found[circuit.earth] == 0.0


def test_a_dead_end_on_the_supplys_side_hangs_down() -> None:
    circuit = sample(MINIBUS)
    wires = [w for w in circuit.sheet.wires if w.id != "W10"]
    cut = build(circuit.sheet.model_copy(update={"wires": wires}), circuit.values)
    assert (
        height(cut, "F1.2") > height(cut, "X2.1.a") > height(cut, "X4.1.a") > height(cut, "X4.2.a")
    )


def test_what_only_earth_reaches_stands_up_from_it() -> None:
    circuit = sample(MINIBUS)
    wires = [w for w in circuit.sheet.wires if w.id != "W2"]
    cut = build(circuit.sheet.model_copy(update={"wires": wires}), circuit.values)
    assert height(cut, "X2.1.a") > height(cut, "X4.1.a") > height(cut, "E1.1") > 0.0
