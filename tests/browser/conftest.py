"""A served site and phones to open it on; every phone is watched for forbidden deeds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from chromium import launch, phone
from guard import Guard
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, sync_playwright
from site_server import Site

NewPhone = Callable[..., BrowserContext]


@pytest.fixture(scope="session")
def browsers() -> Iterator[Playwright]:
    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture(scope="session")
def chromium(browsers: Playwright) -> Iterator[Browser]:
    browser = launch(browsers)
    yield browser
    browser.close()


@pytest.fixture(scope="session")
def shared_site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    served = Site(tmp_path_factory.mktemp("shared"))
    yield served
    served.stop()


@pytest.fixture
def site(shared_site: Site) -> Iterator[Site]:
    """The site, to be left as it is; one that was stopped to go offline comes back."""
    yield shared_site
    shared_site.start()


@pytest.fixture
def own_site(tmp_path: Path) -> Iterator[Site]:
    """A site that the test may break."""
    served = Site(tmp_path)
    yield served
    served.stop()


@pytest.fixture
def guards() -> Iterator[list[Guard]]:
    """The guards of all phones of the test, in the order of their making."""
    watching: list[Guard] = []
    yield watching
    for guard in watching:
        guard.check()


@pytest.fixture
def new_phone(chromium: Browser, guards: list[Guard]) -> Iterator[NewPhone]:
    """Makes phones of 360 by 740 with touch, each with an empty profile."""
    contexts: list[BrowserContext] = []

    def make(**options: object) -> BrowserContext:
        context = phone(chromium, **options)
        contexts.append(context)
        guards.append(Guard(context))
        return context

    yield make
    for context in contexts:
        context.close()


@pytest.fixture
def page(new_phone: NewPhone, site: Site) -> Page:
    """The site, opened on a new phone."""
    opened = new_phone().new_page()
    opened.goto(site.address)
    return opened


@pytest.fixture
def go_offline(site: Site) -> Callable[[BrowserContext], None]:
    """Takes the network from a phone: the browser says so, and nothing answers."""

    def go(context: BrowserContext) -> None:
        context.set_offline(True)
        site.stop()

    return go
