"""Saved is saved: whatever ends the page or the browser, and at whatever step of the save."""

from __future__ import annotations

import random
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest
from chromium import own_browser
from counts import counted
from playwright.sync_api import Error, Playwright
from storage_bugs import Bug, script
from storage_ends import crash, halt_in_save, kill, processes_of, save_steps
from storage_rig import Phone, append, events, notes, texts

NewPhone = Callable[..., Phone]
ACTION = ["first", "second", "third"]

SAID_TOO_EARLY = Bug(
    "database.ts",
    "const fault = await ended;\n    if (fault) throw fault;\n    return result;",
    "return result;",
)
NUMBER_TAKEN_APART = Bug(
    "append.ts",
    """const saved = await inOneTransaction(db, async (tx) => {
    steps.at("transaction opened");
    const before = await phoneIn(tx);""",
    """const before = await inOneTransaction(db, async (tx) => {
      const { device, n } = await phoneIn(tx);
      await tx.objectStore("phone").put({ device, n: n + drafts.length }, "self");
      return { device, n };
    });
    const saved = await inOneTransaction(db, async (tx) => {
    steps.at("transaction opened");""",
)
ONE_BY_ONE = Bug(
    "index.ts",
    "const saved = await this.watched(save(this.connection, drafts, into));",
    """for (const draft of drafts.slice(0, -1)) await save(this.connection, [draft]);
    const saved = await save(this.connection, drafts.slice(-1));""",
)
STORED_LATER = Bug(
    "index.ts",
    "const saved = await this.watched(save(this.connection, drafts, into));",
    """await new Promise((soon) => setTimeout(soon, 3));
    setTimeout(() => void save(this.connection, drafts), 300);
    const events = drafts.map((draft, i) => ({ ...draft, device: "", n: i + 1 }));
    const saved = { events, phone: { device: "", n: 0 }, count: 0 };""",
)
FLUSHED_SOMETIME = Bug("database.ts", 'durability: "strict"', 'durability: "relaxed"')
FORGOTTEN = (
    Bug("append.ts", 'await tx.objectStore("events").add(event);', "memory.push(event);"),
    Bug(
        "append.ts",
        "/** What a save leaves",
        "const memory: StoredEvent[] = [];\n/** What a save leaves",
    ),
)


def saved_and_reloaded(phone: Phone) -> None:
    tab = phone.tab()
    append(tab, "job", *ACTION)
    tab.reload()
    tab.evaluate("store.open()")
    assert texts(tab, "job") == ACTION


def test_what_was_saved_is_there_after_a_reload(phone: NewPhone) -> None:
    saved_and_reloaded(phone())


def test_a_store_that_only_remembers_is_found_out_by_the_reload(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        saved_and_reloaded(phone(*FORGOTTEN))


def page_dies_in_save(phone: Phone, step: str) -> None:
    tab = phone.tab()
    append(tab, "job", "before")
    halt_in_save(tab, step, notes("job", *ACTION))
    crash(tab)
    tab = phone.tab()
    kept = texts(tab, "job")
    assert kept[:1] == ["before"], "what was saved earlier is gone"
    assert kept[1:] in ([], ACTION), "a part of the action is there"
    assert step != "said" or kept[1:] == ACTION, "what was said to be saved is gone"
    append(tab, "job", "after")
    numbers = [event["n"] for event in events(tab, "job")]
    assert numbers == list(range(1, len(kept) + 2)), "the numbers have a hole"


@pytest.mark.parametrize("step", [*save_steps(), "said"])
def test_a_page_that_dies_in_a_save_leaves_all_of_it_or_nothing(phone: NewPhone, step: str) -> None:
    page_dies_in_save(phone(), step)


@pytest.mark.parametrize(
    ("bug", "step", "loss"),
    [
        (SAID_TOO_EARLY, "said", "said to be saved is gone"),
        (NUMBER_TAKEN_APART, "transaction opened", "the numbers have a hole"),
        (ONE_BY_ONE, "complete", "a part of the action is there"),
    ],
    ids=["said before it is stored", "number taken apart", "events stored one by one"],
)
def test_a_careless_save_is_found_out_when_the_page_dies(
    phone: NewPhone, bug: Bug, step: str, loss: str
) -> None:
    with pytest.raises(AssertionError, match=loss):
        page_dies_in_save(phone(bug), step)


def writes_ask_for_the_disk(phone: Phone) -> None:
    tab = phone.tab("""
        globalThis.asked = [];
        const original = IDBDatabase.prototype.transaction;
        IDBDatabase.prototype.transaction = function (...arguments_) {
            const made = original.apply(this, arguments_);
            if (made.mode === "readwrite") asked.push(made.durability);
            return made;
        };
    """)
    append(tab, "job", "one")
    append(tab, "job", "two", "three")
    assert tab.evaluate("asked") == ["strict", "strict"]


def test_every_save_asks_the_browser_to_have_it_on_the_disk(phone: NewPhone) -> None:
    writes_ask_for_the_disk(phone())


def test_a_save_that_leaves_the_disk_for_later_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        writes_ask_for_the_disk(phone(FLUSHED_SOMETIME))


def browser_is_killed(browsers: Playwright, folder: Path, page_script: str, wait: float) -> None:
    context = own_browser(browsers, folder)
    tab = Phone(context, page_script).tab()
    said: list[str] = []
    tab.on("console", lambda message: said.append(message.text))
    tab.evaluate("""() => void (async () => {
        for (let i = 1; ; i += 1) {
            await store.append("job", "note made", { text: String(i) });
            console.log(String(i));
        }
    })()""")
    tab.wait_for_event("console")
    tab.wait_for_timeout(wait)
    for process in processes_of(folder):
        kill(process)
    with suppress(Error):  # The browser is gone, and the test tool may have noticed already.
        context.close()
    context = own_browser(browsers, folder)
    kept = texts(Phone(context, script()).tab(), "job")
    context.close()
    assert kept[: len(said)] == said, "what was said to be saved is gone"
    assert kept == [str(i + 1) for i in range(len(kept))]


# The seed only chooses the moments.
MOMENTS = random.Random(4).sample(range(700), counted(2, 20, 500))


@pytest.mark.parametrize("wait", MOMENTS)
def test_what_was_saved_is_there_after_the_browser_was_killed(
    browsers: Playwright, tmp_path: Path, wait: int
) -> None:
    browser_is_killed(browsers, tmp_path, script(), wait)


def test_a_store_that_saves_a_moment_later_is_found_out_by_the_kill(
    browsers: Playwright, tmp_path: Path
) -> None:
    with pytest.raises(AssertionError, match="said to be saved is gone"):
        browser_is_killed(browsers, tmp_path, script(STORED_LATER), 600)
