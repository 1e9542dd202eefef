"""Every format that a phone stores or shares opens: one walk over all samples, newer ones with them."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from phone_sample_maker import (
    CIRCUIT,
    FIXTURES,
    LEFT_TYPED,
    PHONE_FILE,
    PHOTOGRAPHED,
    WAITING_FILE,
    all_as_file,
    to_jobs,
)
from playwright.sync_api import BrowserContext, Page, expect
from site_server import Site
from walk import Walk

OPENED_HERE = {"phones", "jobs", "links", "newer"}
TWICE = {"1.jsonl", "1-whole-phone.jsonl"}
"""What the phone has already, from another sample: twice is once."""

OPENED_ELSEWHERE = {"circuits", "sheets"}
"""The core's tests read these; no screen takes a sheet alone."""

NEWER_TITLE = "Fan with a photo"

STORED = """new Promise((resolve, reject) => {
  const opening = indexedDB.open("footwell");
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const all = opening.result.transaction("events").objectStore("events").getAll();
    all.onsuccess = () => { opening.result.close(); resolve(all.result); };
  };
})"""


def kept(file: Path, site: Site) -> dict[str, Any]:
    """A phone as it was left, on this test's address."""
    state: dict[str, Any] = json.loads(file.read_text("utf-8"))
    state["origins"][0]["origin"] = site.address.rstrip("/")
    return state


def stored_lines(page: Page) -> set[str]:
    """The lines in which entries with unknown fields came in."""
    return {event["line"] for event in page.evaluate(STORED) if "line" in event}


def open_file(walk: Walk, file: Path, said: str) -> None:
    walk.page.locator("input[type=file]").set_input_files(file)
    walk.page.get_by_text(said).first.wait_for()


def open_link(walk: Walk, file: Path) -> None:
    walk.page.goto("about:blank")
    walk.page.goto(f"{walk.address}#{file.read_text('utf-8').strip()}")


def left_phones_stand_where_they_were(walk: Walk) -> None:
    expect(walk.page.locator(".digits")).to_contain_text(LEFT_TYPED)
    walk.tap("Back")
    walk.key("Suspects").wait_for()
    expect(walk.page.get_by_role("alert")).to_have_count(0)
    to_jobs(walk)
    keys = walk.page.locator(".jobs button")
    expect(keys).to_have_count(3)
    expect(keys.filter(has_text=CIRCUIT)).to_have_count(2)


def newer_lines() -> list[str]:
    """Those entries of the newer sample that have fields unknown here."""
    return (FIXTURES / "newer" / "job.jsonl").read_text("utf-8").splitlines()[2:]


def exported(walk: Walk) -> str:
    """Everything as a file, from the list of jobs and back to it."""
    text = all_as_file(walk)
    walk.tap("Back")
    return text


def every_job_file_comes_in(walk: Walk) -> None:
    walk.tap("Settings")
    for file in sorted((FIXTURES / "jobs").iterdir()):
        open_file(walk, file, "in that file" if file.name in TWICE else "added from the file")
    open_file(walk, FIXTURES / "newer" / "job-format-2.jsonl", "newer Footwell. Update this one")
    walk.tap("Back")


def a_job_with_newer_fields_is_shared_as_a_file(walk: Walk) -> None:
    walk.tap(NEWER_TITLE)
    walk.tap("More", exact=True)
    walk.tap("Share this job")
    walk.page.get_by_text("Footwell that a link leaves out").wait_for()


def every_link_is_shown(walk: Walk) -> None:
    for file in sorted((FIXTURES / "links").iterdir()):
        open_link(walk, file)
        walk.key("Take over as a new job").wait_for()
        expect(walk.page.get_by_role("alert")).to_have_count(0)
    open_link(walk, FIXTURES / "newer" / "link.txt")
    expect(walk.page.get_by_role("alert")).to_contain_text("would be left out here")
    open_link(walk, FIXTURES / "newer" / "link-format-2.txt")
    expect(walk.page.get_by_role("alert")).to_contain_text("Update Footwell")


def test_every_sample_has_somebody_who_opens_it() -> None:
    assert {folder.name for folder in FIXTURES.iterdir()} == OPENED_HERE | OPENED_ELSEWHERE


def test_every_stored_and_shared_format_opens(
    site: Site, new_phone: Callable[..., BrowserContext]
) -> None:
    phones = sorted({*(FIXTURES / "phones").iterdir()} - {WAITING_FILE})
    assert phones[-1] == PHONE_FILE
    walks = [opened_phone(file, site, new_phone) for file in phones]
    photos_are_shown(walks[-1], 1)
    walk = walks[0]
    every_job_file_comes_in(walk)
    assert stored_lines(walk.page) == set(newer_lines())
    assert set(newer_lines()) <= set(exported(walk).splitlines())
    a_job_with_newer_fields_is_shared_as_a_file(walk)
    every_link_is_shown(walk)


def opened_phone(file: Path, site: Site, new_phone: Callable[..., BrowserContext]) -> Walk:
    """A phone as a release left it, opened by this one, and at its list of jobs."""
    page = new_phone(storage_state=kept(file, site)).new_page()
    page.goto(site.address)
    walk = Walk(page, site.address, lambda name: None)
    left_phones_stand_where_they_were(walk)
    return walk


def photos_are_shown(walk: Walk, count: int) -> None:
    """Of the job that was begun first on that phone, and is the last in its list."""
    walk.page.locator(".jobs button", has_text=CIRCUIT).last.tap()
    walk.key("Suspects").wait_for()
    walk.tap("More", exact=True)
    walk.tap("Wiring")
    expect(walk.page.get_by_role("button", name=f"{count} photo")).to_have_count(1)
    walk.tap(PHOTOGRAPHED)
    shown = walk.page.locator("img.photo-small")
    expect(shown).to_have_count(count)
    assert shown.first.evaluate("(image) => image.decode().then(() => image.naturalWidth)") == 24


def test_a_link_that_waited_is_still_shown_and_taken_over(
    site: Site, new_phone: Callable[..., BrowserContext]
) -> None:
    page = new_phone(storage_state=kept(WAITING_FILE, site)).new_page()
    page.goto(site.address)
    expect(page.get_by_text(CIRCUIT)).to_be_visible()
    page.get_by_role("button", name="Take over as a new job").tap()
    page.get_by_role("button", name="Suspects").wait_for()
