"""A page with nothing but the bridge to Python, beside the site itself."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from chromium import put_away
from planting import Bug
from playwright.sync_api import BrowserContext, Page
from site_server import ROOT, Site


def add_harness(site: Site, bug: Bug | tuple[()] = ()) -> None:
    """Put the pages for tests into a copy of the site, in the place of those that it has."""
    shutil.rmtree(site.folder / "harness", ignore_errors=True)
    command = ["node", "tests/run/harness.mjs", str(site.folder), *bug]
    subprocess.run(command, cwd=ROOT, check=True, timeout=60)


@pytest.fixture(scope="session")
def harness_site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    served = Site(tmp_path_factory.mktemp("harness"))
    add_harness(served)
    yield served
    served.stop()


@pytest.fixture
def bridge(new_phone: Callable[..., object], harness_site: Site) -> Page:
    """The bridge's page on a new phone."""
    return open_bridge(new_phone, harness_site)


def open_bridge(new_phone: Callable[..., object], site: Site) -> Page:
    page: Page = new_phone().new_page()  # type: ignore[attr-defined]
    page.goto(f"{site.address}harness/bridge.html")
    return page


@pytest.fixture
def own_site(tmp_path: Path, harness_site: Site, phones: list[BrowserContext]) -> Iterator[Site]:
    """A site that the test may break, the bridge's page included."""
    served = Site(tmp_path, harness_site.folder)
    yield served
    put_away(phones)
    served.stop()


@pytest.fixture
def own_bridge(own_site: Site, new_phone: Callable[..., object]) -> Callable[[], Page]:
    """Opens the bridge's page on a site that the test may break first."""
    return lambda: open_bridge(new_phone, own_site)


@pytest.fixture
def planted_bridge(own_site: Site, new_phone: Callable[..., object]) -> Callable[[Bug], Page]:
    """Opens the bridge's page with a bug in it."""

    def opened(bug: Bug) -> Page:
        add_harness(own_site, bug)
        return open_bridge(new_phone, own_site)

    return opened
