"""Sensors and electronics in the current-path diagram: nothing overlaps, every terminal has its name."""

from __future__ import annotations

import pytest

from footwell.circuit.circuit import Circuit
from footwell.drawing.layout import lay_out

from .sensor_rig import plugged_sheet
from .sensor_sheets import BUS, BUS_WIRES, PARTS, SHARED, SHARED_WIRES, WIPER, WIPER_WIRES, WIRES
from .test_drawing_layout import faults_of

SHEETS = {
    "sensor and lamp": (PARTS, WIRES),
    "sensors on 5 V": (SHARED, SHARED_WIRES),
    "wiper": (WIPER, WIPER_WIRES),
    "bus": (BUS, BUS_WIRES),
}
BOXES = {
    "sensor and lamp": {"A1": {"in", "+", "-"}},
    "sensors on 5 V": {
        "N1": {"in", "out", "-"},
        "B2": {"+", "wiper", "-"},
        "B3": {"+", "out", "-"},
    },
    "wiper": {"M1": {"low", "high", "-"}},
}


def drawn(name: str) -> Circuit:
    return plugged_sheet(*SHEETS[name])


@pytest.mark.parametrize("name", SHEETS)
def test_sheets_with_electronics_are_drawn_without_overlaps(name: str) -> None:
    assert faults_of(drawn(name)) == []


@pytest.mark.parametrize("name", BOXES)
def test_what_has_three_terminals_names_them(name: str) -> None:
    layout = lay_out(drawn(name))
    for part, terminals in BOXES[name].items():
        symbol = next(s for s in layout.symbols if s.element == part)
        named = {g.label.lines[0] for g in symbol.glyphs if g.kind == "name" and g.label}
        assert named == terminals
