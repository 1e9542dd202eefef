"""A store that lost saved work is told from that of a new phone."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from counts import counted
from playwright.sync_api import Error
from storage_bugs import Bug
from storage_rig import SITE, Phone, append, state, texts

NewPhone = Callable[..., Phone]

NOT_MISSED = Bug("witness.ts", "if (!noted) return", "if (!noted || noted) return")
NOT_LOOKED_AT_AGAIN = Bug(
    "index.ts", 'if (this.state.value !== "ready" || isDoubtful(saved))', "if (false)"
)


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

NOT_OPENED_AGAIN = Bug("database.ts", "if (isCutOff(fault)) return this.openDatabase();", "")

TAKEN_FOR_REFUSED = Bug("problems.ts", " || isCutOff(fault))", ")")

# As the browser does while it still clears the site's data.
CUT_OFF_THE_NEXT_OPENING = """() => {
    const original = IDBFactory.prototype.open;
    IDBFactory.prototype.open = function (...asked) {
        IDBFactory.prototype.open = original;
        const request = original.apply(this, asked);
        request.addEventListener("upgradeneeded", () => request.transaction.abort());
        return request;
    };
}"""

SAVE_WITHOUT_END = """() => {
    globalThis.refused = [];
    globalThis.stop = false;
    globalThis.saving = (async () => {
        let saved = 0;
        while (!stop) {
            await store.append("job", "note made", { text: `${saved}` }).then(
                () => { saved += 1; },
                (fault) => refused.push(fault.message),
            );
        }
    })();
}"""


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


def store_is_emptied_while_it_saves(phone: Phone, times: int) -> None:
    """Now and then the browser is still removing the store when the page opens it again."""
    tab = phone.tab()
    session = tab.context.new_cdp_session(tab)
    tab.evaluate(SAVE_WITHOUT_END)
    for _ in range(times):
        session.send("Storage.clearDataForOrigin", {"origin": SITE, "storageTypes": "indexeddb"})
        tab.wait_for_timeout(20)
    tab.evaluate("stop = true; saving")
    told = set(tab.evaluate("refused"))
    # Cleared twice within one save: that is told, and nothing else ever is.
    assert all(one.startswith("Not saved: the browser closed the store twice") for one in told)
    append(tab, "job", "last")
    assert texts(tab, "job")[-1] == "last"


def test_saves_go_on_while_the_browser_clears_the_store(phone: NewPhone) -> None:
    store_is_emptied_while_it_saves(phone(), counted(20, 100, 100))


def the_next_opening_is_cut_off(phone: Phone) -> None:
    tab = phone.tab()
    append(tab, "job", "one")
    tab.evaluate(CUT_OFF_THE_NEXT_OPENING)
    tab.evaluate(DROP)
    append(tab, "job", "two")
    assert texts(tab, "job") == ["two"]
    assert "1 of 1 entries stored on this phone are gone" in state(tab)["emptied"]


def test_a_store_cut_off_while_it_opens_is_opened_again(phone: NewPhone) -> None:
    the_next_opening_is_cut_off(phone())


def test_a_store_that_is_not_opened_again_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(Error, match="does not let Footwell store"):
        the_next_opening_is_cut_off(phone(NOT_OPENED_AGAIN, TAKEN_FOR_REFUSED))


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
