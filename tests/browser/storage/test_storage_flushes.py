"""Saved is on the disk: a hundred saves are written out a hundred times."""

from __future__ import annotations

from pathlib import Path

import pytest
from chromium import own_browser
from playwright.sync_api import Playwright
from storage_bugs import Bug, script
from storage_ends import processes_of
from storage_flushes import enough_for_a_hundred, flushes_of
from storage_rig import Phone, append

FLUSHED_SOMETIME = Bug("database.ts", 'durability: "strict"', 'durability: "relaxed"')

SAVE_A_HUNDRED = """async () => {
    for (let i = 0; i < 100; i += 1) await store.append("job", "note made", { text: `${i}` });
}"""


def hundred_saves_are_flushed(browsers: Playwright, folder: Path, *bugs: Bug) -> None:
    profile = folder / "profile"
    context = own_browser(browsers, profile)
    tab = Phone(context, script(*bugs)).tab()
    append(tab, "job", "so that the database is there")
    processes = processes_of(profile)
    flushes = flushes_of(processes, lambda: tab.evaluate(SAVE_A_HUNDRED), folder / "calls")
    context.close()
    enough_for_a_hundred(flushes)


def test_a_hundred_saves_are_a_hundred_flushes(browsers: Playwright, tmp_path: Path) -> None:
    hundred_saves_are_flushed(browsers, tmp_path)


def test_saves_that_leave_the_disk_for_later_are_found_out(
    browsers: Playwright, tmp_path: Path
) -> None:
    with pytest.raises(AssertionError, match="only"):
        hundred_saves_are_flushed(browsers, tmp_path, FLUSHED_SOMETIME)
