"""A few vehicles of every other world by a seed from the commit; the whole is truths_score.py."""

from __future__ import annotations

import random

import pytest
from family import drawn
from family_jobs import node_checks
from family_score import one_pass
from family_truths import SIZE_OFF, jobs_in
from parity.seed import commit
from truths_score import PARTS_11, WORLDS

from footwell.checks.predict import Reading, expected
from footwell.circuit.fault import STEP_SPREAD, Fault

CASES = 3


def seed() -> int:
    return random.Random(commit()).randrange(10**6)


@pytest.mark.parametrize("world", WORLDS)
def test_jobs_of_every_world_come_to_a_group_of_sets(world: str) -> None:
    found = one_pass(jobs_in(WORLDS[world], PARTS_11, 2, CASES, seed()))
    assert found["sets in group"] >= 1.0 and found["checks"] >= 1.0


@pytest.mark.parametrize("part", ["G1", "F1", "W1"])
def test_a_reading_leans_on_the_size_of_a_poor_joint_as_it_moves_with_it(part: str) -> None:
    """In the supply too, whose own tolerance is that of its voltage."""
    circuit = drawn(PARTS_11, random.Random(seed())).circuit
    size = circuit.elements[part].values.poor_ohms
    step = 1e-4
    for check in node_checks(circuit):
        found = [
            expected(circuit, check, (Fault(part, "high_resistance", size * factor),))
            for factor in (1.0 - step, 1.0, 1.0 + step)
        ]
        less, said, more = (reading for reading in found if isinstance(reading, Reading))
        by_size = (more.mean - less.mean) / (2.0 * step) * STEP_SPREAD
        own = sum(lean * lean for lean in said.leans.values()) ** 0.5
        assert own == pytest.approx(abs(by_size), abs=0.02 * said.instrument_sigma, rel=0.01)


def test_a_supplys_poor_joint_off_its_size_is_still_thought_of() -> None:
    circuit = drawn(PARTS_11, random.Random(seed())).circuit
    size = circuit.elements["G1"].values.poor_ohms
    for check in node_checks(circuit)[:3]:
        listed, real = (
            expected(circuit, check, (Fault("G1", "high_resistance", ohms),))
            for ohms in (size, size * SIZE_OFF)
        )
        assert isinstance(listed, Reading) and isinstance(real, Reading)
        assert abs(real.mean - listed.mean) <= 2.0 * listed.sigma
