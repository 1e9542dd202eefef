"""A browser started anew, without a network, reaches the job that was left."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from chromium import PHONE, own_browser
from counts import counted, rounds
from playwright.sync_api import Error, Page, Playwright
from site_server import Site
from waiting import until_ready_offline
from walk import CIRCUIT, Walk

STARTS = counted(1, 50, 500)
FORGET = """navigator.serviceWorker.getRegistration()
    .then((registration) => registration.unregister())"""


def leave_a_job(browsers: Playwright, folder: Path, site: Site, at_end: str = "") -> None:
    context = own_browser(browsers, folder, **PHONE)
    page = context.new_page()
    Walk(page, site.address, lambda name: None).begin()
    until_ready_offline(page)
    if at_end:
        page.evaluate(at_end)
    context.close()
    site.stop()


def start_offline(browsers: Playwright, folder: Path, site: Site) -> None:
    context = own_browser(browsers, folder, **PHONE, offline=True)
    try:
        reach_the_job(context.new_page(), site)
    finally:
        context.close()


def reach_the_job(page: Page, site: Site) -> None:
    page.goto(site.address)
    page.get_by_text(CIRCUIT).first.tap()
    page.get_by_role("button", name="Suspects", exact=True).wait_for()


def test_a_cold_start_without_a_network_reaches_the_job(
    browsers: Playwright,
    own_site: Site,
    tmp_path: Path,
    record_property: Callable[[str, object], None],
) -> None:
    leave_a_job(browsers, tmp_path / "profile", own_site)
    for number in rounds(STARTS):
        start_offline(browsers, tmp_path / "profile", own_site)
        started = number
    record_property("cold starts", started)


def test_a_site_that_is_not_stored_is_found_out(
    browsers: Playwright, own_site: Site, tmp_path: Path
) -> None:
    leave_a_job(browsers, tmp_path / "profile", own_site, FORGET)
    with pytest.raises(Error, match="net::ERR_"):
        start_offline(browsers, tmp_path / "profile", own_site)
