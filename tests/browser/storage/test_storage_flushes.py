"""Saved is on the disk: counted are the browser's orders to the kernel to write out its files."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path
from signal import SIGINT
from time import sleep

import pytest
from chromium import OPTIONS
from playwright.sync_api import Playwright
from storage_bugs import Bug, script
from storage_ends import processes_of
from storage_rig import Phone, append

FLUSHED_SOMETIME = Bug("database.ts", 'durability: "strict"', 'durability: "relaxed"')

SAVE_A_HUNDRED = """async () => {
    for (let i = 0; i < 100; i += 1) await store.append("job", "note made", { text: `${i}` });
}"""


def hundred_saves_are_flushed(browsers: Playwright, folder: Path, *bugs: Bug) -> None:
    profile, report = folder / "profile", folder / "calls"
    context = browsers.chromium.launch_persistent_context(profile, **OPTIONS)
    tab = Phone(context, script(*bugs)).tab()
    append(tab, "job", "so that the database is there")
    watch = ["strace", "-f", "-e", "trace=fsync,fdatasync", "-o", str(report)]
    watched = [f"--attach={process}" for process in processes_of(profile)]
    tracer = subprocess.Popen([*watch, *watched], stderr=subprocess.DEVNULL)
    sleep(2)  # strace gives no sign when it is attached; a late one would count too few.
    tab.evaluate(SAVE_A_HUNDRED)
    tracer.send_signal(SIGINT)
    tracer.wait()
    context.close()
    flushes = len(re.findall(r"f(?:data)?sync\(", report.read_text()))
    assert flushes >= 100, f"only {flushes} flushes for 100 saves"


def test_a_hundred_saves_are_a_hundred_flushes(browsers: Playwright, tmp_path: Path) -> None:
    hundred_saves_are_flushed(browsers, tmp_path)


def test_saves_that_leave_the_disk_for_later_are_found_out(
    browsers: Playwright, tmp_path: Path
) -> None:
    with pytest.raises(AssertionError, match="only"):
        hundred_saves_are_flushed(browsers, tmp_path, FLUSHED_SOMETIME)
