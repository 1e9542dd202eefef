"""Pressing keys as a patient hand does: when they take a touch, and until the touch has done its work.

A key that commits takes nothing in the first second of its screen, nor while it is being carried out;
all that time it is off. So nothing has to be waited for by the clock.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TypeVar

from playwright.sync_api import ElementHandle, Error, Locator, Page
from waiting import PATIENCE_S

T = TypeVar("T")

FIRST_MOMENT_S = 1.1
"""A little more than the time in which a new screen takes no commit."""

BUSY = "document.body.innerText.includes('orking it out')"
"""Every screen of a job says this above its content as long as the core is being asked."""

OPEN = "(keys) => keys.length > 0 && keys[0].checkVisibility() && !keys[0].disabled"
GONE = "not attached to the DOM"
LABEL = "(key) => key.ariaLabel ?? key.textContent"
DONE = "(key, label) => !key.isConnected || (key.ariaLabel ?? key.textContent) !== label"


def soon(page: Page, ask: Callable[[], T | None], what: str, patience_s: float = PATIENCE_S) -> T:
    """Ask again and again until there is a true answer, and return it; asserts that one comes."""
    deadline = time.monotonic() + patience_s
    while not (answer := ask()):
        assert time.monotonic() < deadline, f"never came: {what}"
        page.wait_for_timeout(30)
    return answer


def at_rest(page: Page) -> bool:
    """Whether nothing is being worked out."""
    return not page.evaluate(BUSY)


def is_open(key: Locator) -> bool:
    """Whether a key stands there and takes touches."""
    return bool(key.evaluate_all(OPEN))


def until_open(key: Locator) -> ElementHandle:
    """Return the key once it takes touches."""
    soon(key.page, lambda: is_open(key), f"{key} that takes touches")
    return key.element_handle()


def press(key: Locator) -> None:
    """Tap a key as soon as it takes touches."""
    tapped(key)


def tapped(key: Locator) -> tuple[ElementHandle, str]:
    """Tap a key once it takes touches and return it with the label it had.

    A finger comes down on the screen, not on a key: where the key was drawn anew just then, the new one
    is pressed. A key that took the touch is never pressed again.
    """
    while True:
        found = until_open(key)
        try:
            label = str(found.evaluate(LABEL))
            found.tap()
        except Error as trouble:
            if GONE not in trouble.message:
                raise
        else:
            return found, label


def press_through(key: Locator) -> None:
    """Tap a key that leads on, and wait until it has: it has gone, or says something else."""
    found, label = tapped(key)
    soon(key.page, lambda: bool(found.evaluate(DONE, label)), f"anything after {label!r}")


def until_awake(page: Page) -> None:
    """Wait until no key is off, or a screen's first second is over: then a key is off for good."""
    deadline = time.monotonic() + FIRST_MOMENT_S
    page.wait_for_timeout(100)
    while page.locator("button:disabled").count() and time.monotonic() < deadline:
        page.wait_for_timeout(50)
