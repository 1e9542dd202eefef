"""A page whose site is stored on the phone."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page
from site_server import Site
from waiting import until_ready_offline


@pytest.fixture
def kept_page(own_site: Site, new_phone: Callable[..., BrowserContext]) -> Page:
    page: Page = new_phone().new_page()
    page.goto(own_site.address)
    until_ready_offline(page)
    return page
