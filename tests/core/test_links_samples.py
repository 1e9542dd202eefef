"""Every format ever written opens for ever: one sample of each is kept."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from footwell.job import links
from footwell.job.events import BODIES, EVENT_FORMAT
from footwell.sheet.models import SHEET_FORMAT
from footwell.sheet.reading import SheetError, read_sheet
from footwell.terminal.files import TerminalError
from footwell.terminal.job import job_state
from footwell.terminal.job_files import events_of

from .job_rig import answered
from .stored_samples_maker import (
    ENDS_FILE,
    JOB_FILE,
    KINDS_FILE,
    LATER_BODY,
    LATER_FILE,
    LINK_FILE,
    NEWER,
    PHOTO_FILE,
    SHEET_FILE,
)

LATER = (KINDS_FILE, LATER_FILE, ENDS_FILE, PHOTO_FILE)
"""Made for their kinds of entry: nothing is mended in them."""

LINKS = sorted(LINK_FILE.parent.glob("*"))
WHOLE_PHONES = sorted(JOB_FILE.parent.glob("1-whole-phone*.jsonl"))
JOBS = sorted(set(JOB_FILE.parent.glob("*")) - set(WHOLE_PHONES))


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
    assert state.groups.mended or file in LATER


@pytest.mark.parametrize("file", WHOLE_PHONES, ids=by_name)
def test_each_job_of_a_whole_phone_opens_and_erased_entries_are_none(file: Path) -> None:
    with pytest.raises(TerminalError, match="holds 3 jobs") as asked:
        events_of(file.read_text("utf-8"))
    for choice in asked.value.details:
        events = events_of(file.read_text("utf-8"), choice.removeprefix("--job "))
        newer = [event for event in events if event.kind not in BODIES]
        assert len(job_state(events).problems) == len(newer)


def test_every_kind_of_entry_has_its_sample() -> None:
    events = [e for file in LATER for e in events_of(file.read_text("utf-8"))]
    assert {event.kind for event in events} == set(BODIES)


def test_the_sample_link_and_the_sample_job_are_one_job() -> None:
    linked = links.decode(LINK_FILE.read_text("utf-8"))
    assert linked == events_of(JOB_FILE.read_text("utf-8"))


def test_a_job_that_was_read_is_written_again_without_loss() -> None:
    events = events_of(JOB_FILE.read_text("utf-8"))
    assert links.decode(links.make(events)) == events
    assert re.match(rf"F{links.FORMAT}\.", links.make(events))


def test_the_sample_sheet_reads_without_a_flaw() -> None:
    assert read_sheet(SHEET_FILE.read_text("utf-8")).sheet.format == SHEET_FORMAT


def test_a_sheet_of_a_newer_format_says_what_to_do() -> None:
    with pytest.raises(SheetError) as refused:
        read_sheet((NEWER / "sheet-format-2.json").read_text("utf-8"))
    assert "this release reads up to 1" in str(refused.value.details)


def test_a_link_of_a_newer_release_opens_and_says_what_it_leaves_out() -> None:
    opened = answered("link_open", {"text": (NEWER / "link.txt").read_text("utf-8")})["ok"]
    assert opened["more_inside"]
    assert opened["events"][-1]["kind"] == "photo taken"
    assert opened["events"][-1]["body"] == LATER_BODY


def test_a_link_of_a_newer_format_is_refused_with_what_to_do() -> None:
    refused = answered("link_open", {"text": (NEWER / "link-format-2.txt").read_text("utf-8")})
    assert "newer Footwell. Update Footwell" in refused["error"]["sentence"]


def test_a_job_file_of_a_newer_release_opens_with_what_it_cannot_use_named() -> None:
    state = job_state(events_of((NEWER / "job.jsonl").read_text("utf-8")))
    assert state.problems == ["Entry 3 is from a newer Footwell. It is kept, but not used here."]
    with pytest.raises(TerminalError, match="newer Footwell"):
        events_of((NEWER / "job-format-2.jsonl").read_text("utf-8"))
