"""Two tabs of one phone: both keep what they save, and each knows of the other."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from counts import GOAL, counted
from storage_bugs import Bug
from storage_rig import Phone, append, events, texts

NewPhone = Callable[..., Phone]

NUMBER_READ_AHEAD = Bug(
    "append.ts",
    """const saved = await inOneTransaction(db, async (tx) => {
    steps.at("transaction opened");
    const before = await phoneIn(tx);""",
    """const before = (await db.get("phone", "self"))!;
    const saved = await inOneTransaction(db, async (tx) => {
    steps.at("transaction opened");""",
)
TOLD_NOBODY = Bug("tabs.ts", 'this.channel?.postMessage("stored");', "")

TABS = 4 if GOAL else 2
SAVES = counted(50, 500, 5_000)
SAVE_MANY = """(count) => {
    const saves = [];
    for (let i = 0; i < count; i += 1) {
        saves.push(store.append("job", "note made", { text: `${i}` }).catch(() => undefined));
    }
    globalThis.saved = Promise.all(saves);
}"""


def tabs_save_at_once(phone: Phone) -> None:
    tabs = [phone.tab() for _ in range(TABS)]
    for tab in tabs:
        tab.evaluate(SAVE_MANY, SAVES)
    told = [event for tab in tabs for event in tab.evaluate("saved")]
    assert None not in told, "a save was refused"
    kept = events(phone.tab(), "job")
    assert [event["n"] for event in kept] == list(range(1, TABS * SAVES + 1))
    assert len({event["device"] for event in kept}) == 1
    assert sorted(event["n"] for event in told) == list(range(1, TABS * SAVES + 1))


def test_two_tabs_that_save_at_once_get_numbers_without_doubles_or_holes(phone: NewPhone) -> None:
    tabs_save_at_once(phone())


def test_a_number_read_ahead_of_the_save_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="a save was refused"):
        tabs_save_at_once(phone(NUMBER_READ_AHEAD))


def the_other_tab_hears_of_a_save(phone: Phone) -> None:
    here, other = phone.tab(), phone.tab()
    other.evaluate("globalThis.seen = store.revision.value")
    append(here, "job", "new")
    heard = """() => new Promise((answer) => {
        const stop = store.revision.subscribe((now) => now > seen && answer(true));
        setTimeout(() => answer(false), 1000);
    })"""
    assert other.evaluate(heard), "the other tab was not told"
    assert texts(other, "job") == ["new"]
    assert [job["id"] for job in other.evaluate("store.jobs()")] == ["job"]


def test_the_other_tab_hears_of_a_save_and_reads_it(phone: NewPhone) -> None:
    the_other_tab_hears_of_a_save(phone())


def test_a_save_that_tells_nobody_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError, match="was not told"):
        the_other_tab_hears_of_a_save(phone(TOLD_NOBODY))
