"""Wire: resistance by cross-section, length and temperature."""

from __future__ import annotations

import json

import pytest

from footwell.circuit.circuit import build
from footwell.parts.base import Context
from footwell.parts.wire import KIND, Wire
from footwell.reference.conductors import wire_ohms
from footwell.sheet.reading import read_sheet

from .sheet_samples import TEXT

TWELVE = Context(12, 5.0)


def ohms(values: Wire) -> float:
    [branch] = KIND.branches(values, "", TWELVE)
    return 1.0 / branch.law.at(1.0)[0]


def spread(values: Wire) -> float:
    return KIND.branches(values, "", TWELVE)[0].spread


# 0.00393 per kelvin: IEC 60028, annealed copper, from memory.
@pytest.mark.parametrize(("celsius", "factor"), [(20.0, 1.0), (85.0, 1.255), (-20.0, 0.843)])
def test_copper_gains_four_tenths_of_a_percent_a_kelvin(celsius: float, factor: float) -> None:
    ratio = ohms(Wire(2.5, 4.0, celsius)) / ohms(Wire(2.5, 4.0))
    assert ratio == pytest.approx(factor, abs=0.001)


def test_a_sound_wire_lies_a_little_under_the_most_that_the_table_allows() -> None:
    # 7.6 mohm/m for 2.5 mm²: ISO 6722-1, from memory.
    assert ohms(Wire(2.5, 1.0)) == pytest.approx(0.94 * wire_ohms(2.5, 1.0))
    assert wire_ohms(2.5, 1.0) == pytest.approx(0.0076)


def test_a_temperature_that_is_known_narrows_the_spread() -> None:
    assert spread(Wire(2.5, 4.0, 20.0)) < spread(Wire(2.5, 4.0))


def test_a_sheets_wire_takes_its_temperature_into_the_circuit() -> None:
    data = json.loads(TEXT)
    wire = next(w for w in data["wires"] if w.get("mm2") and w.get("metres"))
    cold = read_sheet(TEXT)
    wire["celsius"] = 90.0
    hot = read_sheet(json.dumps(data))
    found = [build(r.sheet, r.values).elements[wire["id"]].values.celsius for r in (cold, hot)]
    assert found == [None, 90.0]
