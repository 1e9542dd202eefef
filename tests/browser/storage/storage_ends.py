"""Ways to end a page or a browser at a chosen moment."""

from __future__ import annotations

import json
import os
import re
from contextlib import suppress
from pathlib import Path
from signal import SIGKILL
from time import sleep
from typing import Any

from playwright.sync_api import BrowserContext, CDPSession, Page
from storage_bugs import ROOT

PHOTO_STEP = "photo written"
"""No note comes to it."""


def save_steps() -> list[str]:
    """The steps of a save of notes as the store names them."""
    source = (ROOT / "web/src/storage/steps.ts").read_text()
    steps = re.findall(r'^  "(.+)",$', source, re.MULTILINE)
    return [step for step in steps if step != PHOTO_STEP]


def halt_in_save(page: Page, step: str, actions: list[dict[str, Any]]) -> CDPSession:
    """Begin a save and return when the page stands still at the step."""
    session = page.context.new_cdp_session(page)
    session.send("Debugger.enable")
    halted: list[Any] = []
    session.on("Debugger.paused", lambda event: halted.append(event))
    # Not by page.evaluate: it waits for more than the call's return, and a halted page gives no more.
    call = f"saveAndHalt({json.dumps(step)}, {json.dumps(actions)})"
    session.send("Runtime.evaluate", {"expression": call})
    for _ in range(500):
        if halted:
            return session
        page.wait_for_timeout(10)
    raise TimeoutError(f"the save never came to its step {step!r}")


def crash(page: Page) -> None:
    """End the page's process. (CDP's Page.crash never answers a page that stands still.)"""
    ended = renderers(page.context)
    with page.expect_event("crash"):
        for process in ended:
            kill(process)
    page.close()
    # Until the browser has noticed them all, it may give a new page one of the dead.
    while set(ended) & set(renderers(page.context)):
        sleep(0.02)


def kill(process: int) -> None:
    """End a process at once; it may have gone by itself, as an idle one does."""
    with suppress(ProcessLookupError):
        os.kill(process, SIGKILL)


def renderers(context: BrowserContext) -> list[int]:
    """Processes of pages in this test's own browser."""
    assert context.browser is not None
    session = context.browser.new_browser_cdp_session()
    listed = session.send("SystemInfo.getProcessInfo")["processInfo"]
    session.detach()
    return [process["id"] for process in listed if process["type"] == "renderer"]


def processes_of(folder: Path) -> list[int]:
    """Processes of the one browser that this test started on its own new folder."""
    found = []
    for entry in Path("/proc").glob("[0-9]*/cmdline"):
        try:
            words = entry.read_bytes().decode(errors="replace")
        except OSError:
            continue
        if f"--user-data-dir={folder}\0" in words:
            found.append(int(entry.parent.name))
    return found
