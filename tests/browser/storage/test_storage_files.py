"""Files of events: out, in, twice, damaged, contradicting. Nothing stored is overwritten."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable

import pytest
from storage_bugs import Bug
from storage_rig import (
    Phone,
    append,
    exported_by,
    failure,
    import_text,
    state,
    texts,
)

NewPhone = Callable[..., Phone]

LAST_WINS = (
    Bug("exchange.ts", "if (here) continue;", ""),
    Bug(
        "exchange.ts",
        'await tx.objectStore("events").add(event);',
        """const key = await tx.objectStore("events").index("id").getKey([event.device, event.n]);
    await tx.objectStore("events").put(event, key);""",
    ),
)
NEVER_BEHIND = Bug(
    "exchange.ts", "if (!isBehind(phone, events)) return phone;", "if (phone) return phone;"
)
HASH_UNREAD = Bug("file.ts", " || hash !== (await sha256(body))", " || !isName(hash, 64)")


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


OLDER_COPY = """() => new Promise((done) => {
    const asked = indexedDB.open("footwell");
    asked.onsuccess = () => {
        const tx = asked.result.transaction(["events", "phone"], "readwrite");
        const phone = tx.objectStore("phone");
        phone.get("self").onsuccess = ({ target }) => {
            phone.put({ ...target.result, n: 1 }, "self");
            const last = tx.objectStore("events").openCursor(null, "prev");
            last.onsuccess = () => last.result.delete();
        };
        tx.oncomplete = () => { asked.result.close(); done(); };
    };
})"""
"""The store as it was before its second entry."""


def a_phone_put_back_is_filled_from_its_later_file(phone: Phone) -> None:
    text = exported_by(phone, "one", "two")
    phone.context.pages[0].close()
    phone.blank().evaluate(OLDER_COPY)
    tab = phone.tab()
    assert texts(tab, "job") == ["one"]
    import_text(tab, text)
    save = "store.append('job', 'note made', { text: 'three' })"
    assert failure(tab, save) == "", "a number was given twice"
    assert texts(tab, "job") == ["one", "two", "three"]
    assert state(tab) == "ready"


def test_a_phone_put_back_to_an_older_copy_goes_on_as_a_new_one_after_its_later_file(
    phone: NewPhone,
) -> None:
    a_phone_put_back_is_filled_from_its_later_file(phone())


def test_an_import_that_goes_on_with_taken_numbers_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="given twice"):
        a_phone_put_back_is_filled_from_its_later_file(phone(NEVER_BEHIND))


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
    changed, conflict = result["refused"]
    assert changed.startswith("The file was changed after it was saved.")
    assert conflict == (
        "Line 3 bears the number of another entry stored here. "
        "It was left out; what is stored is unchanged."
    )


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
        "The file is cut off: of 4 entries it holds 3. "
        "Have it sent or save it once more, and open that too: nothing comes twice.",
        "Line 3 is damaged and was left out.",
        "Line 4 is damaged and was left out.",
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
        (" \n", "It is empty: nothing of it arrived."),
        ("a shopping list\nmilk", "It holds no jobs of Footwell."),
        ("[" * 100_000, "It holds no jobs of Footwell."),
        (
            '{"footwell":"events","format":2,"count":1}\n',
            "It was made by a newer Footwell. Update this one, then open the file again.",
        ),
    ],
    ids=["empty", "no export", "brackets", "newer format"],
)
def test_a_file_that_is_no_export_is_refused_whole(phone: NewPhone, text: str, reason: str) -> None:
    sentence = failure(phone().tab(), "store.importText(argument)", text)
    assert sentence.startswith(f"StorageProblem: {reason}")
