"""Erasing one job or the phone: afterwards a word of it is found nowhere."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page
from storage_bugs import Bug
from storage_rig import (
    Phone,
    append,
    append_photo,
    exported_by,
    failure,
    foreign,
    import_text,
    state,
    texts,
)
from waiting import until

NewPhone = Callable[..., Phone]

MARKER = "zebra-7741"
GONE = "Not saved: this job has been erased from this phone, in another tab."

BODY_LEFT = Bug(
    "erase.ts", 'at: "", ...nothing }', 'at: "", sha256: nothing.sha256, body: event.body }'
)
PHOTO_LEFT = Bug("erase.ts", 'await tx.objectStore("photos").delete(photosOf(job));', "")
PHONE_PHOTOS_LEFT = Bug("index.ts", 'await tx.objectStore("photos").clear();', "")
FORGET = "    forgetKept(job);\n"
ERASE = "    await this.connection.use((db) => inOneTransaction(db, work));\n"
DRAFTS_LEFT = Bug("index.ts", FORGET + ERASE + FORGET, ERASE)
DRAFTS_GO_LAST = Bug("index.ts", FORGET + ERASE, ERASE)
BEGUN_ANEW = Bug("append.ts", "into !== undefined && !(await isHere(tx, into))", "false")
NOTED_ANYWAY = (
    Bug("index.ts", "    else noteStored(saved);\n", "    noteStored(saved);\n"),
    Bug("index.ts", "noted?.device === found.phone.erased", "false"),
)
IMAGE_LEFT = Bug("index.ts", "    await eraseImages();\n", "")
IMAGE = "caches.open('footwell-image').then((it) => it.put('/image/memory', new Response(marker)))"

EVERYWHERE = """async marker => {
    const found = [];
    const asText = (_, it) => (it instanceof Uint8Array ? String.fromCharCode(...it) : it);
    const seen = (where, value) => {
        if (JSON.stringify(value ?? null, asText).includes(marker)) found.push(where);
    };
    for (const { name } of await indexedDB.databases()) {
        const db = await new Promise((done) => {
            const asked = indexedDB.open(name);
            asked.onsuccess = () => done(asked.result);
        });
        for (const store of db.objectStoreNames) {
            const rows = db.transaction(store).objectStore(store);
            for (const ask of [rows.getAll(), rows.getAllKeys()])
                seen(`${name}/${store}`, await new Promise((done) => {
                    ask.onsuccess = () => done(ask.result);
                }));
        }
        db.close();
    }
    seen("localStorage", { ...localStorage });
    seen("sessionStorage", { ...sessionStorage });
    for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
            seen(`cache ${name}`, request.url);
            seen(`cache ${name}`, await (await cache.match(request)).text());
        }
    }
    seen("file", await store.exportText());
    return found;
}"""


def places(page: Page) -> list[str]:
    found: list[str] = page.evaluate(EVERYWHERE, MARKER)
    return found


def keep(page: Page, name: str, value: Any) -> None:
    page.evaluate("([k, v]) => localStorage.setItem(k, JSON.stringify(v))", [name, value])


def a_job_with_the_marker(phone: Phone) -> Page:
    """Saved, exported, adopted from elsewhere, half typed, and in the kept view."""
    tab = phone.tab()
    append(tab, "job-a", MARKER, "more")
    append(tab, "job-b", "other")
    append_photo(tab, "job-a", MARKER)
    tab.evaluate("store.noteExported()")
    keep(tab, "footwell.view", {"job": "job-a", "view": MARKER})
    keep(tab, "footwell.draft.story.job-a", MARKER)
    keep(tab, "footwell.draft.story.job-b", "unfinished")
    keep(tab, "footwell.theme", "dark")
    assert {"footwell/events", "footwell/photos", "localStorage", "file"} <= set(places(tab))
    return tab


def image_with_the_marker(tab: Page) -> None:
    """No image holds a word of a job; if one did, erasing the phone would take it too."""
    tab.evaluate(f"(marker) => {IMAGE}", MARKER)
    assert "cache footwell-image" in places(tab)


def one_job_is_erased(phone: Phone) -> None:
    tab = a_job_with_the_marker(phone)
    tab.evaluate("store.eraseJob('job-a')")
    assert places(tab) == [], "a word of the job is still there"
    assert [job["id"] for job in tab.evaluate("store.jobs()")] == ["job-b"]
    assert texts(tab, "job-b") == ["other"]
    assert "unfinished" in tab.evaluate("localStorage['footwell.draft.story.job-b']")
    [next_event] = append(tab, "job-b", "after")
    assert next_event["n"] == 5, "a number was given twice"
    tab.close()
    assert state(phone.tab()) == "ready", "what was erased is told as lost"


def test_of_an_erased_job_no_word_is_left_and_other_jobs_stay(phone: NewPhone) -> None:
    one_job_is_erased(phone())


@pytest.mark.parametrize(
    "bug", [BODY_LEFT, DRAFTS_LEFT, PHOTO_LEFT], ids=["body", "drafts", "photo"]
)
def test_an_erasing_that_leaves_something_is_found_out(phone: NewPhone, bug: Bug) -> None:
    with pytest.raises(AssertionError, match="still there"):
        one_job_is_erased(phone(bug))


def the_phone_is_erased(phone: Phone) -> None:
    tab = a_job_with_the_marker(phone)
    image_with_the_marker(tab)
    tab.evaluate("store.erasePhone()")
    assert places(tab) == [], "a word of a job is still there"
    assert tab.evaluate("Object.keys(localStorage).sort()") == [
        "footwell.theme",
        "footwell.witness",
    ]
    tab.close()
    assert state(phone.tab()) == "ready"


def test_of_an_erased_phone_no_word_is_left(phone: NewPhone) -> None:
    the_phone_is_erased(phone())


@pytest.mark.parametrize(
    "bug", [DRAFTS_LEFT, IMAGE_LEFT, PHONE_PHOTOS_LEFT], ids=["drafts", "image", "photos"]
)
def test_an_erased_phone_with_something_left_is_found_out(phone: NewPhone, bug: Bug) -> None:
    with pytest.raises(AssertionError, match="still there"):
        the_phone_is_erased(phone(bug))


LEFT_WHEN_GONE = """async ([marker, erase]) => {
    const original = IDBDatabase.prototype.transaction;
    let left;
    IDBDatabase.prototype.transaction = function (...arguments_) {
        const tx = original.apply(this, arguments_);
        if (arguments_[1] === "readwrite") tx.addEventListener("complete", () => {
            left ??= JSON.stringify({ ...localStorage }).includes(marker);
        });
        return tx;
    };
    await (erase === "job" ? store.eraseJob("job-a") : store.erasePhone());
    return left;
}"""
"""Whether a word lies beside the store at the moment when it is gone from it: the page may die there."""


def the_page_dies_in_an_erasing(phone: Phone, erase: str) -> None:
    left = a_job_with_the_marker(phone).evaluate(LEFT_WHEN_GONE, [MARKER, erase])
    assert left is False, "beside the store more is left than in it"


@pytest.mark.parametrize("erase", ["job", "phone"])
def test_a_page_that_dies_in_an_erasing_leaves_nothing_of_what_is_gone(
    phone: NewPhone, erase: str
) -> None:
    the_page_dies_in_an_erasing(phone(), erase)


@pytest.mark.parametrize("erase", ["job", "phone"])
def test_an_erasing_that_begins_with_the_store_is_found_out(phone: NewPhone, erase: str) -> None:
    with pytest.raises(AssertionError, match="more is left"):
        the_page_dies_in_an_erasing(phone(DRAFTS_GO_LAST), erase)


HELD_BACK = """() => {
    const settle = store.settle.bind(store);
    const gate = new Promise((open) => { globalThis.goOn = open; });
    store.settle = (saved) => gate.then(() => settle(saved));
    globalThis.saving = store.append("job-b", "note made", { text: "late" });
}"""
"""A save whose page stands still once the browser has it safe."""


def the_phone_is_erased_while_another_tab_saves(phone: Phone) -> None:
    tab = a_job_with_the_marker(phone)
    other = phone.tab()
    other.evaluate(HELD_BACK)
    until(tab, "store.events('job-b').then((all) => all.some(({ body }) => body.includes('late')))")
    tab.evaluate("store.erasePhone()")
    other.evaluate("() => { goOn(); return saving.then(() => {}); }")
    assert state(other) == "ready"
    assert state(phone.tab()) == "ready", "what was erased is told as lost"


def test_a_phone_erased_in_the_middle_of_another_tabs_save_misses_nothing(phone: NewPhone) -> None:
    the_phone_is_erased_while_another_tab_saves(phone())


def test_a_save_that_is_noted_after_the_erasing_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="told as lost"):
        the_phone_is_erased_while_another_tab_saves(phone(*NOTED_ANYWAY))


LATE = "store.appendMany([{ job: 'job', kind: 'note made', body: { text: 'late' } }], 'job')"


def another_tab_saves_into_an_erased_job(phone: Phone) -> None:
    tab, other = phone.tab(), phone.tab()
    append(tab, "job", "one")
    append(tab, "kept", "two")
    assert failure(other, LATE) == ""
    tab.evaluate("store.eraseJob('job')")
    told = failure(other, LATE)
    assert [job["id"] for job in tab.evaluate("store.jobs()")] == ["kept"], "the job is there again"
    assert told == f"StorageProblem: {GONE}"
    [after] = append(tab, "kept", "three")
    assert after["n"] == 4, "a refused save has taken a number"
    assert state(phone.tab()) == "ready"


def test_a_save_into_a_job_that_another_tab_erased_is_refused(phone: NewPhone) -> None:
    another_tab_saves_into_an_erased_job(phone())


def test_a_save_that_begins_an_erased_job_anew_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="there again"):
        another_tab_saves_into_an_erased_job(phone(BEGUN_ANEW))


def test_an_erased_job_comes_back_from_its_file_once_and_whole(phone: NewPhone) -> None:
    tab = phone().tab()
    append(tab, "job", "one", "two")
    text = tab.evaluate("store.exportText('job')")
    tab.evaluate("store.eraseJob('job')")
    result = import_text(tab, text)
    assert (len(result["events"]), result["refused"]) == (2, [])
    assert tab.evaluate("store.exportText('job')") == text


def test_a_file_of_a_phone_with_an_erased_job_erases_nothing_elsewhere(phone: NewPhone) -> None:
    first = phone().tab()
    append(first, "job", "one")
    append(first, "kept", "two")
    before = first.evaluate("store.exportText()")
    first.evaluate("store.eraseJob('job')")
    after = first.evaluate("store.exportText()")
    second = phone().tab()
    import_text(second, before)
    result = import_text(second, after)
    assert (len(result["events"]), result["refused"]) == (0, [])
    assert texts(second, "job") == ["one"]


def test_an_adopted_job_is_erased_with_its_first_names(phone: NewPhone) -> None:
    tab = phone().tab()
    theirs = [foreign(1, "note made", '{"text":"x"}', device=MARKER)]
    tab.evaluate("events => store.adopt(events, 'mine')", theirs)
    tab.evaluate("store.eraseJob('mine')")
    assert places(tab) == []


def test_what_is_in_no_saved_file_is_counted_job_by_job(phone: NewPhone) -> None:
    tab = phone().tab()
    append(tab, "a", "one", "two")
    append(tab, "b", "three")
    counted = "store.unexported().then((counts) => Object.fromEntries(counts))"
    assert tab.evaluate(counted) == {"a": 2, "b": 1}
    tab.evaluate("store.noteExported('a')")
    append(tab, "a", "four")
    assert tab.evaluate(counted) == {"a": 1, "b": 1}
    tab.evaluate("store.noteExported(undefined, new Set(['a']))")
    assert tab.evaluate(counted) == {"a": 1, "b": 0}, "photos of a were left out of that file"
    tab.evaluate("store.noteExported()")
    assert tab.evaluate(counted) == {"a": 0, "b": 0}


def test_an_imported_file_counts_as_saved_nowhere(phone: NewPhone) -> None:
    tab = phone().tab()
    import_text(tab, exported_by(phone(), "one"))
    assert tab.evaluate("store.unexported().then((counts) => [...counts])") == [["job", 1]]
