"""The volts along the path on the phone: reached beside the circuit, the drop in words and as a picture."""

from __future__ import annotations

from playwright.sync_api import Page, expect
from pressing import press
from site_server import Site

from tests.core.job_rig import Job


def test_the_line_leaves_its_band_where_too_much_falls(page: Page, site: Site) -> None:
    job = Job().dead().tools("meter").volts("F1.2", 25.2, "3").volts("X2.4.a", 20.0, "3")
    page.goto(f"{site.address}#{job.ask('link_make')['text']}")
    press(page.get_by_role("button", name="Take over as a new job"))
    press(page.get_by_role("button", name="Circuit", exact=True))
    press(page.get_by_role("button", name="Volts along the path"))
    expect(page.get_by_text("too much is lost between terminal 2 of fuse F1")).to_be_visible()
    expect(page.locator(".chart-fallen")).to_have_count(1)
    press(page.get_by_role("button", name="1", exact=True))
    expect(page.get_by_text("Nothing measured on this path")).to_be_visible()
    expect(page.locator(".chart-fallen")).to_have_count(0)
    press(page.get_by_role("button", name="terminal 2 of fuse F1"))
    expect(page.get_by_text("Measured:")).to_be_visible()
