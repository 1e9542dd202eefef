"""Photos: stored with their entry or not at all, carried by files, and gone with their job."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page
from storage_bugs import Bug, script
from storage_ends import crash, halt_in_save
from storage_rig import Phone, append, append_photo, events, failure, import_text, photo, state
from test_storage_full import allow

NewPhone = Callable[..., Phone]

SAID_AND_LOST = Bug(
    "photos.ts",
    'await tx.objectStore("photos").put(photo.bytes, [job, photo.name]);',
    "await Promise.resolve();",
)
STORED_APART = Bug(
    "append.ts",
    'const saved = await inOneTransaction(db, async (tx) => {\n    steps.at("transaction opened");',
    """for (const { job, photo } of drafts)
      if (photo) await inOneTransaction(db, (tx) => putPhoto(tx, job, photo));
    const saved = await inOneTransaction(db, async (tx) => {
    steps.at("transaction opened");""",
)
NAME_UNREAD = Bug(
    "photos.ts",
    "return (await sha256(bytes)) === name ? { name, bytes } : undefined;",
    "return { name, bytes };",
)
KIND_UNKNOWN = Bug("photos.ts", '"connector photographed"', '"not known yet"')
"""As in a release from before there were photos."""

ROWS = """new Promise((done) => {
    const asked = indexedDB.open("footwell");
    asked.onsuccess = () => {
        const all = asked.result.transaction("photos").objectStore("photos").getAllKeys();
        all.onsuccess = () => { asked.result.close(); done(all.result.length); };
    };
})"""


def saved_and_reloaded(phone: Phone) -> None:
    tab = phone.tab()
    name = append_photo(tab, "job", "seen")
    tab.reload()
    tab.evaluate("store.open()")
    assert "seen" in photo(tab, "job", name), "the photo that was said to be saved is gone"


def test_a_photo_that_was_saved_is_there_after_a_reload(phone: NewPhone) -> None:
    saved_and_reloaded(phone())


def test_a_photo_that_was_said_to_be_saved_and_is_lost_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="is gone"):
        saved_and_reloaded(phone(SAID_AND_LOST))


def page_dies_with_a_photo(phone: Phone, step: str) -> None:
    tab = phone.tab()
    halt_in_save(tab, step, [{"job": "job", "photo": "seen"}])
    crash(tab)
    tab = phone.tab()
    kept, rows = len(events(tab, "job")), tab.evaluate(ROWS)
    assert kept == rows, "the one is there without the other"
    assert step != "said" or kept == 1, "what was said to be saved is gone"


@pytest.mark.parametrize("step", ["photo written", "event written", "said"])
def test_a_page_that_dies_in_a_save_leaves_photo_and_entry_or_neither(
    phone: NewPhone, step: str
) -> None:
    page_dies_with_a_photo(phone(), step)


def test_a_photo_stored_apart_from_its_entry_is_found_out_when_the_page_dies(
    phone: NewPhone,
) -> None:
    with pytest.raises(AssertionError, match="without the other"):
        page_dies_with_a_photo(phone(STORED_APART), "event written")


def test_a_photo_under_a_name_that_is_not_its_own_is_not_stored(phone: NewPhone) -> None:
    tab = phone().tab()
    wrong = """photographed("job", "seen").then((one) =>
        store.appendMany([{ ...one, body: { ...one.body, sha256: "0".repeat(64) } }]))"""
    assert "does not name this photo" in failure(tab, wrong)
    assert (events(tab, "job"), tab.evaluate(ROWS)) == ([], 0)


def test_full_storage_leaves_no_photo_without_entry_and_is_told(phone: NewPhone) -> None:
    here = phone()
    keeper = here.blank()
    allow(keeper, 1_000_000)
    tab = here.tab()
    fill = """(async () => {
        for (let i = 0; i < 30; i += 1)
            await store.appendMany([await photographed("job", `${i}`, 150_000)]);
    })()"""
    assert "no room left" in failure(tab, fill)
    assert "no room left" in state(tab)["full"]
    assert len(events(tab, "job")) == tab.evaluate(ROWS) > 0


def a_phone_with_two(phone: Phone) -> tuple[Page, list[str], str]:
    """A page, the names of two photos in it, and its file."""
    tab = phone.tab()
    names = [append_photo(tab, "job", word) for word in ("first", "second")]
    append(tab, "job", "a note")
    return tab, names, tab.evaluate("store.exportText()")


def test_a_file_carries_photos_and_the_same_file_twice_adds_them_once(phone: NewPhone) -> None:
    _, names, text = a_phone_with_two(phone())
    tab = phone().tab()
    once, twice = import_text(tab, text), import_text(tab, text)
    assert (len(once["events"]), once["photos"], once["refused"]) == (3, 2, [])
    assert (len(twice["events"]), twice["photos"], twice["refused"]) == (0, 0, [])
    assert "second" in photo(tab, "job", names[1])
    assert tab.evaluate("store.exportText()") == text


def with_other_photo(text: str, line: int, jpeg: str) -> str:
    lines = text.splitlines()
    lines[line - 1] = json.dumps(json.loads(lines[line - 1]) | {"jpeg": jpeg})
    return "\n".join(lines)


def a_spoilt_photo_is_refused(phone: NewPhone, *bugs: Bug) -> None:
    _, names, text = a_phone_with_two(phone())
    second: dict[str, Any] = json.loads(text.splitlines()[2])
    tab = phone(*bugs).tab()
    result = import_text(tab, with_other_photo(text, 2, second["jpeg"]))
    assert photo(tab, "job", names[0]) == "", "another photo was taken for it"
    told = "The photo in line 2 is damaged and was left out; its entry is here."
    assert result["refused"][1:] == [told]
    assert (len(result["events"]), result["photos"]) == (3, 1)
    again = import_text(tab, text)
    assert (len(again["events"]), again["photos"], again["refused"]) == (0, 1, [])
    assert "first" in photo(tab, "job", names[0])


def test_a_photo_of_another_name_is_refused_and_the_rest_of_the_file_taken(phone: NewPhone) -> None:
    a_spoilt_photo_is_refused(phone)


def test_an_import_that_does_not_read_the_name_of_a_photo_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="taken for it"):
        a_spoilt_photo_is_refused(phone, NAME_UNREAD)


def test_what_was_removed_stays_for_undo_and_is_not_handed_on(phone: NewPhone) -> None:
    tab, names, _ = a_phone_with_two(phone())
    [first] = [event for event in events(tab, "job") if event["n"] == 1]
    undo = "body => store.append('job', 'event withdrawn', body)"
    taken = tab.evaluate(undo, {"device": first["device"], "n": 1})
    assert "first" in photo(tab, "job", names[0])
    assert tab.evaluate("store.exportText()").count('"jpeg"') == 1
    tab.evaluate(undo, {"device": taken["device"], "n": taken["n"]})
    assert tab.evaluate("store.exportText()").count('"jpeg"') == 2


def test_a_release_without_photos_hands_them_on_and_they_show_after_its_update(
    phone: NewPhone,
) -> None:
    _, names, text = a_phone_with_two(phone())
    older = phone(KIND_UNKNOWN)
    tab = older.tab()
    assert import_text(tab, text)["refused"] == []
    assert tab.evaluate("store.exportText()") == text
    assert tab.evaluate(ROWS) == 0
    tab.close()
    newer = Phone(older.context, script())
    tab = newer.tab()
    assert "first" in photo(tab, "job", names[0])
    assert tab.evaluate("store.exportText()") == text
    newer.branches.write()


def test_an_entry_that_names_its_photo_wrongly_is_kept_and_carries_none(phone: NewPhone) -> None:
    tab = phone().tab()
    tab.evaluate("store.append('job', 'connector photographed', { sha256: 'F'.repeat(64) })")
    assert len(events(tab, "job")) == 1
    text = tab.evaluate("store.exportText()")
    assert "FFFF" in text and '"jpeg"' not in text
