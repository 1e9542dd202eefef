"""Text that would be code: in every text field of a job, through every view of it."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from counts import counted
from hostile_texts import CREATED, PAYLOADS, RUN, hostile_job
from playwright.sync_api import BrowserContext, Page
from site_server import Site
from walk import Walk

from footwell.job import links
from footwell.job.events import Event

NewPhone = Callable[..., BrowserContext]
ROUNDS = counted(1, 30, 30)
"""Each round gives every field other payloads."""


def nothing_came_of_it(page: Page) -> None:
    assert page.evaluate("globalThis.hit") is None
    assert page.locator(CREATED).count() == 0


def toured(page: Page, site: Site, events: list[Event]) -> None:
    """Opens the job by its link, takes it over and looks at every view."""
    dialogs: list[str] = []
    page.on("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
    walk = Walk(page, site.address, lambda name: nothing_came_of_it(page))
    page.goto(f"{site.address}#{links.make(events)}")
    walk.key("Take over as a new job").wait_for()
    nothing_came_of_it(page)
    walk.go("Take over as a new job")
    walk.key("Suspects").wait_for()
    walk.settle()
    walk.tour()
    walk.tap("More", exact=True)
    walk.tap("Report")
    page.locator(".report").wait_for()
    nothing_came_of_it(page)
    walk.tap("More", exact=True)
    walk.tap("All jobs")
    page.locator(".jobs li").first.wait_for()
    nothing_came_of_it(page)
    assert dialogs == []


@pytest.mark.parametrize("first", range(0, 4 * ROUNDS, 4))
def test_text_that_would_be_code_stays_text_in_every_view(
    new_phone: NewPhone, site: Site, first: int, record_property: Callable[[str, object], None]
) -> None:
    record_property("payloads", len(PAYLOADS))
    toured(new_phone(locale="en-GB").new_page(), site, hostile_job(first))


@pytest.mark.parametrize("made", ["document.body.append(document.createElement('video'))", RUN])
def test_text_that_became_code_is_found_out(page: Page, made: str) -> None:
    page.evaluate(f"() => void ({made})")
    with pytest.raises(AssertionError):
        nothing_came_of_it(page)
