"""Belief against examples with known answers, their sources named. What a check says under each suspect is
given by the example, in place of the electrics."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import product
from statistics import NormalDist

import pytest

from footwell.checks.check import LOOK, VOLTS, Check
from footwell.checks.predict import Foretold, Reading, Words
from footwell.circuit.example import work_lamp
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis import belief, likelihood
from footwell.diagnosis.belief import believe
from footwell.diagnosis.case import Case, Epoch, Hypothesis, Taken

Faults = tuple[Fault, ...]


def shares(
    patch: pytest.MonkeyPatch,
    odds: Mapping[Faults, float],
    says: Mapping[Faults, Reading | Words],
    value: float | None,
    word: str = "",
) -> dict[Faults, float]:
    """Shares of the suspects among each other after one reading without slips."""
    circuit = work_lamp()
    check = Check(VOLTS if value is not None else LOOK, "F1", "", set_up(circuit))
    patch.setattr(likelihood, "foretold", lambda _, __, f: (Foretold(1.0, says[f]),))
    patch.setattr(likelihood, "SLIP_SHARE", 1e-40)
    patch.setattr(belief, "hypotheses", lambda _: [Hypothesis(f, x, ()) for f, x in odds.items()])
    case = Case(lambda _: circuit, (Epoch(),), (Taken(0, 0, check, value, word, 0),))
    found = believe(case)
    return {w.hypothesis.faults: w.share / (1.0 - found.none) for w in found.suspects}


# ---- multipliers and adders: de Kleer and Williams (1987), Artificial Intelligence 32 ----------------

UNITS = {"M1": "W0", "M2": "W1", "M3": "W2", "A1": "W3", "A2": "W4"}
"""The units, each played by a wire."""
MINIMAL = [{"A1"}, {"M1"}, {"A2", "M2"}, {"M2", "M3"}]
"""Published minimal sets that explain F = 10 and G = 12; a larger set explains it if it holds one."""
PUBLISHED = {"M1": 0.49764, "A1": 0.49764, "M2": 0.01961, "M3": 0.01478, "A2": 0.01478}


def of_units(patch: pytest.MonkeyPatch, minimal: list[set[str]]) -> dict[str, float]:
    sets = [
        {unit for unit, bad in zip(UNITS, bits, strict=True) if bad}
        for bits in product((0, 1), repeat=len(UNITS))
    ]
    faults = {tuple(sorted(Fault(UNITS[unit], "open") for unit in units)): units for units in sets}
    odds = {f: (0.01 / 0.99) ** len(units) for f, units in faults.items()}
    says: dict[Faults, Reading | Words] = {
        f: {"10 and 12": float(fits), "else": float(not fits)}
        for f, units in faults.items()
        for fits in [any(least <= units for least in minimal)]
    }
    found = shares(patch, odds, says, None, "10 and 12")
    return {u: sum(x for f, x in found.items() if u in faults[f]) for u in UNITS}


def test_multipliers_and_adders_get_the_published_shares(monkeypatch: pytest.MonkeyPatch) -> None:
    assert of_units(monkeypatch, MINIMAL) == pytest.approx(PUBLISHED, abs=6e-6)


def test_multipliers_and_adders_wired_otherwise_get_other_shares(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    found = of_units(monkeypatch, [{"A2"}, *MINIMAL[1:]])
    assert found["A2"] > 0.4 and found["A1"] < 0.02


# ---- what a meter can tell apart -------------------------------------------------------------------

SIGMA = 0.5 * (0.005 * 12.0 + 2 * 0.01)
"""Half the meter's limit of ±(0.5 % + 2 counts of 0.01 V) at 12 V, as standard deviation (V)."""
ONE, OTHER = (Fault("W1", "open"),), (Fault("W1", "high_resistance", 2.0),)


def mistaken(patch: pytest.MonkeyPatch, apart: float, sigma: float = SIGMA) -> float:
    """How often the likelier of two suspects, `apart` volts from each other, is the wrong one: over all
    readings, the share of the other times the density of the reading."""
    means = {ONE: 12.0 - apart / 2.0, OTHER: 12.0 + apart / 2.0}
    says: dict[Faults, Reading | Words] = {f: Reading(m, {}, sigma) for f, m in means.items()}
    step, half = sigma / 8.0, 2 * math.ceil(4.0 * (apart / 2.0 / sigma + 6.0))
    total, wrong = 0.0, 0.0
    for n in range(-half, half + 1):
        value = 12.0 + n * step
        found = shares(patch, dict.fromkeys(means, 0.1), says, value)
        simpson = (1.0 if abs(n) == half else 4.0 if n % 2 else 2.0) * step / 3.0
        density = sum(NormalDist(mean, sigma).pdf(value) for mean in means.values()) / 2.0
        total += density * simpson
        wrong += min(found.get(f, 0.0) for f in means) * density * simpson
    assert total == pytest.approx(1.0, abs=1e-6)
    return wrong


TABLE = [(0.05, 0.266, 1e-3), (0.10, 0.106, 1e-3), (0.15, 0.0304, 1e-4), (0.20, 0.00621, 1e-5)]
TABLE += [(0.30, 9e-5, 1e-5)]
"""Volts apart, share mistaken and its last digit: the normal law, worked by hand."""


@pytest.mark.parametrize(("apart", "error", "last_digit"), TABLE)
def test_suspects_close_together_are_mistaken_as_often_as_the_meter_says(
    apart: float, error: float, last_digit: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert mistaken(monkeypatch, apart) == pytest.approx(error, abs=last_digit / 2)


def test_a_meter_twice_as_good_mistakes_fewer(monkeypatch: pytest.MonkeyPatch) -> None:
    assert mistaken(monkeypatch, 0.10, SIGMA / 2.0) == pytest.approx(0.00621, abs=5e-6)
