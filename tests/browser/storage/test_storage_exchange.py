"""Jobs from links and files: bytes as they came, undo still right, nothing stored is overwritten."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page
from storage_rig import Bug, Phone, append, events, failure, state, texts

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
LAST_WINS = (
    Bug("exchange.ts", "if (here) continue;", ""),
    Bug(
        "exchange.ts",
        'await tx.objectStore("events").add(event);',
        """const key = await tx.objectStore("events").index("id").getKey([event.device, event.n]);
    await tx.objectStore("events").put(event, key);""",
    ),
)
BY_ARRIVAL_ALONE = Bug("jobs.ts", "return inOrder(await arrived);", "return await arrived;")
HASH_UNREAD = Bug("file.ts", " || hash !== (await sha256(body))", " || !isName(hash, 64)")


def foreign(n: int, kind: str, body: str, device: str = "ffff") -> dict[str, Any]:
    at = "2031-01-01T00:00:00.000Z"
    return {
        "device": device,
        "n": n,
        "job": "theirs",
        "kind": kind,
        "format": 7,
        "at": at,
        "body": body,
    }


def adopt(page: Page, job: str, theirs: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return page.evaluate("([theirs, job]) => store.adopt(theirs, job)", [theirs, job])


def import_text(page: Page, text: str) -> dict[str, Any]:
    return page.evaluate("text => store.importText(text)", text)


# ---- byte for byte


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


# ---- a link as a new job


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


# ---- files


def exported_by(phone: Phone, *words: str) -> str:
    tab = phone.tab()
    append(tab, "job", *words)
    return tab.evaluate("store.exportText()")


def test_a_file_imported_twice_is_there_once(phone: NewPhone) -> None:
    text = exported_by(phone(), "one", "two")
    tab = phone().tab()
    first, second = import_text(tab, text), import_text(tab, text)
    assert (len(first["events"]), first["known"], first["refused"]) == (2, 0, [])
    assert (len(second["events"]), second["known"], second["refused"]) == (0, 2, [])
    assert texts(tab, "job") == ["one", "two"]
    assert tab.evaluate("store.exportText()") == text


def an_emptied_phone_is_filled_again(phone: Phone) -> None:
    text = exported_by(phone, "one", "two")
    phone.context.pages[0].close()
    phone.blank().evaluate("() => void indexedDB.deleteDatabase('footwell')")
    tab = phone.tab()
    assert "emptied" in state(tab)
    import_text(tab, text)
    assert state(tab) == "ready"
    assert texts(tab, "job") == ["one", "two"]
    append(tab, "job", "three")
    assert texts(tab, "job") == ["one", "two", "three"]


def test_an_emptied_phone_filled_from_its_export_misses_nothing(phone: NewPhone) -> None:
    an_emptied_phone_is_filled_again(phone())


def with_other_body(text: str, line: int, body: str) -> str:
    """The file with another body in one line, and the hash that goes with it."""
    lines = text.splitlines()
    event = json.loads(lines[line - 1])
    event |= {"body": body, "sha256": hashlib.sha256(body.encode()).hexdigest()}
    lines[line - 1] = json.dumps(event)
    return "\n".join(lines)


def a_file_contradicts_the_store(phone: Phone) -> None:
    text = exported_by(phone, "one", "two")
    tab = phone.tab()
    result = import_text(tab, with_other_body(text, 3, '{"text":"forged"}'))
    assert texts(tab, "job") == ["one", "two"], "what was stored was overwritten"
    assert result["known"] == 1
    assert result["refused"] == [
        "Line 3 bears the number of another entry stored here. "
        "It was left out; what is stored is unchanged."
    ]


def test_an_entry_with_a_known_number_and_other_bytes_is_refused(phone: NewPhone) -> None:
    a_file_contradicts_the_store(phone())


def test_an_import_that_overwrites_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="was overwritten"):
        a_file_contradicts_the_store(phone(*LAST_WINS))


def a_damaged_file_is_imported(phone: NewPhone, *bugs: Bug) -> None:
    lines = exported_by(phone(), "one", "two", "three", "four").splitlines()
    damaged = [lines[0], lines[1], lines[2].replace("two", "too"), lines[3][:-20]]
    tab = phone(*bugs).tab()
    result = import_text(tab, "\r\n".join(damaged))
    assert texts(tab, "job") == ["one"], "damaged bytes were taken for sound ones"
    assert result["refused"] == [
        "Line 3 is damaged and was left out.",
        "Line 4 is damaged and was left out.",
        "The file is cut off: of 4 entries it holds 3.",
    ]


def test_of_a_damaged_file_the_sound_entries_are_kept_and_the_others_named(
    phone: NewPhone,
) -> None:
    a_damaged_file_is_imported(phone)


def test_an_import_that_does_not_read_the_hash_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="taken for sound"):
        a_damaged_file_is_imported(phone, HASH_UNREAD)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "is not an export of Footwell"),
        ("a shopping list\nmilk", "is not an export of Footwell"),
        ("[" * 100_000, "is not an export of Footwell"),
        (
            '{"footwell":"events","format":2,"count":1}\n',
            "was made by a newer Footwell; update this one, then import it",
        ),
    ],
    ids=["empty", "no export", "brackets", "newer format"],
)
def test_a_file_that_is_no_export_is_refused_whole(phone: NewPhone, text: str, reason: str) -> None:
    sentence = failure(phone().tab(), "store.importText(argument)", text)
    assert sentence == f"StorageProblem: Nothing was imported: this file {reason}."


# ---- order and summaries


def halves_come_in_reversed(phone: NewPhone, *bugs: Bug) -> None:
    heading, *lines = exported_by(phone(), "one", "two", "three").splitlines()
    tab = phone(*bugs).tab()
    import_text(tab, "\n".join([heading, *lines[1:]]))
    append(tab, "job", "own")
    import_text(tab, "\n".join([heading, lines[0]]))
    assert texts(tab, "job") == ["one", "two", "own", "three"]


def test_events_of_a_device_stand_in_the_order_of_its_counter(phone: NewPhone) -> None:
    halves_come_in_reversed(phone)


def test_an_order_by_arrival_alone_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        halves_come_in_reversed(phone, BY_ARRIVAL_ALONE)


def test_a_clock_that_runs_backwards_changes_no_order(phone: NewPhone) -> None:
    tab = phone().tab("""
        let hour = 90;
        Date.prototype.toISOString = () => `2030-01-01T00:${(hour -= 1)}:00.000Z`;
    """)
    for word in ("one", "two", "three"):
        append(tab, "job", word)
    assert texts(tab, "job") == ["one", "two", "three"]


def test_jobs_are_listed_with_title_vehicle_count_and_last_time(phone: NewPhone) -> None:
    tab = phone().tab()
    opened = {"title": "Heater fan", "sheet": {"vehicle": "Minibus, 24 V"}}
    tab.evaluate("body => store.append('fan', 'job opened', body)", opened)
    append(tab, "no opening", "x")
    [last] = append(tab, "fan", "y")
    assert tab.evaluate("store.jobs()") == [
        {
            "id": "fan",
            "title": "Heater fan",
            "vehicle": "Minibus, 24 V",
            "count": 2,
            "lastAt": last["at"],
        },
        {
            "id": "no opening",
            "title": "Job without a title",
            "vehicle": "",
            "count": 1,
            "lastAt": tab.evaluate("store.events('no opening')")[0]["at"],
        },
    ]


def test_room_and_promise_of_the_browser_are_sentences(phone: NewPhone) -> None:
    tab = phone().tab()
    assert tab.evaluate("store.roomSentence()").startswith("Footwell takes ")
    assert "keep your jobs" in tab.evaluate("store.keepSentence()")
