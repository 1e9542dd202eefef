"""Fields of a later release, and the hash over a whole file."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable

import pytest
from storage_bugs import Bug
from storage_rig import Phone, append, exported_by, failure, foreign, import_text, texts

NewPhone = Callable[..., Phone]

FIELDS_DROPPED = Bug("file.ts", "return { ...event, line };", "return event;")
HEADING_UNREAD = Bug("file.ts", "heading.hash !== (await hashOf(lines))", "false")

BODY = '{"text" : "caf\\u00e9",  "later":[1.50,{"deep":null}]}'
"""JSON that no writer of ours would write in this way."""


def newer_line(n: int, kind: str) -> str:
    """A line of a file with an unknown kind, unknown fields and unusual spaces."""
    event = foreign(n, kind, BODY) | {"sha256": hashlib.sha256(BODY.encode()).hexdigest()}
    text = json.dumps(event, separators=(" ,", " : "))
    return text[:-1] + ', "photo":["ab",1.0], "signed": {"by":"x"} }'


def file_of(*lines: str) -> str:
    heading = {"footwell": "events", "format": 1, "count": len(lines), "later": True}
    return "".join(f"{line}\n" for line in [json.dumps(heading), *lines])


def newer_fields_go_through(phone: NewPhone, *bugs: Bug) -> None:
    lines = [newer_line(1, "photo taken"), newer_line(2, "note made")]
    first = phone(*bugs).tab()
    import_text(first, file_of(*lines))
    text = first.evaluate("store.exportText()")
    second = phone(*bugs).tab()
    assert import_text(second, text)["refused"] == []
    again = second.evaluate("store.exportText('theirs')")
    assert again.splitlines()[1:] == lines, "a field of a later release was lost"
    assert [e["body"] for e in second.evaluate("store.events('theirs')")] == [BODY, BODY]
    assert second.evaluate("store.onlyInFile('theirs')") == 2


def test_unknown_kinds_and_fields_come_out_of_two_phones_as_they_went_in(phone: NewPhone) -> None:
    newer_fields_go_through(phone)


def test_a_store_that_drops_fields_it_does_not_know_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="was lost"):
        newer_fields_go_through(phone, FIELDS_DROPPED)


def a_changed_time_is_told(phone: NewPhone, *bugs: Bug) -> None:
    text = exported_by(phone(), "one", "two").replace('"kind":"note made"', '"kind":"note mode"', 1)
    result = import_text(phone(*bugs).tab(), text)
    assert any("was changed after it was saved" in s for s in result["refused"]), "not told"


def test_a_change_outside_the_bodies_is_told(phone: NewPhone) -> None:
    a_changed_time_is_told(phone)


def test_a_store_that_does_not_read_the_hash_of_the_file_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="not told"):
        a_changed_time_is_told(phone, HEADING_UNREAD)


def test_ends_of_lines_that_a_messenger_changed_are_no_damage(phone: NewPhone) -> None:
    text = exported_by(phone(), "one", "two")
    tab = phone().tab()
    assert import_text(tab, "\ufeff" + text.replace("\n", "\r\n"))["refused"] == []
    assert texts(tab, "job") == ["one", "two"]


def test_a_file_of_200_megabytes_is_refused_unread(phone: NewPhone) -> None:
    tab = phone().tab()
    append(tab, "job", "here")
    sentence = failure(
        tab,
        """{
        const file = new Blob(Array(200).fill(new Uint8Array(1e6)));
        file.arrayBuffer = () => { throw new Error("it was read"); };
        return store.importFile(file);
    }""",
    )
    assert sentence.startswith("StorageProblem: It is larger than 50 MB. Choose a file")
    assert texts(tab, "job") == ["here"]


def test_a_file_that_is_gone_is_told(phone: NewPhone) -> None:
    gone = """{
        const file = new Blob(["x"]);
        file.arrayBuffer = () => Promise.reject(new DOMException("", "NotFoundError"));
        return store.importFile(file);
    }"""
    assert "could not be read. Copy it onto this phone" in failure(phone().tab(), gone)
