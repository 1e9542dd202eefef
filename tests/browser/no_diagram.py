"""From an empty phone to the first check of a circuit of which there is no diagram, every touch counted."""

from __future__ import annotations

import time
from dataclasses import dataclass

from playwright.sync_api import Locator, Page
from pressing import press, press_through

DEAD = {"Lamp": "Dark in every position", "Horn": "Silent in every position"}
"""What is said of a load that does nothing, where it is not "dead"."""

SECONDS_A_TOUCH = 1.5
"""What a person takes to read and press a key (assumption of the goal)."""


@dataclass
class Fingers:
    """Presses keys of a page. `touches` counts them; `computing` is the time (s) that the page took
    after them, until what was to come stood there."""

    page: Page
    touches: int = 0
    computing: float = 0.0

    def key(self, name: str) -> Locator:
        return self.page.get_by_role("button", name=name, exact=True).first

    def tap(self, name: str, then: str = "", leads_on: bool = False) -> None:
        """Tap a key; `then` is a key that stands there afterwards."""
        self.touches += 1
        key = self.key(name)
        if leads_on:
            press_through(key)
        else:
            press(key)
        begun = time.monotonic()
        if then:
            self.key(then).wait_for()
        self.computing += time.monotonic() - begun

    @property
    def seconds(self) -> float:
        return SECONDS_A_TOUCH * self.touches + self.computing


def first_check(fingers: Fingers, load: str, positions: str, relay: bool) -> str:
    """Walk from the list of jobs to the first check, and return what it asks to do."""
    fingers.tap("New job", then="No diagram, none of these")
    fingers.tap("No diagram, none of these", then=load)
    fingers.tap(load, then="Make the sheet")
    fingers.tap("24 V")
    fingers.tap(positions)
    if relay:
        fingers.tap("Yes")
    dead = DEAD.get(load, "Dead in every position")
    fingers.tap("Make the sheet", then=dead)
    fingers.tap(dead)
    fingers.tap("Start", then="Another check", leads_on=True)
    return fingers.page.locator(".do").first.inner_text()
