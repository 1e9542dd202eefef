"""Waiting for a page by asking it again and again.

The usual helper builds code from text inside the page, which the page's policy refuses.
"""

import time

from playwright.sync_api import Page

PATIENCE_S = 120.0


def until(page: Page, expression: str, patience_s: float = PATIENCE_S) -> object:
    """Return the first true value of a JavaScript expression; asserts that there is one."""
    deadline = time.monotonic() + patience_s
    while not (value := page.evaluate(expression)):
        assert time.monotonic() < deadline, f"never true: {expression}"
        time.sleep(0.05)
    return value


def until_python_is(page: Page, state: str) -> None:
    """Wait until the page says of Python: loading, ready or failed."""
    until(page, f"document.documentElement.dataset.python === '{state}'")


def until_ready_offline(page: Page) -> None:
    """Wait until the page says that every file is stored."""
    until(page, "document.documentElement.dataset.offline === 'ready offline'")


def kill_workers(page: Page) -> None:
    """End the page's workers as a browser does that needs their memory: without a word."""
    page.evaluate("workersOfThisPage.splice(0).forEach((worker) => worker.terminate())")
