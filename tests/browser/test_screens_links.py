"""A link opens as a new job, is shown first, and leaves the address."""

from __future__ import annotations

from pathlib import Path

import pytest
from core.job_rig import MINIBUS, Job
from core.stored_samples_maker import exported
from guard import watched_phone
from playwright.sync_api import Browser, Page, expect
from site_server import Site
from walk import CIRCUIT, Walk


@pytest.fixture(scope="module")
def link(chromium: Browser, shared_site: Site) -> str:
    """A link made on another phone."""
    with watched_phone(chromium) as other:
        return link_made_on(other.new_page(), shared_site)


def link_made_on(page: Page, site: Site) -> str:
    walk = Walk(page, site.address, lambda name: None)
    walk.begin()
    walk.tap("More", exact=True)
    walk.tap("Share this job")
    made = walk.page.get_by_label("Footwell job")
    made.wait_for()
    return made.input_value()


def test_a_link_is_shown_before_it_is_taken_over(page: Page, link: str) -> None:
    page.goto(link)
    expect(page.get_by_text(CIRCUIT)).to_be_visible()
    expect(page.get_by_text("0 readings")).to_be_visible()
    page.get_by_role("button", name="Take over as a new job").tap()
    expect(page.get_by_role("button", name="Suspects")).to_be_visible()


def test_the_fragment_leaves_the_address(page: Page, site: Site, link: str) -> None:
    page.goto(link)
    expect(page.get_by_role("button", name="Take over as a new job")).to_be_visible()
    assert page.url == site.address


def test_a_link_opened_over_a_running_page_is_shown_too(page: Page, link: str) -> None:
    page.evaluate("(hash) => { location.hash = hash; }", link.split("#")[1])
    expect(page.get_by_text(CIRCUIT)).to_be_visible()


def test_leaving_a_link_stores_nothing_and_a_cut_one_says_that_it_is_cut(
    page: Page, link: str
) -> None:
    page.goto(link)
    page.get_by_role("button", name="Leave it").tap()
    expect(page.get_by_text("No jobs on this phone yet.")).to_be_visible()
    page.goto(link[: len(link) * 2 // 3])
    expect(page.get_by_role("alert")).to_contain_text("cut")
    # Without leaving the one that stands there.
    page.goto(changed(link))
    expect(page.get_by_role("alert")).to_contain_text("changed on its way")
    page.goto(link)
    expect(page.get_by_text(CIRCUIT)).to_be_visible()


def changed(link: str) -> str:
    middle = len(link) - 40
    return link[:middle] + ("A" if link[middle] != "A" else "B") + link[middle + 1 :]


def test_a_job_too_large_for_a_link_is_offered_as_a_file(
    page: Page, site: Site, tmp_path: Path
) -> None:
    job = Job(MINIBUS).dead()
    for _ in range(17):
        job.add("note made", text="x" * 60_000)
    file = tmp_path / "large.jsonl"
    file.write_text(exported(job), "utf-8")
    walk = Walk(page, site.address, lambda name: None)
    walk.tap("Settings")
    page.locator("input[type=file]").set_input_files(file)
    page.get_by_text("added from the file").wait_for()
    walk.tap("Back")
    walk.tap(CIRCUIT)
    walk.tap("More", exact=True)
    walk.tap("Share this job")
    page.get_by_text("too large for a link").wait_for()
    expect(page.get_by_label("Footwell job")).to_have_count(0)
    expect(page.get_by_role("button", name="Copy the link")).to_have_count(0)
    with page.expect_download() as download:
        walk.tap("Save as a file")
    assert download.value.path().read_text("utf-8").count("note made") == 17
