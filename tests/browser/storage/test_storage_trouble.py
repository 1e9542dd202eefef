"""Storage that is taken away, full, refused or emptied: nothing earlier is lost, and it is said."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from chromium import OPTIONS
from playwright.sync_api import Page, Playwright
from storage_rig import (
    LONG,
    SITE,
    Bug,
    Phone,
    append,
    events,
    failure,
    script,
    state,
    texts,
)

NewPhone = Callable[..., Phone]

NOT_REPEATED = Bug("database.ts", "if (!isLostConnection(fault)) throw", "throw")
REPEATED_BLINDLY = Bug("append.ts", "(again && (await alreadyStored(tx, drafts))) ||", "")
REPEATED_FOR_EVER = Bug(
    "database.ts",
    "return this.useAgain(work);",
    "return this.use(work);",
)
FULL_IS_FINE = (
    Bug("database.ts", "    if (fault) throw fault;\n", ""),
    Bug("database.ts", "throw await reasonOf(tx, ended, fault);", "return undefined as T;"),
)
REFUSED_IS_FINE = Bug("index.ts", "this.state.value = { failed: sentenceOf(fault) };", "")
NOT_MISSED = Bug("witness.ts", "if (!noted) return", "if (!noted || noted) return")
NOT_LOOKED_AT_AGAIN = Bug(
    "index.ts", 'if (this.state.value !== "ready" || isDoubtful(saved))', "if (false)"
)

# ---- the connection is taken away


CLOSE_NOW_AND_THEN = """(seed) => {
    const original = IDBDatabase.prototype.transaction;
    let last;
    IDBDatabase.prototype.transaction = function (...arguments_) {
        last = { db: this, tx: original.apply(this, arguments_) };
        return last.tx;
    };
    let state = seed;
    const chance = () => (state = (state * 48271) % 2147483647) / 2147483647;
    globalThis.losses = 0;
    let quiet = 0;
    steps.at = (step) => {
        quiet -= 1;
        // At most one loss in a save: a second in a row may be told instead of repeated.
        if (quiet > 0 || chance() > 0.1 || ["complete", "witness written"].includes(step)) return;
        quiet = 14;
        losses += 1;
        last?.db.close();
        if (chance() < 0.5 && step !== "asked" && step !== "hashed" && step !== "others told") {
            last?.tx.abort();
        }
    };
}"""


def connection_closes_now_and_then(phone: Phone, saves: int) -> None:
    tab = phone.tab()
    tab.evaluate(CLOSE_NOW_AND_THEN, 11)
    words = [str(i) for i in range(saves)]
    refused = tab.evaluate(
        """async (words) => {
            let refused = 0;
            for (const text of words) {
                await store.append("job", "note made", { text }).catch(() => { refused += 1; });
            }
            return refused;
        }""",
        words,
    )
    assert tab.evaluate("losses") > saves / 20
    assert refused == 0, "a lost connection was not repeated"
    assert texts(tab, "job") == words
    assert [event["n"] for event in events(tab, "job")] == list(range(1, saves + 1))


def test_saves_go_on_when_the_connection_is_closed_at_random(phone: NewPhone) -> None:
    connection_closes_now_and_then(phone(), 1000 if LONG else 250)


def test_a_store_that_gives_up_at_once_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="was not repeated"):
        connection_closes_now_and_then(phone(NOT_REPEATED), 100)


def the_answer_to_a_save_is_lost(phone: Phone) -> None:
    tab = phone.tab()
    append(tab, "job", "twin")
    tab.evaluate("loseConnection('complete', 1)")
    [first, second] = append(tab, "job", "twin", "twin")
    assert [first["n"], second["n"]] == [2, 3]
    assert texts(tab, "job") == ["twin"] * 3


def test_a_save_whose_answer_was_lost_is_not_stored_twice(phone: NewPhone) -> None:
    the_answer_to_a_save_is_lost(phone())


def test_a_save_repeated_blindly_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        the_answer_to_a_save_is_lost(phone(REPEATED_BLINDLY))


def the_connection_is_lost_twice(phone: Phone) -> None:
    tab = phone.tab()
    append(tab, "job", "before")
    tab.evaluate("loseConnection('number taken', 2)")
    sentence = failure(tab, "store.append('job', 'note made', { text: 'lost' })")
    assert sentence.startswith("StorageProblem: Not saved: the browser closed the store twice")
    assert texts(tab, "job") == ["before"]
    append(tab, "job", "after")
    assert texts(tab, "job") == ["before", "after"]


def test_a_connection_lost_twice_in_a_row_is_told_and_nothing_is_half_stored(
    phone: NewPhone,
) -> None:
    the_connection_is_lost_twice(phone())


def test_a_store_that_never_tells_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        the_connection_is_lost_twice(phone(REPEATED_FOR_EVER))


# ---- full


def allow(tab: Page, size: int | None) -> None:
    """The browser's allowance for the site, in bytes. An open database keeps the one it began with."""
    allowance = {"origin": SITE, **({} if size is None else {"quotaSize": size})}
    tab.context.new_cdp_session(tab).send("Storage.overrideQuotaForOrigin", allowance)


# Random, because the browser compresses what it stores.
FILL_UP = """async () => {
    globalThis.said = 0;
    for (let i = 0; i < 100; i += 1) {
        const bytes = crypto.getRandomValues(new Uint8Array(20_000));
        const text = Array.from(bytes, (byte) => byte.toString(16)).join("");
        await store.append("heavy", "note made", { text });
        said += 1;
    }
}"""


def storage_gets_full(phone: Phone) -> None:
    keeper = phone.blank()
    allow(keeper, 1_000_000)
    tab = phone.tab()
    append(tab, "job", "one", "two")
    sentence = failure(tab, f"({FILL_UP})()")
    assert "no room left" in sentence, "a save without room was said to be saved"
    assert "no room left" in state(tab)["full"]
    assert texts(tab, "job") == ["one", "two"]
    assert tab.evaluate("store.exportText('job')").count("note made") == 2
    kept = tab.evaluate("store.jobs()")
    assert [job["id"] for job in kept] == ["heavy", "job"]
    assert [job["count"] for job in kept] == [tab.evaluate("said"), 2]
    tab.close()
    allow(keeper, None)
    tab = phone.tab()
    assert state(tab) == "ready"
    assert tab.evaluate("store.jobs()") == kept
    assert texts(tab, "job") == ["one", "two"]


def test_full_storage_is_told_and_everything_earlier_can_be_read_and_exported(
    phone: NewPhone,
) -> None:
    storage_gets_full(phone())


def test_a_store_that_overlooks_full_storage_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="without room was said to be saved"):
        storage_gets_full(phone(*FULL_IS_FINE))


def test_a_body_that_is_too_long_is_told_and_not_stored(phone: NewPhone) -> None:
    tab = phone().tab()
    sentence = failure(tab, "store.append('job', 'note made', { text: 'x'.repeat(65536) })")
    assert sentence == (
        'StorageProblem: Not saved: "note made" holds 65547 characters and may hold 65536. '
        "Shorten it and save again."
    )
    assert events(tab, "job") == []


# ---- refused

REFUSALS = {
    "no database at all": "delete Window.prototype.indexedDB; delete window.indexedDB;",
    "opening throws": """
        IDBFactory.prototype.open = () => { throw new DOMException("no", "SecurityError"); };
    """,
}


def storage_is_refused(phone: Phone, refusal: str) -> None:
    tab = phone.tab(refusal)
    assert state(tab) != "opening", "the refusal was not told"
    assert "does not let Footwell store anything" in state(tab)["failed"]
    sentence = failure(tab, "store.append('job', 'note made', { text: 'x' })")
    assert "does not let Footwell store anything" in sentence


@pytest.mark.parametrize("refusal", REFUSALS.values(), ids=REFUSALS.keys())
def test_refused_storage_is_told(phone: NewPhone, refusal: str) -> None:
    storage_is_refused(phone(), refusal)


def test_a_store_that_keeps_a_refusal_to_itself_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="was not told"):
        storage_is_refused(phone(REFUSED_IS_FINE), REFUSALS["no database at all"])


def test_a_browser_set_to_keep_no_site_data_is_told(browsers: Playwright, tmp_path: Path) -> None:
    settings = {"profile": {"default_content_setting_values": {"cookies": 2}}}
    (tmp_path / "Default").mkdir()
    (tmp_path / "Default/Preferences").write_text(json.dumps(settings))
    context = browsers.chromium.launch_persistent_context(tmp_path, **OPTIONS)
    tab = Phone(context, script()).tab()
    shown = state(tab)
    context.close()
    assert "does not let Footwell store anything" in shown["failed"]


def test_a_newer_release_in_another_tab_is_told(phone: NewPhone) -> None:
    here = phone()
    tab = here.tab()
    append(tab, "job", "before")
    here.blank().evaluate("""() => new Promise((done, fail) => {
        const request = indexedDB.open("footwell", 2);
        request.onsuccess = () => done();
        request.onerror = fail;
    })""")
    assert "A newer Footwell" in failure(tab, "store.append('job', 'note made', { text: 'x' })")


# ---- emptied

DROP = """() => new Promise((done, fail) => {
    const request = indexedDB.deleteDatabase("footwell");
    request.onsuccess = () => done();
    request.onerror = fail;
})"""

GO_BACK = """() => new Promise((done) => {
    indexedDB.open("footwell").onsuccess = ({ target }) => {
        const tx = target.result.transaction(["events", "phone"], "readwrite");
        tx.objectStore("events").delete(3);
        tx.objectStore("phone").get("self").onsuccess = ({ target: { result } }) =>
            tx.objectStore("phone").put({ ...result, n: 2 }, "self");
        tx.oncomplete = () => { target.result.close(); done(); };
    };
})"""


def store_is_damaged(phone: Phone, damage: str, gone: int) -> None:
    tab = phone.tab()
    append(tab, "job", "one", "two", "three")
    tab.close()
    phone.blank().evaluate(damage)
    tab = phone.tab()
    assert state(tab) != "ready", "the loss was not noticed"
    assert f"{gone} of 3 entries stored on this phone are gone" in state(tab)["emptied"]
    assert "Nothing was exported from this phone" in state(tab)["emptied"]


@pytest.mark.parametrize(("damage", "gone"), [(DROP, 3), (GO_BACK, 1)], ids=["emptied", "set back"])
def test_a_store_that_lost_saved_work_is_noticed(phone: NewPhone, damage: str, gone: int) -> None:
    store_is_damaged(phone(), damage, gone)


def test_a_store_without_a_witness_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="was not noticed"):
        store_is_damaged(phone(NOT_MISSED), DROP, 3)


def test_a_new_phone_is_not_taken_for_an_emptied_one(phone: NewPhone) -> None:
    here = phone()
    assert state(here.tab()) == "ready"
    assert state(here.tab()) == "ready"


def test_an_emptied_phone_works_and_names_the_last_export(phone: NewPhone) -> None:
    here = phone()
    tab = here.tab()
    append(tab, "job", "one", "two")
    tab.evaluate("store.noteExported()")
    day = tab.evaluate("store.lastExport").split("T")[0]
    tab.close()
    here.blank().evaluate(DROP)
    tab = here.tab()
    assert f"Open your last export, made on {day}" in state(tab)["emptied"]
    append(tab, "job", "more", "than", "before")
    assert "emptied" in state(tab), "the notice stays until it is answered"
    tab.reload()
    tab.evaluate("store.open()")
    assert "emptied" in state(tab), "new work hides the loss of old"
    tab.evaluate("store.goOn()")
    assert state(tab) == "ready"
    tab.close()
    assert state(here.tab()) == "ready"


def store_is_emptied_under_the_page(phone: Phone) -> None:
    tab = phone.tab()
    append(tab, "job", "one", "two")
    assert state(tab) == "ready"
    tab.context.new_cdp_session(tab).send(
        "Storage.clearDataForOrigin", {"origin": SITE, "storageTypes": "indexeddb"}
    )
    append(tab, "job", "more", "than", "before")
    assert state(tab) != "ready", "the loss was not noticed"
    assert "2 of 2 entries stored on this phone are gone" in state(tab)["emptied"]


def test_a_store_emptied_under_the_open_page_is_noticed_at_the_next_save(phone: NewPhone) -> None:
    store_is_emptied_under_the_page(phone())


def test_a_page_that_looks_only_at_its_start_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="was not noticed"):
        store_is_emptied_under_the_page(phone(NOT_LOOKED_AT_AGAIN))


def test_an_erased_phone_holds_nothing_and_misses_nothing(phone: NewPhone) -> None:
    here = phone()
    tab = here.tab()
    [before] = append(tab, "job", "a name to be forgotten")
    tab.evaluate("store.erasePhone()")
    assert "forgotten" not in tab.evaluate("store.exportText()")
    assert tab.evaluate("store.jobs()") == []
    tab.close()
    tab = here.tab()
    assert state(tab) == "ready"
    [after] = append(tab, "job", "new")
    assert after["n"] == 1
    assert after["device"] != before["device"]
