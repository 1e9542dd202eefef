"""Writes a sample of all that a phone keeps: the database, and what stands beside it.

`npm run samples` calls it, with the site built. A file that is there is never written again: once a
release has left such phones, they must open for ever.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TypeVar

from chromium import launch, phone
from pictures import as_file, png
from playwright.sync_api import Page, sync_playwright
from site_server import ROOT, Site
from walk import CIRCUIT, Walk

T = TypeVar("T")
FIXTURES = ROOT / "fixtures"
PHONE_FILE = FIXTURES / "phones" / "2.json"
"""As the test tool tells it; named by the version of the database."""

WAITING_FILE = FIXTURES / "phones" / "1-link-waiting.json"
"""A phone that was left with a link shown and not yet taken over."""

EXPORT_FILE = FIXTURES / "jobs" / "1-whole-phone-2.jsonl"
LEFT_TYPED = "12.4"
PHOTOGRAPHED = "switch plug X2, wire side"


def walked(page: Page, address: str) -> str:
    """Fill the phone with all that it can hold; return its export of everything."""
    walk = Walk(page, address, lambda name: None)
    walk.begin()
    photographed(walk)
    taken_over(walk, link_of(walk))
    open_file(walk, FIXTURES / "newer" / "job.jsonl")
    erased(walk)
    exported = all_as_file(walk)
    walk.tap("Back")
    page.locator(".jobs button", has_text=CIRCUIT).last.tap()
    walk.until("Enter reading")
    walk.tap("Enter reading")
    for key in ("1", "2", "Decimal mark", "4"):
        walk.tap(key, exact=True)
    return exported


def photographed(walk: Walk) -> None:
    """One photo of a plug, and back to the step."""
    walk.tap("More", exact=True)
    walk.tap("Wiring")
    walk.tap(PHOTOGRAPHED)
    walk.key("Take a photo").wait_for()
    picture = as_file("plug.png", png(24, 16))
    walk.page.locator("input[capture]").set_input_files(picture)
    walk.page.locator("img.photo-small").wait_for()
    while not walk.key("Now", exact=True).is_visible():
        walk.tap("Back")
    walk.tap("Now", exact=True)


def link_of(walk: Walk) -> str:
    walk.tap("More", exact=True)
    walk.tap("Share this job")
    made = walk.page.get_by_label("Footwell job")
    made.wait_for()
    return made.input_value()


def taken_over(walk: Walk, link: str) -> None:
    """The job of a link, as a job of this phone."""
    walk.page.goto("about:blank")
    walk.page.goto(link)
    walk.go("Take over as a new job")
    walk.key("Suspects").wait_for()


def open_file(walk: Walk, file: Path) -> None:
    to_jobs(walk)
    walk.tap("Settings")
    walk.page.locator("input[type=file]").set_input_files(file)
    walk.page.get_by_text("added from the file").wait_for()
    walk.tap("Back")


def to_jobs(walk: Walk) -> None:
    walk.tap("More", exact=True)
    walk.tap("All jobs")
    walk.key("New job").wait_for()


def erased(walk: Walk) -> None:
    """One more job, and erased again."""
    walk.tap("New job")
    walk.tap("Horn with relay")
    walk.tap("Both horns silent")
    walk.go("Start")
    walk.key("Suspects").wait_for()
    to_jobs(walk)
    walk.tap("Settings")
    walk.tap("Erase a job or this phone")
    walk.page.locator(".answers button").first.tap()
    with walk.page.expect_event("load"):
        walk.tap("Erase this job")
    walk.key("New job").wait_for()


def all_as_file(walk: Walk) -> str:
    walk.tap("Settings")
    with walk.page.expect_download() as download:
        walk.tap("Save everything as a file")
    return download.value.path().read_text("utf-8")


def with_a_link_waiting(page: Page, address: str) -> None:
    link = (FIXTURES / "links" / "F1.txt").read_text("utf-8").strip()
    page.goto(f"{address}#{link}")
    page.get_by_role("button", name="Take over as a new job").wait_for()


def left(fill: Callable[[Page, str], T]) -> tuple[str, T]:
    """A new phone as the test tool tells it, after it was filled; and what came of the filling."""
    with sync_playwright() as browsers, TemporaryDirectory() as folder:
        site = Site(Path(folder))
        try:
            context = phone(launch(browsers))
            made = fill(context.new_page(), site.address)
            kept = context.storage_state(indexed_db=True)
        finally:
            site.stop()
    return json.dumps(kept, ensure_ascii=False, indent=1) + "\n", made


def write_all() -> None:
    PHONE_FILE.parent.mkdir(exist_ok=True)
    if not (PHONE_FILE.exists() and EXPORT_FILE.exists()):
        kept, exported = left(walked)
        PHONE_FILE.write_text(kept, "utf-8")
        EXPORT_FILE.write_text(exported, "utf-8")
    if not WAITING_FILE.exists():
        WAITING_FILE.write_text(left(with_a_link_waiting)[0], "utf-8")


if __name__ == "__main__":
    write_all()
