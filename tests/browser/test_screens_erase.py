"""Erasing from the screens: what it means is said first, and nothing of it is left afterwards."""

from __future__ import annotations

import os
from pathlib import Path

from playwright.sync_api import Page, expect
from site_server import Site
from walk import CIRCUIT, Walk

MARKER = "zebra-7741"

LEFT = """async marker => {
    const asked = indexedDB.open("footwell");
    const db = await new Promise((done) => { asked.onsuccess = () => done(asked.result); });
    const all = db.transaction("events").objectStore("events").getAll();
    const rows = await new Promise((done) => { all.onsuccess = () => done(all.result); });
    db.close();
    const found = [];
    if (JSON.stringify(rows).includes(marker)) found.push("database");
    if (JSON.stringify({ ...localStorage }).includes(marker)) found.push("kept beside it");
    for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
            const text = await (await cache.match(request)).text();
            if (text.includes(marker)) found.push(request.url);
        }
    }
    if (document.body.innerText.includes(marker)) found.push("the screen");
    return found;
}"""


def begun(page: Page, site: Site) -> Walk:
    """A job with the marker in its story."""
    walk = Walk(page, site.address, lambda name: None)
    walk.begin()
    walk.tap("More", exact=True)
    walk.tap("Story")
    page.get_by_role("textbox").first.fill(MARKER)
    walk.tap("Back")
    assert page.evaluate(LEFT, MARKER) != []
    return walk


def at_erase(walk: Walk) -> None:
    walk.tap("More", exact=True)
    walk.tap("Settings")
    walk.tap("Erase a job or this phone")


def seen(page: Page, name: str) -> None:
    folder = os.environ.get("FOOTWELL_PICTURES")
    if folder:
        page.screenshot(path=Path(folder) / f"{name}.png")


def test_a_job_is_erased_after_saying_what_is_in_no_file(page: Page, site: Site) -> None:
    walk = begun(page, site)
    at_erase(walk)
    expect(page.get_by_text("in no saved file").first).to_be_visible()
    seen(page, "erase-list")
    walk.tap(CIRCUIT)
    expect(page.get_by_text("gone for good")).to_be_visible()
    seen(page, "erase-asked")
    walk.tap("Keep it")
    walk.tap(CIRCUIT)
    with page.expect_download() as saved:
        walk.tap("Save as a file first")
    assert saved.value.suggested_filename.startswith("footwell-saloon-heater-fan-20")
    assert saved.value.suggested_filename.endswith(".jsonl")
    walk.tap("Keep it")
    expect(page.get_by_text("all of it is in a file you saved")).to_be_visible()
    walk.tap(CIRCUIT)
    walk.tap("Erase this job")
    expect(page.get_by_text("No jobs on this phone yet.")).to_be_visible()
    assert page.evaluate(LEFT, MARKER) == []


def test_the_whole_phone_is_erased_and_a_new_job_can_begin(page: Page, site: Site) -> None:
    walk = begun(page, site)
    at_erase(walk)
    walk.tap("Erase this whole phone")
    expect(page.get_by_text(CIRCUIT)).to_be_visible()
    walk.tap("Erase this phone")
    expect(page.get_by_text("No jobs on this phone yet.")).to_be_visible()
    assert page.evaluate(LEFT, MARKER) == []
    walk.begin()


def test_another_tab_with_the_same_job_shows_what_was_added(page: Page, site: Site) -> None:
    walk = Walk(page, site.address, lambda name: None)
    walk.begin()
    other = page.context.new_page()
    other.goto(site.address)
    Walk(other, site.address, lambda name: None).key("Suspects").wait_for()
    walk.until("Enter reading")
    expect(other.get_by_role("button", name="Enter reading")).to_be_visible(timeout=30_000)


def test_a_job_erased_in_another_tab_is_left_there(page: Page, site: Site) -> None:
    walk = Walk(page, site.address, lambda name: None)
    walk.begin()
    other = page.context.new_page()
    other.goto(site.address)
    Walk(other, site.address, lambda name: None).key("Suspects").wait_for()
    at_erase(walk)
    walk.tap(CIRCUIT)
    walk.tap("Erase this job")
    expect(other.get_by_role("button", name="New job")).to_be_visible()
