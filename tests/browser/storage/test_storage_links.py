"""Jobs from links: bytes as they came, undo still right, numbers of this phone."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page
from storage_bugs import Bug
from storage_rig import Phone, adopt, append, events, failure, foreign, import_text, state, texts

NewPhone = Callable[..., Phone]

# What a reader that understands too much would change: order, spaces, escapes, numbers, twins.
STRANGE_BODY = (
    '{ "z":1.0,"a" : 1e400, "n":12345678901234567890, "t":"\\u00e9\\/", "z":-0, "é":[ ] }'
)

WRITTEN_ANEW = Bug(
    "adopt.ts",
    "events.map(async ({ device, n, kind, format, at, body }) => {",
    "events.map(async ({ device, n, kind, format, at, body }) => {\n"
    "      body = JSON.stringify(JSON.parse(body));",
)
FIRST_NAMES_FORGOTTEN = Bug("event.ts", "stored.origin ?? stored", "stored")
NEVER_BEHIND = Bug("append.ts", "device === phone.device && n > phone.n", "false")


def unknown_kinds_pass(phone: NewPhone, *bugs: Bug) -> None:
    tab = phone(*bugs).tab()
    adopt(tab, "job", [foreign(1, "tea drunk", STRANGE_BODY)])
    [here] = events(tab, "job")
    exported = tab.evaluate("store.exportText('job')")
    other = phone().tab()
    import_text(other, exported)
    [there] = events(other, "job")
    for event in (here, there):
        assert (event["kind"], event["format"]) == ("tea drunk", 7)
        assert event["body"] == STRANGE_BODY
    line = json.loads(exported.splitlines()[1])
    assert line["sha256"] == hashlib.sha256(STRANGE_BODY.encode()).hexdigest()


def test_unknown_kinds_and_fields_pass_byte_for_byte(phone: NewPhone) -> None:
    unknown_kinds_pass(phone)


def test_a_store_that_writes_bodies_anew_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        unknown_kinds_pass(phone, WRITTEN_ANEW)


def standing(job: list[dict[str, Any]]) -> list[str]:
    """The notes that were not withdrawn, as the core tells them: by device and number."""
    withdrawn = [
        (body["device"], body["n"])
        for event in job
        if event["kind"] == "event withdrawn" and (body := json.loads(event["body"]))
    ]
    names = [(event["device"], event["n"]) for event in job]
    assert len(set(names)) == len(names), "two events of a job bear the same name"
    assert set(withdrawn) <= set(names), "an undo names an event that is not there"
    return [
        json.loads(event["body"])["text"]
        for event, name in zip(job, names, strict=True)
        if event["kind"] == "note made" and name not in withdrawn
    ]


def withdraw(page: Page, job: str, event: dict[str, Any]) -> None:
    page.evaluate(
        "([job, body]) => store.append(job, 'event withdrawn', body)",
        [job, {"device": event["device"], "n": event["n"]}],
    )


def an_undo_travels(phone: NewPhone, *bugs: Bug) -> None:
    maker = phone(*bugs).tab()
    append(maker, "another job", "1", "2")
    _, wrong, _ = append(maker, "job", "right", "wrong", "doubtful")
    withdraw(maker, "job", wrong)
    assert standing(events(maker, "job")) == ["right", "doubtful"]

    taker = phone(*bugs).tab()
    append(taker, "own job", "a", "b", "c", "d", "e")
    taken = adopt(taker, "taken", events(maker, "job"))
    assert standing(taken) == ["right", "doubtful"]
    withdraw(taker, "taken", events(taker, "taken")[2])
    append(taker, "taken", "new")
    assert standing(events(taker, "taken")) == ["right", "new"]

    # Back on the phone that made it, as one more job beside the first.
    adopt(maker, "back again", events(taker, "taken"))
    assert standing(events(maker, "back again")) == ["right", "new"]
    assert standing(events(maker, "job")) == ["right", "doubtful"]


def test_an_undo_stays_right_through_links_and_back(phone: NewPhone) -> None:
    an_undo_travels(phone)


def test_a_job_taken_over_without_its_first_names_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        an_undo_travels(phone, FIRST_NAMES_FORGOTTEN)


def test_a_link_opened_twice_makes_two_jobs_with_dense_numbers_of_this_phone(
    phone: NewPhone,
) -> None:
    tab = phone().tab()
    theirs = [foreign(n, "note made", json.dumps({"text": str(n)})) for n in (4, 5, 6)]
    adopt(tab, "first", theirs)
    adopt(tab, "second", theirs)
    lines = tab.evaluate("store.exportText()").splitlines()[1:]
    stored = [json.loads(line) for line in lines]
    assert [event["n"] for event in stored] == [1, 2, 3, 4, 5, 6]
    assert [event["origin"]["n"] for event in stored] == [4, 5, 6, 4, 5, 6]
    assert texts(tab, "first") == texts(tab, "second") == ["4", "5", "6"]


def a_phone_meets_its_own_future(phone: Phone) -> None:
    tab = phone.tab()
    [mine] = append(tab, "job", "mine")
    ahead = foreign(3, "note made", '{"text":"of the lost weeks"}', mine["device"])
    adopt(tab, "taken", [ahead])
    append(tab, "taken", "new")
    assert standing(events(tab, "taken")) == ["of the lost weeks", "new"]
    assert state(tab) == "ready"


def test_a_phone_restored_from_an_older_copy_goes_on_as_a_new_one(phone: NewPhone) -> None:
    a_phone_meets_its_own_future(phone())


def test_a_phone_that_gives_a_number_twice_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="the same name"):
        a_phone_meets_its_own_future(phone(NEVER_BEHIND))


@pytest.mark.parametrize(
    ("theirs", "reason"),
    [
        ([], "it holds no entries"),
        (
            [foreign(1, "note made", "{}"), foreign(1, "note made", "[]")],
            "two of its entries bear the same number",
        ),
        ([foreign(1, "note made", "x" * 65537)], "its entry 1 is too long"),
    ],
    ids=["empty", "number twice", "too long"],
)
def test_an_unsound_link_is_refused_and_leaves_nothing(
    phone: NewPhone, theirs: list[dict[str, Any]], reason: str
) -> None:
    tab = phone().tab()
    sentence = failure(tab, "store.adopt(argument, 'job')", theirs)
    assert sentence == (
        f"StorageProblem: This job cannot be taken over: {reason}. Ask for the link again."
    )
    assert tab.evaluate("store.jobs()") == []
