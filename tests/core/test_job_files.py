"""The events of a job from every text in which they leave the page; what is none is refused in words."""

from __future__ import annotations

import json

import pytest

from footwell.job import links
from footwell.job.events import Event
from footwell.terminal.files import TerminalError
from footwell.terminal.job_files import events_of, is_link

from .job_rig import Data, Job, compact


def job() -> Job:
    return Job().dead().volts("F1.2", 24.0, "1")


def exported(*events: Data, **heading: object) -> str:
    head = {"footwell": "events", "format": 1, "count": len(events)} | heading
    return "".join(f"{compact(line)}\n" for line in (head, *events))


def refused(text: str, chosen: str | None = None) -> tuple[str, tuple[str, ...]]:
    with pytest.raises(TerminalError) as error:
        events_of(text, chosen)
    return error.value.sentence, error.value.details


def as_text(form: str) -> str:
    events, link = job().events, links.make(job().stored())
    return {
        "a list": compact(events),
        "an object": compact({"events": events, "printed": "beside"}),
        "a file": exported(*events),
        "a file with empty lines": exported(*events).replace("\n", "\n\n"),
        "a link": link,
        "an address": f"https://example.org/app/#{link}",
    }[form]


FORMS = ("a list", "an object", "a file", "a file with empty lines", "a link", "an address")


@pytest.mark.parametrize("form", FORMS)
def test_every_form_gives_the_same_events(form: str) -> None:
    text = as_text(form)
    assert events_of(f" \n{text}") == events_of(text) == job().stored()
    assert all(type(event) is Event for event in events_of(text))
    assert is_link(text) is (form in FORMS[4:])


@pytest.mark.parametrize("text", ["", "F1", "xF1.", "https://example.org/#", "F1.2 but in words"])
def test_what_only_looks_like_a_link_is_refused(text: str) -> None:
    assert is_link(text) is text.startswith("F1.")
    with pytest.raises((TerminalError, links.LinkError)):
        events_of(text)


@pytest.mark.parametrize("sign", ["\u2028", "\u2029", "\x85", "\x0b", "\x1c"])
def test_a_sign_in_a_text_that_is_no_end_of_a_line_ends_none(sign: str) -> None:
    made = job().add("note made", text=f"one{sign}two")
    text = exported(*made.events)
    assert events_of(text) == events_of(text.replace("\n", "\r\n")) == made.stored()


NO_EVENTS = (
    "These are not the events of a job. Give a list of events, an object with “events”, a"
    " file exported from the page, or a link."
)


@pytest.mark.parametrize("text", ["{", "[7]", "{}", '{"events": 7}', "hello", '[{"n": 1}]'])
def test_what_is_no_list_of_events_is_told(text: str) -> None:
    sentence, details = refused(text)
    assert sentence == NO_EVENTS
    assert details


def test_an_event_adopted_from_elsewhere_goes_by_its_first_name() -> None:
    events = job().events
    events[1] |= {"origin": {"device": "first", "n": 7}}
    found = events_of(exported(*events))
    assert [(event.device, event.n) for event in found[:2]] == [
        (events[0]["device"], 1),
        ("first", 7),
    ]
    assert found[1].body == events[1]["body"]


def test_a_file_of_a_newer_format_is_told() -> None:
    told = "This file comes from a newer Footwell. Update this one first."
    assert refused(exported(*job().events, format=2)) == (told, ())


@pytest.mark.parametrize("heading", [{"count": "3"}, {"footwell": "other"}, {"format": None}])
def test_a_heading_that_is_none_is_told(heading: dict[str, object]) -> None:
    sentence, details = refused(exported(*job().events, **heading))
    assert sentence == "This file is damaged. Export it again."
    assert details


def test_a_damaged_line_is_told_by_its_number() -> None:
    lines = exported(*job().events).splitlines()
    lines[2] = lines[2][:40]
    sentence, details = refused("\n".join(lines))
    assert sentence == "This file is damaged. Export it again."
    assert details
    assert all(detail.startswith("entry 2: ") for detail in details)


def test_a_file_that_was_cut_off_tells_how_much_is_there() -> None:
    events = job().events
    told = "This file is cut off: of 4 entries it holds 3. Export it again."
    assert refused(exported(*events, count=4)) == (told, ())
    assert len(events_of(exported(*events, count=2))) == 3


def two_jobs() -> str:
    events = job().events
    erased = {"kind": "erased", "job": "erased", "n": 9, "body": "{}"}
    return exported(*events, events[0] | {"job": "other", "n": 5}, events[0] | erased)


def test_of_several_jobs_one_has_to_be_chosen_and_erased_entries_are_none() -> None:
    mine = job().events[0]["job"]
    said = "This file holds 2 jobs. Choose one with --job."
    assert refused(two_jobs()) == (said, (f"--job {mine}", "--job other"))
    assert [event.n for event in events_of(two_jobs(), mine)] == [1, 2, 3]
    assert [event.n for event in events_of(two_jobs(), "other")] == [5]


@pytest.mark.parametrize(("text", "chosen"), [(two_jobs(), "third"), ("[]", None), ("[]", "x")])
def test_a_job_that_is_not_in_the_file_is_told(text: str, chosen: str | None) -> None:
    assert refused(text, chosen) == ("There are no events of that job in this file.", ())


def test_foreign_fields_and_strict_values_are_held_to() -> None:
    event = job().events[0] | {"later": [1.5]}
    assert events_of(json.dumps([event])) == job().stored()[:1]
    assert refused(compact([event | {"n": True}]))[0] == NO_EVENTS
    assert refused(compact([event | {"n": "1"}]))[0] == NO_EVENTS
