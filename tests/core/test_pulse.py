"""Whoever waits for a long answer hears that it is being worked on."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from footwell import pulse
from footwell.job import replay

from .job_rig import Job, asked


@pytest.fixture
def heard() -> Iterator[list[None]]:
    found: list[None] = []
    pulse.listen(lambda: found.append(None))
    yield found
    pulse.listen(lambda: None)


def test_a_look_that_has_much_to_compute_is_heard_at_work(heard: list[None]) -> None:
    replay._CIRCUITS.clear()
    Job().tools("meter").dead().look()
    assert len(heard) > 100


def test_a_call_with_nothing_to_compute_is_not_heard(heard: list[None]) -> None:
    asked("ping", {})
    assert heard == []
