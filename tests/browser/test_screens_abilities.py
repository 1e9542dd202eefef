"""What a phone lacks is said in one plain sentence, and the work goes on."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from phone_sample_maker import all_as_file
from playwright.sync_api import BrowserContext, Page, StorageState, expect
from pressing import until_open
from site_server import Site
from waiting import until, until_python_is
from walk import CIRCUIT, Walk

NewPhone = Callable[..., BrowserContext]
OpenAtPad = Callable[..., Walk]

NO_WAKE_LOCK = "delete Navigator.prototype.wakeLock"
NO_CLIPBOARD = "delete Navigator.prototype.clipboard"


def menu_without(at_pad: OpenAtPad, script: str) -> Walk:
    walk = at_pad(script)
    walk.tap("Back")
    walk.tap("More", exact=True)
    return walk


def test_without_a_wake_lock_the_menu_says_what_to_do(at_pad: OpenAtPad) -> None:
    walk = menu_without(at_pad, NO_WAKE_LOCK)
    expect(walk.page.get_by_text("cannot keep the screen awake")).to_be_visible()


def test_without_a_clipboard_the_link_can_be_copied_by_hand(at_pad: OpenAtPad, site: Site) -> None:
    walk = menu_without(at_pad, NO_CLIPBOARD)
    walk.tap("Share this job")
    walk.tap("Copy the link")
    expect(walk.page.get_by_text("copy it by hand")).to_be_visible()
    address = walk.page.get_by_label("Footwell job").input_value()
    assert address.startswith(f"{site.address}#")


@pytest.mark.parametrize(("locale", "shown"), [("de-DE", "0,5"), ("en-GB", "0.5")])
def test_the_decimal_mark_is_the_regions(at_pad: OpenAtPad, locale: str, shown: str) -> None:
    walk = at_pad(locale=locale)
    for key in ("Decimal mark", "5"):
        walk.tap(key, exact=True)
    expect(walk.page.locator(".digits")).to_contain_text(shown)


@pytest.fixture
def without_python(own_site: Site, new_phone: NewPhone) -> Walk:
    """A phone on which Python cannot start: its interpreter is not on the site."""
    own_site.remove("python/interpreter-*/pyodide.mjs")
    page = new_phone().new_page()
    page.goto(own_site.address)
    until_python_is(page, "failed")
    return Walk(page, own_site.address, lambda name: None)


def test_without_python_a_reading_is_kept_and_exported_and_the_page_says_where_it_is(
    without_python: Walk,
) -> None:
    walk = without_python
    walk.tap("Settings")
    expect(walk.page.get_by_text("Never exported yet.")).to_be_visible()
    walk.tap("Back")
    walk.tap("New job")
    walk.tap(CIRCUIT)
    walk.key("Record a reading").tap()
    page = walk.page
    page.get_by_label("Red lead on").select_option(index=1)
    page.get_by_label("Reading", exact=True).fill("11,8")
    walk.go("Keep 11")
    walk.tap("More", exact=True)
    walk.tap("Share this job")
    with page.expect_download() as saved:
        walk.tap("Save as a file")
    assert "reading taken" in saved.value.path().read_text()
    walk.tap("Back")
    walk.tap("More", exact=True)
    walk.tap("All jobs")
    expect(page.get_by_text("on this phone only")).to_be_visible()
    walk.tap("Settings")
    expect(page.get_by_text("Last exported")).to_be_visible()


def test_without_python_the_page_says_so_in_a_sentence(without_python: Walk) -> None:
    expect(without_python.page.get_by_role("alert").first).to_be_visible()


def test_a_whole_step_goes_from_the_keyboard(page: Page, site: Site) -> None:
    walk = Walk(page, site.address, lambda name: None)
    walk.begin()
    walk.until("Enter reading")
    until(page, "document.activeElement.matches('h1')")
    page.keyboard.press("Enter")
    page.locator(".digits").wait_for()
    for key in "11.8":
        page.keyboard.press(key)
    until_open(walk.key("Keep 11.8"))
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_contain_text("11.8")


def test_without_a_store_the_page_says_so_and_offers_rescue(
    new_phone: NewPhone, site: Site
) -> None:
    context = new_phone()
    context.add_init_script(
        "IDBFactory.prototype.open = () => { throw new DOMException('', 'SecurityError'); }"
    )
    page = context.new_page()
    page.goto(site.address)
    expect(page.get_by_role("alert").first).to_be_visible()
    expect(page.get_by_role("button", name="Save everything as a file")).to_be_visible()


def emptied(left: StorageState) -> Any:
    """The phone after its browser has removed the database, left at the pad of a job that is gone with it."""
    phone: Any = json.loads(json.dumps(left))
    [origin] = phone["origins"]
    origin["indexedDB"] = []
    return phone


def test_an_emptied_phone_says_so_and_has_its_job_back_from_a_file(
    at_pad: OpenAtPad, new_phone: NewPhone, site: Site, kept_at_pad: StorageState, tmp_path: Path
) -> None:
    walk = at_pad()
    walk.tap("Back")
    walk.tap("More", exact=True)
    walk.tap("All jobs")
    file = tmp_path / "all.jsonl"
    file.write_text(all_as_file(walk), "utf-8")
    page = new_phone(storage_state=emptied(kept_at_pad)).new_page()
    page.goto(site.address)
    expect(page.get_by_role("alert").first).to_contain_text("removed saved work")
    expect(page.get_by_role("button", name="Go on with what is here")).to_be_visible()
    page.locator("input[type=file]").first.set_input_files(file)
    expect(page.get_by_text(CIRCUIT).first).to_be_visible()
    expect(page.get_by_role("alert")).to_have_count(0)
