"""From an empty job, without a diagram, to the first check: touches and time, with floor and goal.

A touch counts a second and a half; the time that the page computed in between is measured and added. Each
walk has a new phone, on which Python is ready.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from chromium import launch
from guard import watched_phone
from no_diagram import Fingers, first_check
from playwright.sync_api import sync_playwright
from site_server import Site
from table import print_table
from waiting import until_python_is

FLOOR = (16, 90)
GOAL = (12, 60)
WALKS = [("Lamp", "2", False), ("Fan", "4", False), ("Fan", "4", True), ("Starter", "2", False)]


def walked(site: Site) -> list[tuple[str, int, str, str]]:
    """A row for each walk."""
    rows = []
    with sync_playwright() as playwright:
        browser = launch(playwright)
        for load, positions, relay in WALKS:
            with watched_phone(browser) as context:
                page = context.new_page()
                page.goto(site.address)
                until_python_is(page, "ready")
                fingers = Fingers(page)
                first_check(fingers, load, positions, relay)
                name = f"{load}, {positions} positions{', relay' if relay else ''}"
                spent = (f"{fingers.computing:.1f} s", f"{fingers.seconds:.1f} s")
                rows.append((name, fingers.touches, *spent))
        browser.close()
    return rows


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        served = Site(Path(folder))
        try:
            found = walked(served)
        finally:
            served.stop()
    limits = [(name, n, "", f"{s} s") for name, (n, s) in (("floor", FLOOR), ("goal", GOAL))]
    print_table(
        "First check without a diagram", ["walk", "touches", "computing", "time"], found + limits
    )
