"""Every format ever written opens for ever: one sample of each is kept."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from footwell.job import links
from footwell.job.events import EVENT_FORMAT
from footwell.terminal.job import job_state
from footwell.terminal.job_files import events_of

from .job_rig import answered
from .stored_samples_maker import JOB_FILE, LINK_FILE

LINKS = sorted(LINK_FILE.parent.glob("*"))
JOBS = sorted(JOB_FILE.parent.glob("*"))


def by_name(file: Path) -> str:
    return file.name


def test_every_format_of_a_link_has_its_sample() -> None:
    assert [file.name for file in LINKS] == [f"F{n}.txt" for n in range(1, links.FORMAT + 1)]


@pytest.mark.parametrize("file", LINKS, ids=by_name)
def test_a_sample_link_opens_as_the_job_it_was_made_of(file: Path) -> None:
    opened = answered("link_open", {"text": file.read_text("utf-8")})["ok"]
    told = {name: opened[name] for name in ("title", "vehicle")}
    assert told == {"title": "Saloon heater fan", "vehicle": "Minibus, 24 V"}
    assert opened["readings"] >= 4


@pytest.mark.parametrize("file", JOBS, ids=by_name)
def test_a_sample_job_opens_with_nothing_left_unused(file: Path) -> None:
    events = events_of(file.read_text("utf-8"))
    assert all(event.format <= EVENT_FORMAT for event in events)
    state = job_state(events)
    assert state.problems == []
    assert state.groups.mended


def test_the_sample_link_and_the_sample_job_are_one_job() -> None:
    linked = links.decode(LINK_FILE.read_text("utf-8"))
    assert linked == events_of(JOB_FILE.read_text("utf-8"))


def test_a_job_that_was_read_is_written_again_without_loss() -> None:
    events = events_of(JOB_FILE.read_text("utf-8"))
    assert links.decode(links.make(events)) == events
    assert re.match(rf"F{links.FORMAT}\.", links.make(events))
