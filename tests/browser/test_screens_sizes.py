"""Every screen of a whole job can be pressed and read on small phones, lying, and with double text."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page
from screen_probe import faults_of_access, faults_of_size
from site_server import Site
from walk import Walk

NewPhone = Callable[..., BrowserContext]

LONG = bool(os.environ.get("FOOTWELL_LONG"))
"""FOOTWELL_LONG=1 walks every size and scheme; else the commit draws one of each kind."""


def drawn(choices: list[object]) -> list[object]:
    """One of the choices by the commit's own number, or all of them in the long run."""
    commit = subprocess.run(["git", "rev-parse", "HEAD"], capture_output=True, text=True)
    seed = int(commit.stdout.strip()[:8] or "0", 16)
    return choices if LONG else [choices[seed % len(choices)]]


DOUBLE_TEXT = """addEventListener("DOMContentLoaded", () => {
  document.documentElement.style.fontSize = "200%";
})"""


def faults_of_all_screens(page: Page, site: Site, faults: Callable[[Page], list[str]]) -> list[str]:
    found: list[str] = []

    def look(name: str) -> None:
        page.wait_for_timeout(100)
        found.extend(f"{name}: {fault}" for fault in faults(page))

    Walk(page, site.address, look).whole()
    return found


def phone_of(new_phone: NewPhone, width: int, height: int, **options: object) -> BrowserContext:
    return new_phone(viewport={"width": width, "height": height}, locale="en-GB", **options)


@pytest.mark.parametrize("size", drawn([(360, 640), (320, 568), (640, 360)]), ids=str)
def test_keys_and_words_fit(new_phone: NewPhone, site: Site, size: tuple[int, int]) -> None:
    page = phone_of(new_phone, *size).new_page()
    assert faults_of_all_screens(page, site, faults_of_size) == []


def test_nothing_is_lost_at_double_text(new_phone: NewPhone, site: Site) -> None:
    context = phone_of(new_phone, 320, 640)
    context.add_init_script(DOUBLE_TEXT)
    assert faults_of_all_screens(context.new_page(), site, faults_of_size) == []


@pytest.mark.parametrize("scheme", drawn(["light", "dark"]))
def test_axe_finds_nothing(new_phone: NewPhone, site: Site, scheme: str) -> None:
    page = phone_of(new_phone, 360, 740, color_scheme=scheme).new_page()
    assert faults_of_all_screens(page, site, faults_of_access) == []
