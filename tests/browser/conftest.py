"""A served site and phones to open it on; every phone is watched for forbidden deeds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from branch_counting import FOLDER, Counting
from chromium import SIMPLE_CODE, launch, phone, put_away
from guard import Guard, watched_phone
from parity.seed import some
from planting import plant
from playwright.sync_api import (
    Browser,
    BrowserContext,
    Page,
    Playwright,
    StorageState,
    expect,
    sync_playwright,
)
from site_server import Site
from waiting import PATIENCE_S
from walk import Walk

NewPhone = Callable[..., BrowserContext]
OpenAtPad = Callable[..., Walk]

# Python may still be starting, and the machine may be busy.
expect.set_options(timeout=1000 * PATIENCE_S)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--draw",
        action="store_true",
        help="a quarter of the planted bugs and half of the stories, drawn by the commit; all with"
        " FOOTWELL_LONG=1",
    )


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Long ones first; else the order stays."""
    if config.getoption("--draw"):
        planted = [item for item in items if "found_out" in item.name]
        stories = [item for item in items if item.get_closest_marker("story")]
        twins = [stories[n : n + 2] for n in range(0, len(stories), 2)]
        told = (item for pair in some(twins, len(twins) // 2) for item in pair)
        kept = {*some(planted, len(planted) // 4), *told}
        left_out = {*planted, *stories} - kept
        config.hook.pytest_deselected(items=[*left_out])
        items[:] = [item for item in items if item not in left_out]
    items.sort(key=lambda item: item.get_closest_marker("long") is None)


@pytest.fixture(scope="session")
def browsers() -> Iterator[Playwright]:
    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture(scope="session")
def chromium(browsers: Playwright) -> Iterator[Browser]:
    browser = launch(browsers, SIMPLE_CODE)
    yield browser
    browser.close()


@pytest.fixture(scope="session")
def shared_site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    served = Site(tmp_path_factory.mktemp("shared"))
    if FOLDER:
        plant(served)  # nothing: the page as it is, but told where its pieces were written
        served.list_anew()
    yield served
    served.stop()


@pytest.fixture
def site(shared_site: Site) -> Iterator[Site]:
    """The site, to be left as it is; one that was stopped to go offline comes back."""
    yield shared_site
    shared_site.start()


@pytest.fixture
def branches(request: pytest.FixtureRequest) -> Counting:
    """Counts, where that is asked for, what runs of the shared site's scripts."""
    if not FOLDER:
        return Counting({})
    site: Site = request.getfixturevalue("shared_site")
    scripts = site.folder.glob("assets/*.js")
    return Counting({f"{site.address}assets/{file.name}": file.read_text() for file in scripts})


@pytest.fixture
def phones(guards: list[Guard], branches: Counting) -> Iterator[list[BrowserContext]]:
    """The phones of the test. They are put away before their sites are: what still loads fails at nobody."""
    used: list[BrowserContext] = []
    yield used
    branches.write()
    put_away(used)


@pytest.fixture
def own_site(tmp_path: Path, phones: list[BrowserContext]) -> Iterator[Site]:
    """A site that the test may break."""
    served = Site(tmp_path)
    yield served
    put_away(phones)
    served.stop()


@pytest.fixture
def guards() -> Iterator[list[Guard]]:
    """The guards of all phones of the test, in the order of their making."""
    watching: list[Guard] = []
    yield watching
    for guard in watching:
        guard.check()


@pytest.fixture
def new_phone(
    chromium: Browser, guards: list[Guard], phones: list[BrowserContext], branches: Counting
) -> NewPhone:
    """Makes phones of 360 by 740 with touch, each with an empty profile."""

    def make(**options: object) -> BrowserContext:
        context = phone(chromium, **options)
        branches.follow(context)
        phones.append(context)
        guards.append(Guard(context))
        return context

    return make


@pytest.fixture
def page(new_phone: NewPhone, site: Site) -> Page:
    """The site, opened on a new phone."""
    opened = new_phone().new_page()
    opened.goto(site.address)
    return opened


@pytest.fixture(scope="session")
def kept_at_pad(chromium: Browser, shared_site: Site) -> StorageState:
    """What a phone has stored that was left at the pad of the first check that takes a number."""
    with watched_phone(chromium) as left:
        walk = Walk(left.new_page(), shared_site.address, lambda name: None)
        walk.begin()
        walk.until("Enter reading")
        walk.tap("Enter reading")
        walk.page.locator(".digits").wait_for()
        return left.storage_state(indexed_db=True)


@pytest.fixture
def at_pad(new_phone: NewPhone, site: Site, kept_at_pad: StorageState) -> OpenAtPad:
    """Opens the site at that pad, on a phone with these options and this script run first."""

    def open_at_pad(script: str = "", **options: object) -> Walk:
        context = new_phone(storage_state=kept_at_pad, **options)
        context.add_init_script(script)
        walk = Walk(context.new_page(), site.address, lambda name: None)
        walk.page.goto(site.address)
        walk.page.locator(".digits").wait_for()
        return walk

    return open_at_pad


@pytest.fixture
def go_offline(site: Site) -> Callable[[BrowserContext], None]:
    """Takes the network from a phone: the browser says so, and nothing answers."""

    def go(context: BrowserContext) -> None:
        context.set_offline(True)
        site.stop()

    return go
