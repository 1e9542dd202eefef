"""A few vehicles of every other world by a seed from the commit; the whole is truths_score.py."""

from __future__ import annotations

import random

import pytest
from family_score import one_pass
from family_truths import jobs_in
from parity.seed import commit
from truths_score import PARTS_11, WORLDS

CASES = 3


def seed() -> int:
    return random.Random(commit()).randrange(10**6)


@pytest.mark.parametrize("world", WORLDS)
def test_jobs_of_every_world_come_to_a_group_of_sets(world: str) -> None:
    found = one_pass(jobs_in(WORLDS[world], PARTS_11, 2, CASES, seed()))
    assert found["sets in group"] >= 1.0 and found["checks"] >= 1.0
