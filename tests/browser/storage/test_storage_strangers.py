"""What a stranger's file or a browser's own ways put before the store: refused in words, or passed over."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from typing import Any

import pytest
from storage_rig import Phone, append, exported_by, import_text, state, texts

NewPhone = Callable[..., Phone]


def line(**other: Any) -> str:
    body = other.get("body", '{"text":"x"}')
    event = {"device": "stranger", "n": 1, "job": "theirs", "kind": "note made", "format": 1}
    event |= {"at": "", "body": body, "sha256": hashlib.sha256(str(body).encode()).hexdigest()}
    return json.dumps(event | other)


def file(*lines: str, **heading: Any) -> str:
    return "\n".join([json.dumps({"footwell": "events", "format": 1, **heading}), *lines, ""])


STRANGE = {
    "a long name of a device": line(device="x" * 65),
    "no number": line(n=0),
    "half a number": line(n=1.5),
    "no job": line(job=""),
    "a long kind": line(kind="x" * 41),
    "no format": line(format="1"),
    "a time that is none": line(at=7),
    "a long time": line(at="2" * 41),
    "a body that is no text": line(body=7),
    "a long body": line(body="x" * 65_537),
    "a body of another hash": line(sha256="0" * 64),
    "a first name without a number": line(origin={"device": "x"}),
    "a first name that is none": line(origin=7),
    "a line without end": '"' + "x" * 270_000,
    "no object": "7",
}


def test_a_stranger_s_line_is_left_out_by_its_number_and_the_others_come_in(
    phone: NewPhone,
) -> None:
    tab = phone().tab()
    result = import_text(tab, file(*STRANGE.values(), line()))
    told = [f"Line {n} is damaged and was left out." for n in range(2, len(STRANGE) + 2)]
    assert result["refused"][1:] == told
    assert [event["n"] for event in result["events"]] == [1]
    assert tab.evaluate("store.jobs()")[0]["title"] == "Job without a title"


def test_a_title_that_turns_what_stands_behind_it_is_told_plainly_and_kept_as_it_came(
    phone: NewPhone,
) -> None:
    tab = phone().tab()
    title, sheet = "Fan \u202e42", {"vehicle": "Bus\u2067"}
    opened = [
        line(n=1, kind="job opened", body=json.dumps({"title": title, "sheet": sheet})),
        line(n=2, job="long", kind="job opened", body=json.dumps({"title": "x" * 120})),
        line(n=3, job="longer", kind="job opened", body=json.dumps({"title": "x" * 121})),
    ]
    import_text(tab, file(*opened))
    told = [(job["title"], job["vehicle"]) for job in tab.evaluate("store.jobs()")]
    assert told == [("Job without a title", ""), ("x" * 120, ""), ("Fan 42", "Bus")]
    [kept] = tab.evaluate("store.events('theirs')")
    assert kept["body"] == json.loads(opened[0])["body"]


@pytest.mark.parametrize("heading", [{"count": "1"}, {"count": -1, "sha256": 7}, {"sha256": ""}])
def test_a_heading_whose_count_or_hash_is_none_hinders_nothing(
    phone: NewPhone, heading: dict[str, Any]
) -> None:
    result = import_text(phone().tab(), file(line(), "", **heading))
    assert (len(result["events"]), result["refused"]) == (1, [])


def test_a_file_that_somebody_chose_is_imported(phone: NewPhone) -> None:
    tab = phone().tab()
    text = exported_by(phone(), "one")
    tab.evaluate("text => store.importFile(new Blob([text]))", text)
    assert texts(tab, "job") == ["one"]


def test_a_browser_that_refuses_all_but_the_database_still_saves_exports_and_erases(
    phone: NewPhone,
) -> None:
    tab = phone().tab("""
        for (const name of ["getItem", "setItem", "removeItem"])
            Storage.prototype[name] = () => { throw new DOMException("no", "SecurityError"); };
        Object.defineProperty(globalThis, "localStorage", {
            get() { throw new DOMException("no", "SecurityError"); },
        });
    """)
    append(tab, "job", "one")
    tab.evaluate("store.noteExported()")
    assert (state(tab), texts(tab, "job"), tab.evaluate("store.lastExport")) == (
        "ready",
        ["one"],
        "",
    )
    assert tab.evaluate("store.unexported().then((counts) => [...counts])") == [["job", 1]]
    tab.evaluate("store.eraseJob('job')")
    tab.evaluate("store.erasePhone()")
    assert (state(tab), tab.evaluate("store.jobs()")) == ("ready", [])


@pytest.mark.parametrize("kept", ["{", "7", '{"device":7}', '{"device":"x","last":"1","count":1}'])
def test_a_witness_that_cannot_be_read_is_none(phone: NewPhone, kept: str) -> None:
    tab = phone().tab(f"localStorage.setItem('footwell.witness', {json.dumps(kept)})")
    assert state(tab) == "ready"


def test_counts_of_exports_that_are_none_are_passed_over(phone: NewPhone) -> None:
    tab = phone().tab("""localStorage.setItem('footwell.exported', '{"job":"1","other":1}')""")
    append(tab, "job", "one")
    assert tab.evaluate("store.unexported().then((counts) => [...counts])") == [["job", 1]]


ROOM = [
    (
        "async () => ({ usage: 2e6, quota: 3e8 })",
        "Footwell takes 2.0 MB on this phone; the browser",
    ),
    ("async () => ({})", "does not say how much room is left"),
    ("undefined", "does not say how much room is left"),
]
PUT = """(name, value) =>
    Object.defineProperty(navigator.storage, name, { value, configurable: true })"""
PROMISE = [
    ("async () => true", "The browser has agreed to keep"),
    ("async () => false", "The browser has not agreed to keep"),
    ("undefined", "This browser cannot promise to keep"),
]


def test_room_and_the_browser_s_promise_are_told_as_it_gives_them(phone: NewPhone) -> None:
    tab = phone().tab()
    for name, sentence, answers in (("estimate", "room", ROOM), ("persist", "keep", PROMISE)):
        for given, told in answers:
            tab.evaluate(f"() => void ({PUT})('{name}', {given})")
            assert told in tab.evaluate(f"store.{sentence}Sentence()")


def test_a_job_without_a_title_is_listed_as_one(phone: NewPhone) -> None:
    """A job opened by a stranger's body without title or sheet is shown without them."""
    tab = phone().tab()
    odd = [line(kind="job opened", body="[]"), line(n=2, kind="job opened", job="b", body="{")]
    import_text(tab, file(*odd))
    assert {job["title"] for job in tab.evaluate("store.jobs()")} == {"Job without a title"}
