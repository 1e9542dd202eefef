"""A check is read at the same place in every wiring, though a loose wire gives places other numbers."""

from __future__ import annotations

import pytest

from footwell.checks.check import LAMP, VOLTS, Check
from footwell.checks.glance import Panel
from footwell.checks.predict import Reading, expected
from footwell.circuit.circuit import AS_DRAWN, arranged
from footwell.circuit.setup import set_up
from footwell.electrics.turns import NOTHING
from footwell.job.replay import circuits_of

from .loop_rig import read
from .sample_circuits import MINIBUS

CIRCUITS = circuits_of(read(MINIBUS))
DRAWN = CIRCUITS(AS_DRAWN)
LOOSE = CIRCUITS(arranged(AS_DRAWN, ("X2", "a"), {"1": "W2", "3": "W4", "4": "W5"}))
"""W3 hangs in no way: one place more, and earth has another number."""


@pytest.mark.parametrize("first", [DRAWN, LOOSE], ids=["drawn", "loose"])
@pytest.mark.parametrize("place", ["X2.1.a", "X4.1.a", "X1.1.b"])
def test_volts_of_both_wirings_are_what_is_predicted_of_each(first: object, place: str) -> None:
    assert DRAWN.earth != LOOSE.earth
    rows = [(DRAWN, (), NOTHING), (LOOSE, (), NOTHING)]
    panel = Panel(first, rows, False)  # type: ignore[arg-type]
    check = Check(VOLTS, place, "earth", set_up(DRAWN, {"S1": "1"}))
    for (circuit, _, _), ((_, volts, _),) in zip(rows, panel.numbers(check), strict=True):
        predicted = expected(circuit, check, ())
        assert isinstance(predicted, Reading)
        assert volts == pytest.approx(predicted.mean, abs=0.05)


def test_a_test_lamp_is_dark_behind_the_loose_wire_and_bright_where_it_is_as_drawn() -> None:
    panel = Panel(DRAWN, [(DRAWN, (), NOTHING), (LOOSE, (), NOTHING)], False)
    drawn, loose = panel.words(Check(LAMP, "X1.1.b", "earth", set_up(DRAWN, {"S1": "1"})))
    assert max(drawn, key=lambda word: drawn[word]) == "bright"
    assert max(loose, key=lambda word: loose[word]) == "dark"
