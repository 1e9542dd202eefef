"""Circuits for measuring the speed of the electrics have the parts and nets they are said to have."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

from branching import (
    BENT,
    JOINT,
    LARGE,
    MIDDLE,
    SMALL,
    Shape,
    circuit_of,
    faults_of,
    grown,
    sheet_of,
)

from footwell.circuit.circuit import build
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.sheet.reading import read_sheet


@pytest.mark.parametrize(
    ("shape", "parts", "nets"), [(SMALL, 11, 9), (MIDDLE, 23, 18), (LARGE, 60, 40), (BENT, 60, 40)]
)
def test_parts_and_nets_are_as_counted(shape: Shape, parts: int, nets: int) -> None:
    circuit = circuit_of(shape, 1)
    assert (len(circuit.elements), len(circuit.points)) == (parts, nets)
    assert len(list(faults_of(circuit))) == 3 * parts


@pytest.mark.parametrize("parts", [30, 100, 300])
def test_circuits_grow_to_about_the_parts_asked_for(parts: int) -> None:
    circuit = circuit_of(grown(parts), 1)
    assert len(circuit.elements) == grown(parts).parts == pytest.approx(parts, rel=0.05)


@pytest.mark.parametrize("shape", [SMALL, MIDDLE, LARGE, BENT])
def test_sheet_is_read_and_its_circuit_works_like_the_one_without_joints(shape: Shape) -> None:
    read = read_sheet(json.dumps(sheet_of(shape, 2)))
    whole, joined = build(read.sheet, read.values), circuit_of(shape, 2)
    on = {control.part: "on" for control in read.sheet.controls}
    one, other = (operate(c, set_up(c, on)) for c in (whole, joined))
    loads = [e for e in joined.elements if e[0] == "L"]
    for load in loads:
        assert other.amps(load) > 0.1
        # The joints are 0.1 m of 6 mm² each: together they take some millivolts.
        assert other.amps(load) == pytest.approx(one.amps(load), rel=0.02)
    assert not any(name.startswith(JOINT) for name in joined.elements)


def test_bent_loads_are_six_lamps_two_motors_and_four_diodes() -> None:
    kinds = [e.kind.name for e in circuit_of(BENT, 1).elements.values()]
    assert [kinds.count(kind) for kind in ("lamp", "motor", "diode")] == [6, 2, 4]
