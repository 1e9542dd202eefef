"""A value asked about explains itself on the phone, without a network."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import BrowserContext, expect
from screen_probe import faults_of_access, faults_of_size
from site_server import Site
from waiting import until_ready_offline
from walk import Walk

NewPhone = Callable[..., BrowserContext]


def test_an_expected_value_explains_itself_offline(
    new_phone: NewPhone, site: Site, go_offline: Callable[[BrowserContext], None]
) -> None:
    context = new_phone(locale="en-GB")
    page = context.new_page()
    walk = Walk(page, site.address, lambda name: None)
    walk.begin()
    until_ready_offline(page)
    go_offline(context)
    walk.tap("Circuit", exact=True)
    walk.tap("List")
    walk.tap("way 3 (GN/BK) of switch plug X2")
    walk.tap("2", exact=True)
    walk.tap("Why this value?")
    expect(page.get_by_role("heading", name="Why this value?")).to_be_visible()
    expect(page.get_by_text("fall from here to earth")).to_be_visible()
    expect(page.get_by_text("Red lead here")).to_be_visible()
    motor = page.locator(".fall li", has_text="fan motor M1")
    expect(motor).to_contain_text(" V")
    together = page.locator(".fall-more").first
    together.locator("summary").tap()
    expect(together).to_contain_text("fuse F1")
    expect(page.get_by_role("heading", name="What makes the band this wide")).to_be_visible()
    assert faults_of_size(page) + faults_of_access(page) == []
    walk.tap("Back")
    expect(page.get_by_role("button", name="Measure here")).to_be_visible()
