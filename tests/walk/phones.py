"""A new phone for each walk, and a site to walk on."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TypeVar

from chromium import launch
from guard import watched_phone
from no_diagram import Fingers
from playwright.sync_api import sync_playwright
from site_server import Site
from waiting import until_python_is

T = TypeVar("T")


def on_new_phones(site: Site, walks: list[T]) -> Iterator[tuple[T, Fingers]]:
    """Each walk with the fingers on a phone that has no job and on which Python is ready."""
    with sync_playwright() as playwright:
        browser = launch(playwright)
        for walk in walks:
            with watched_phone(browser) as context:
                page = context.new_page()
                page.goto(site.address)
                until_python_is(page, "ready")
                yield walk, Fingers(page)
        browser.close()


@contextmanager
def served() -> Iterator[Site]:
    """The built site, served from a copy."""
    with tempfile.TemporaryDirectory() as folder:
        site = Site(Path(folder))
        try:
            yield site
        finally:
            site.stop()
