"""A sample of the jobs on drawn circuits, by a seed from the commit; the whole is family_score.py."""

from __future__ import annotations

import random

import pytest
from family import drawn, fault_sets
from family_jobs import begun, named, narrowed, node_checks, prepared
from family_score import jobs, one_pass, until_clear
from parity.seed import commit

from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import believe

CASES = 12


def seed() -> int:
    return random.Random(commit()).randrange(10**6)


def test_family_has_as_many_suspects_as_its_definition_says() -> None:
    # One fault to three at 11 parts, one to two at 23, and nothing wrong.
    small, large = (drawn(n, random.Random(1)).circuit for n in (2, 5))
    assert (len(small.points), len(large.points)) == (9, 18)
    assert 1 + sum(len(list(fault_sets(small, n))) for n in (1, 2, 3)) == 1563
    assert 1 + sum(len(list(fault_sets(large, n))) for n in (1, 2)) == 1059


@pytest.mark.parametrize("branches", [2, 5])
def test_one_fault_is_named_right(branches: int) -> None:
    found = one_pass(jobs(branches, 1, CASES, seed()))
    # Floors of the whole are 0.98 and 0.97; of a dozen one may fail.
    assert found["right"] >= 1.0 - 1.0 / CASES


def test_two_faults_are_both_mended_and_few_good_parts_go() -> None:
    found = until_clear(jobs(2, 2, CASES, seed()))
    # The floor of the whole is 0.99; of a dozen one may fail.
    assert found["cleared"] >= 1.0 - 1.0 / CASES
    assert found["good parts"] <= 0.25


def test_a_vehicle_whose_readings_are_those_of_another_fault_is_named_otherwise() -> None:
    """The twin: the same circuit with another truth gets another name."""
    chance = random.Random(seed())
    family = prepared(drawn(2, chance))
    names = set()
    for part in ("S1", "S2"):
        fault = next(f for f in fault_sets(family.circuit, 1) if f[0].element == part)
        job = begun(family, fault, chance)
        assert job is not None
        parts = named(narrowed(job))[0]
        assert parts == {part}
        names.add(parts)
    assert len(names) == 2


@pytest.mark.parametrize("broken", [("S2", "W1"), ("F1",)])
def test_a_break_in_each_branch_is_told_from_a_blown_fuse_however_much_was_read(
    broken: tuple[str, ...],
) -> None:
    """Every reading that fits adds to a suspect's weight, so that late in a job all weights are large: what
    two faults weigh half way is not to be held against what one fault weighs in the end."""
    family = prepared(drawn(2, random.Random(1)))
    job = begun(family, tuple(Fault(part, "open") for part in broken), random.Random(2))
    assert job is not None
    for check in node_checks(family.circuit):
        job.read(check)
    parts, share = named(believe(job.case()))
    assert parts == {*broken}
    assert share > 0.3
