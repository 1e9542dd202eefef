"""What holds of every kind of part, in every state and under every fault."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import permutations
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.circuit import Circuit, Element, build
from footwell.circuit.fault import Fault, broken_branches
from footwell.parts import KINDS
from footwell.parts.base import EARTH, SUPPLY, Branch, Context
from footwell.sheet.models import Sheet

from .random_parts import DRAWS, drawn

SIZES = (0.1, 50.0, 20_000.0)


@dataclass(frozen=True)
class Sample:
    circuit: Circuit
    element: Element

    def faults(self) -> Iterator[Fault]:
        for mode in self.element.modes.values():
            for size in SIZES if mode.sized else mode.factors or (0.0,):
                yield Fault(self.element.id, mode.name, size)

    def states(self) -> tuple[str, ...]:
        return self.element.kind.states(self.element.values)

    def every(self) -> Iterator[tuple[str, tuple[Fault, ...], list[Branch]]]:
        """State, faults and branches: sound, and under each fault alone."""
        for state in self.states():
            for faults in ((), *((fault,) for fault in self.faults())):
                yield state, faults, broken_branches(self.circuit, self.element, state, faults)


def sample(kind: str, seed: int) -> Sample:
    """A part of a kind with drawn values, alone beside a battery."""
    values: Any = drawn(kind, Random(seed), Context(12, 5.0))
    rows = [("G0", "battery"), ("P1", kind)]
    sheet = Sheet.model_validate(
        {
            "format": 1,
            "id": "test",
            "title": "test",
            "vehicle": "test",
            "system_volts": 12,
            "summary": "test",
            "working_amps": 5.0,
            "loads": ["P1"],
            "controls": [],
            "parts": [{"id": id_, "kind": k, "name": id_} for id_, k in rows],
        }
    )
    circuit = build(sheet, {"G0": KINDS["battery"].values(), "P1": values})
    return Sample(circuit, circuit.elements["P1"])


PLACED = sorted(DRAWS.keys() - {"wire", "contact"})


def test_every_kind_of_part_joins_the_random_tests() -> None:
    assert set(DRAWS) == set(KINDS)


@pytest.mark.parametrize("kind", PLACED)
@given(st.integers(0, 10_000))
def test_positions_are_states_and_faults_lie_between_terminals_that_the_sound_part_joins(
    kind: str, seed: int
) -> None:
    """The network is planned once for all states and faults; only a short to the body, or to the
    supply, joins what the sound part does not."""
    one = sample(kind, seed)
    if one.element.kind.positions is not None:
        assert set(one.element.kind.positions(one.element.values)) <= set(one.states())
    joined = {
        frozenset((b.a, b.b)) for s in one.states() for b in one.circuit.branches(one.element, s)
    }
    for state, faults, branches in one.every():
        for branch in branches:
            ends = frozenset((branch.a, branch.b))
            assert ends in joined or ends & {EARTH, SUPPLY}, (kind, state, faults, branch.name)
        names = [b.name for b in branches]
        assert len(names) == len(set(names)), (kind, state, faults)


@pytest.mark.parametrize("kind", PLACED)
@given(st.integers(0, 10_000), st.floats(-30, 30), st.floats(-30, 30))
def test_current_never_falls_as_the_voltage_over_a_branch_rises(
    kind: str, seed: int, one: float, other: float
) -> None:
    low, high = sorted((one, other))
    for state, faults, branches in sample(kind, seed).every():
        for branch in branches:
            (less, slope), (more, _) = branch.law.at(low), branch.law.at(high)
            allowed = 1e-9 * (1.0 + abs(less) + abs(more))
            assert less <= more + allowed and slope >= 0.0, (kind, state, faults, branch.name)


@pytest.mark.parametrize("kind", PLACED)
@given(st.integers(0, 10_000))
def test_two_faults_of_one_part_lie_between_the_terminals_of_one_alone(
    kind: str, seed: int
) -> None:
    """A sensor can be off its curve and open besides, in either order."""
    one = sample(kind, seed)
    alone = {frozenset((b.a, b.b)) for *_, branches in one.every() for b in branches}
    firsts = {fault.mode: fault for fault in one.faults()}.values()
    for state in one.states():
        for pair in permutations(firsts, 2):
            branches = broken_branches(one.circuit, one.element, state, pair)
            assert {frozenset((b.a, b.b)) for b in branches} <= alone, (kind, state, pair)
            assert len({b.name for b in branches}) == len(branches), (kind, state, pair)
