"""A phone for the tests of the store: a browser profile, its tabs, and the store in them.

A test of loss has a control: the same test with a bug planted in the store's source, which must turn
it red. The bug is put in by exact replacement, so a plant that no longer fits fails by itself.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from signal import SIGKILL
from tempfile import TemporaryDirectory
from time import sleep
from typing import Any

from playwright.sync_api import BrowserContext, CDPSession, Page

ROOT = Path(__file__).parents[3]
# FOOTWELL_LONG=1 repeats what depends on chance more often than every test run can.
LONG = bool(os.environ.get("FOOTWELL_LONG"))
SITE = "https://footwell.test/"


@dataclass(frozen=True)
class Bug:
    """`right`, as it stands in a file of the store, and what a careless hand would have written."""

    file: str
    right: str
    wrong: str


@cache
def script(*bugs: Bug) -> str:
    """The test page's script, with the bugs in it."""
    with TemporaryDirectory() as copied:
        top = Path(copied)
        for part in ("web/src/storage", "tests/browser/storage"):
            shutil.copytree(ROOT / part, top / part)
        for bug in bugs:
            plant(top / "web/src/storage" / bug.file, bug)
        return bundled(top / "tests/browser/storage/page.ts")


def plant(file: Path, bug: Bug) -> None:
    source = file.read_text()
    if source.count(bug.right) != 1:
        raise ValueError(f"the bug no longer fits into {bug.file}")
    file.write_text(source.replace(bug.right, bug.wrong))


def bundled(entry: Path) -> str:
    esbuild = [ROOT / "node_modules/.bin/esbuild", entry, "--bundle", "--format=iife"]
    environment = {**os.environ, "NODE_PATH": str(ROOT / "node_modules")}
    return subprocess.run(
        esbuild, env=environment, check=True, capture_output=True, text=True
    ).stdout


class Phone:
    """One browser profile. Its store outlives its tabs."""

    def __init__(self, context: BrowserContext, page_script: str) -> None:
        self.context = context
        context.route(
            f"{SITE}**",
            lambda route: (
                route.fulfill(content_type="text/javascript", body=page_script)
                if route.request.url.endswith("page.js")
                else route.fulfill(content_type="text/html", body=html_for(route.request.url))
            ),
        )

    def tab(self, before: str = "", *, opened: bool = True) -> Page:
        """A new tab with the store opened; `before` runs ahead of everything else."""
        page = self.context.new_page()
        if before:
            page.add_init_script(before)
        page.goto(SITE)
        if opened:
            page.evaluate("store.open()")
        return page

    def blank(self) -> Page:
        """A tab of the same site without the store, to get at the database behind its back."""
        page = self.context.new_page()
        page.goto(f"{SITE}blank")
        return page


def html_for(url: str) -> str:
    code = "" if url.endswith("blank") else '<script src="/page.js"></script>'
    return f"<!doctype html><title>store</title>{code}"


def save_steps() -> list[str]:
    """The steps of a save as the store names them."""
    source = (ROOT / "web/src/storage/steps.ts").read_text()
    return re.findall(r'^  "(.+)",$', source, re.MULTILINE)


def append(page: Page, job: str, *words: str) -> list[dict[str, Any]]:
    """One action of as many notes as there are words."""
    return page.evaluate("events => store.appendMany(events)", notes(job, *words))


def notes(job: str, *words: str) -> list[dict[str, Any]]:
    return [{"job": job, "kind": "note made", "body": {"text": text}} for text in words]


def events(page: Page, job: str) -> list[dict[str, Any]]:
    return page.evaluate("job => store.events(job)", job)


def texts(page: Page, job: str) -> list[str]:
    return page.evaluate(
        "async job => (await store.events(job)).map((event) => JSON.parse(event.body).text)", job
    )


def state(page: Page) -> Any:
    return page.evaluate("store.state.value")


def failure(page: Page, expression: str, argument: Any = None) -> str:
    """The sentence with which a promise was rejected; "" when it was kept."""
    return page.evaluate(
        f"argument => Promise.resolve().then(() => {expression})"
        ".then(() => '', (fault) => `${fault.name}: ${fault.message}`)",
        argument,
    )


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
