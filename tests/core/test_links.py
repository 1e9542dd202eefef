"""A job goes into a link and comes out the same; short enough for a message."""

from __future__ import annotations

import hashlib
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footwell.job import links
from footwell.job.events import Event

from .job_rig import MINIBUS, TRACTOR, VAN, Data, Job, asked, compact
from .job_road import long_road, road_of
from .test_service_timeline import dead, put_right

KINDS = st.sampled_from(["note made", "reading taken", "of a later release"])
TEXT = st.text(max_size=60)
EVENTS = st.lists(
    st.builds(
        Event,
        device=st.text(min_size=1, max_size=64),
        n=st.integers(1, 10**9),
        job=st.text(min_size=1, max_size=64),
        kind=KINDS,
        format=st.integers(1, 10**6),
        at=st.text(max_size=40),
        body=TEXT,
    ),
    max_size=8,
)


@settings(max_examples=60, deadline=None)
@given(EVENTS)
def test_what_goes_in_comes_out(events: list[Event]) -> None:
    assert links.decode(links.make(events)) == events


def job_text(job: Job) -> Data:
    return {"text": job.ask("link_make")["text"]}


def test_an_opened_link_has_the_same_belief_and_the_same_next_check() -> None:
    job = put_right(dead()).volts("X4.1.a", 24.3, "3")
    opened = asked("link_open", job_text(job))
    copy = Job()
    copy.events = opened["events"]
    assert copy.look() == job.look()


def test_what_is_inside_is_told_before_it_is_taken_over() -> None:
    job = dead().volts("X4.1.a", 24.3, "3").volts("X4.1.a", 24.3, "2").withdraw(5)
    opened = asked("link_open", job_text(job))
    told = {name: opened[name] for name in ("title", "vehicle", "readings")}
    assert told == {"title": "Saloon heater fan", "vehicle": "Minibus, 24 V", "readings": 1}


def test_a_link_holds_nothing_that_messengers_break() -> None:
    """Characters that RFC 3986, section 2.3, never needs to escape: unreserved ones."""
    text = links.make(dead().stored())
    assert re.fullmatch(r"F1\.\d+\.[0-9a-f]{12}\.[A-Za-z0-9_-]+", text)


@pytest.mark.parametrize("around", ["#{}", "https://example.org/footwell/#{}", "  {}\n"])
def test_a_whole_address_opens_too(around: str) -> None:
    events = dead().stored()
    assert links.decode(around.format(links.make(events))) == events


def test_a_note_full_of_brackets_is_not_taken_for_deep_nesting() -> None:
    job = dead().add("note made", text='[[[{"' * 40)
    assert links.decode(links.make(job.stored())) == job.stored()


@pytest.mark.parametrize("circuit", [MINIBUS, VAN, TRACTOR])
def test_a_whole_job_on_a_sample_circuit_fits_a_message(circuit: str) -> None:
    made = road_of(circuit).ask("link_make")
    assert made["length"] == len(made["text"])
    assert not made["too_long"]


def test_a_job_of_twenty_entries_fits_a_message() -> None:
    made = long_road().ask("link_make")
    assert len(long_road().events) == 20
    assert not made["too_long"]


def test_a_link_that_is_too_long_says_so() -> None:
    job = dead()
    for n in range(40):
        job.add("note made", text=hashlib.sha256(bytes([n])).hexdigest())
    made = job.ask("link_make")
    assert made["length"] > links.COMFORTABLE
    assert made["too_long"]


def test_a_job_too_large_for_any_link_gets_none() -> None:
    """Half of it in letters that cannot be packed, or all of it far longer than what is unfolded."""
    job = dead()
    for n in range(1_000):
        job.add("note made", text=hashlib.sha512(n.to_bytes(2)).hexdigest())
    long_text, long_content = job.ask("link_make"), dead()
    for _ in range(17):
        long_content.add_text("note made", "x" * 60_000)
    for made in (long_text, long_content.ask("link_make")):
        assert (made["text"], made["too_long"]) == ("", True)


@pytest.mark.parametrize(("more", "opens"), [(0, True), (1, False)])
def test_a_job_of_the_greatest_size_gets_a_link_that_opens(more: int, opens: bool) -> None:
    job = dead()
    for _ in range(16):
        job.add_text("note made", "x" * 60_000)
    job.add_text("note made", "")
    size = len(compact({"events": [event.model_dump() for event in job.stored()]}).encode())
    job.events[-1]["body"] = "x" * (links.LONGEST_CONTENT - size + more)
    text = links.make(job.stored())
    assert bool(text) == opens
    if text:
        assert links.decode(text) == job.stored()


def test_links_of_every_ending_open() -> None:
    """Base64 ends whole, or lacks one letter or two; and a letter of any kind may be its last."""
    made = [links.make(dead().add("note made", text=str(n)).stored()) for n in range(400)]
    assert {text[-1] for text in made} >= set("AQXgw")
    assert {len(text.rpartition(".")[2]) % 4 for text in made} == {0, 2, 3}
    for text in made:
        assert links.decode(text)[-1].kind == "note made"


def test_words_keep_a_link_short() -> None:
    """Guards against words that no longer fit what the page writes: they must do half the work."""
    events = road_of(MINIBUS).stored()
    short = len(links.make(events))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(links, "WORDS", "")
        assert short < 0.5 * len(links.make(events))
