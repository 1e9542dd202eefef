"""The browser's Python for benchmarks: the site's interpreter and core in Chromium.

with browser_python() as python:
    answer = python.call("look", text)
    milliseconds = python.times("look", text, 20)
    python.run("import sys; sys.version")
"""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from chromium import launch, phone
from playwright.sync_api import Page, sync_playwright
from site_server import ROOT, Site


@contextmanager
def bench_site() -> Iterator[Site]:
    """Serve a copy of the built site with the pages of the benchmarks in it."""
    with tempfile.TemporaryDirectory() as folder:
        site = Site(Path(folder))
        command = ["node", "tests/run/harness.mjs", str(site.folder)]
        subprocess.run(command, cwd=ROOT, check=True)
        try:
            yield site
        finally:
            site.stop()


class BrowserPython:
    """One worker with the interpreter in it, in a page that stays open."""

    def __init__(self, page: Page) -> None:
        self._page = page

    def _ask(self, question: dict[str, object]) -> object:
        return self._page.evaluate("(question) => bench.ask(question)", question)

    def call(self, name: str, text: str) -> str:
        """Return the core's answer to one call, both as text."""
        return str(self._ask({"ask": "call", "name": name, "text": text}))

    def times(self, name: str, text: str, times: int) -> list[float]:
        """Make the same call several times; return the milliseconds of each, read in the worker."""
        answer = self._ask({"ask": "time", "name": name, "text": text, "times": times})
        assert isinstance(answer, list)
        return answer

    def run(self, text: str) -> object:
        """Run Python text; return its last expression, which must be a plain value."""
        return self._ask({"ask": "run", "text": text})

    def heap_bytes(self) -> int:
        """Return the size of Python's memory: the length of the WebAssembly heap."""
        return int(str(self._ask({"ask": "heap"})))


@contextmanager
def browser_python() -> Iterator[BrowserPython]:
    """Start a browser with the core in it."""
    with bench_site() as site, sync_playwright() as browsers:
        browser = launch(browsers)
        page = phone(browser).new_page()
        page.goto(f"{site.address}harness/bench.html")
        yield BrowserPython(page)
        browser.close()
