"""Full storage: nothing earlier is lost, it is said, and everything can be read and exported."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page
from storage_bugs import Bug
from storage_rig import SITE, Phone, append, events, failure, state, texts

NewPhone = Callable[..., Phone]

FULL_IS_FINE = (
    Bug("database.ts", "    if (fault) throw fault;\n", ""),
    Bug("database.ts", "throw await reasonOf(tx, ended, fault);", "return undefined as T;"),
)


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
