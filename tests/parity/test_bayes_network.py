"""Shares of suspects in small cases against a Bayesian network."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pytest

from footwell.circuit.fault import Fault
from footwell.diagnosis import belief, likelihood
from footwell.diagnosis.belief import HOPELESS, NONE_ODDS, believe
from footwell.diagnosis.case import Case
from footwell.diagnosis.hypotheses import hypotheses

from .network import (
    ASTRAY,
    NO_SLIPS,
    SLIP,
    Faults,
    Table,
    altered,
    believed,
    floored,
    posteriors,
    share_a_tolerance,
    tables_of,
)
from .network_cases import FAN, SCREEN, Bench, family_case

SAME = 1e-6
ON_SHEETS = [(bench, fault) for bench in (FAN, SCREEN) for fault in bench.suspects]


@dataclass(frozen=True)
class Compared:
    """Footwell's shares of suspects and of none of these, the last, beside their odds before the
    evidence and the tables of the network."""

    shares: list[float]
    odds: list[float]
    tables: list[Table]
    slip: float

    def apart(self, tables: Sequence[Table] | None = None) -> float:
        """Largest difference from a network's shares. Suspects that are dropped are so because they
        are hopeless; the network is asked about the others."""
        astray = NO_SLIPS if self.slip == NO_SLIPS else ASTRAY
        every = posteriors(self.odds, tables or self.tables, self.slip, astray)
        own = self.shares[:-1]
        dropped = [x for x, mine in zip(every.suspects, own, strict=True) if not mine]
        assert tables or max(dropped, default=0.0) < math.exp(-HOPELESS)
        theirs = floored(every.kept(own))
        return max(abs(a - b) for a, b in zip(self.shares, theirs, strict=True))

    def altered(self) -> float:
        """The same beside a network in which the last table gives the likeliest suspect half of what
        it should."""
        likeliest = max(range(len(self.shares) - 1), key=self.shares.__getitem__)
        return self.apart([*self.tables[:-1], altered(self.tables[-1], likeliest, 0.5)])


def compared(case: Case, slip: float = SLIP) -> Compared:
    """A set of several faults is there with the product of the odds of its faults."""
    found = believe(case)
    shares = believed(found)
    odds = {h.faults: h.odds for h in belief.hypotheses(case)}
    for faults in shares:
        odds.setdefault(faults, math.prod(odds[f,] for f in faults))
    return Compared(
        [*(shares.get(faults, 0.0) for faults in odds), found.none],
        [*odds.values(), NONE_ODDS],
        tables_of(case, list(odds)),
        slip,
    )


def suspect_only(patch: pytest.MonkeyPatch, wanted: Callable[[Faults], bool]) -> None:
    """Leave those suspects, and that nothing is wrong."""
    patch.setattr(
        belief,
        "hypotheses",
        lambda case: [h for h in hypotheses(case) if not h.faults or wanted(h.faults)],
    )


def no_slips(patch: pytest.MonkeyPatch) -> float:
    """Take slips away, and with them what limits how much one reading can say: no suspect is dropped
    half way for it."""
    patch.setattr(belief, "ON_THE_WAY", 1000.0)
    patch.setattr(likelihood, "SLIP_SHARE", NO_SLIPS)
    patch.setattr(likelihood, "ASTRAY_SHARE", NO_SLIPS)
    return NO_SLIPS


Patch = pytest.MonkeyPatch
in_the_family = pytest.mark.parametrize(
    ("seed", "faults"), [(seed, faults) for faults in (1, 2) for seed in range(8)]
)


def on_sheets(cases: Sequence[tuple[Bench, Fault]]) -> pytest.MarkDecorator:
    names = [f"{bench.sheet} {fault.element} {fault.mode}" for bench, fault in cases]
    return pytest.mark.parametrize(("bench", "true"), cases, ids=names)


@in_the_family
def test_one_voltage_leaves_the_shares_of_the_network(seed: int, faults: int) -> None:
    found = compared(family_case(seed, faults, 1))
    assert found.apart() < SAME < found.altered()


@in_the_family
def test_voltages_that_lean_on_no_tolerance_leave_the_shares_of_the_network(
    seed: int, faults: int, monkeypatch: Patch
) -> None:
    """Breaks and shorts alone: the size of a poor joint is a tolerance that readings share."""
    suspect_only(monkeypatch, lambda all_of: all(f.mode != "high_resistance" for f in all_of))
    case = family_case(seed - seed % 2, faults, 3)
    found = compared(case)
    assert not any(share_a_tolerance(case, set_) for set_ in believed(believe(case)))
    assert found.apart() < SAME < found.altered()


@in_the_family
def test_voltages_that_share_tolerances_leave_the_shares_of_the_joint_normal_law(
    seed: int, faults: int, monkeypatch: Patch
) -> None:
    found = compared(family_case(seed, faults, 3), no_slips(monkeypatch))
    assert found.apart() < SAME < found.altered()


def few(bench: Bench, patch: Patch) -> None:
    suspect_only(patch, lambda all_of: all_of in [(f,) for f in bench.suspects])


@on_sheets(ON_SHEETS)
@pytest.mark.parametrize("unit", ["V", "Ω"])
def test_words_and_a_number_on_a_sheet_leave_the_shares_of_the_network(
    bench: Bench, true: Fault, unit: str, monkeypatch: Patch
) -> None:
    few(bench, monkeypatch)
    number = bench.on_ohms() if unit == "Ω" else bench.on_volts()[0]
    found = compared(bench.case(true, bench.by_eye(), number))
    assert found.apart() < SAME < found.altered()


@on_sheets([row for row in ON_SHEETS if row[0].look != row[1].element])
def test_voltages_on_a_sheet_leave_the_shares_of_the_joint_normal_law(
    bench: Bench, true: Fault, monkeypatch: Patch
) -> None:
    """Not where a fuse is open: voltages alone leave that as the one suspect, whatever a table says."""
    few(bench, monkeypatch)
    case = bench.case(true, *bench.on_volts())
    found = compared(case, no_slips(monkeypatch))
    assert any(share_a_tolerance(case, (f,)) for f in bench.suspects)
    assert found.apart() < SAME < found.altered()
