"""A new release is offered; until it is taken, and for old pages after that, nothing changes."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from counts import counted
from offline_helpers import (
    NEWER,
    UPDATE_WAITS,
    cache_names,
    forget_fetched,
    look_for_update,
    make_release,
    release_of,
    rename_all,
    take_update,
)
from playwright.sync_api import BrowserContext, Page, expect
from pressing import soon
from site_server import Site
from test_stored_formats import STORED
from waiting import kill_workers, until, until_python_is, until_ready_offline
from walk import CIRCUIT

HASH = re.compile(r"-\w+(?=\.json$)")
PYTHON = "document.documentElement.dataset.python"
LEAVES_WHAT_IS_IN_USE = re.compile(
    r"(\w+)\.some\((\w+)=>\2\.startsWith\(\w+\)&&\w+\(\2\)\)\|\|(?=await Promise)"
)


def test_an_update_waits_without_another_interpreter_and_a_reload_does_not_take_it(
    kept_page: Page, own_site: Site
) -> None:
    before = release_of(kept_page)
    make_release(own_site)
    look_for_update(kept_page)
    until(kept_page, UPDATE_WAITS)
    kinds = sorted(name.rsplit("-", 1)[0] for name in cache_names(kept_page))
    assert kinds == ["footwell-app", "footwell-app", "footwell-interpreter"]
    kept_page.reload()
    until_python_is(kept_page, "ready")
    assert release_of(kept_page) == before
    until(kept_page, UPDATE_WAITS)


def an_old_page_finds_its_own_files(
    old: Page, site: Site, updates: int, spoil: Callable[[Site], None] = lambda site: None
) -> None:
    """Nothing of the page itself is loaded late; its worker is, with all that Python is made of, and the
    sheets of the library."""
    newer = old.context.new_page()
    newer.goto(site.address)
    for number in range(updates):
        rename_all(site, f"NEXT{number}")
        spoil(site)
        assert look_for_update(newer) == "stored"
        take_update(newer)
        newer.reload()
        until_ready_offline(newer)
    assert release_of(newer) != release_of(old)
    forget_fetched(old)
    old.evaluate("document.documentElement.dataset.python = 'dead'")
    kill_workers(old)
    until(old, f"['ready', 'failed'].includes({PYTHON})")
    assert old.evaluate(PYTHON) == "ready", "the old page's own files are gone"
    job_on_its_own_sheet(old)
    newer.get_by_role("button", name="New job").tap()
    expect(newer.get_by_role("button", name=f"{NEWER} {CIRCUIT}")).to_be_visible()


def job_on_its_own_sheet(old: Page) -> None:
    old.get_by_role("button", name="New job").tap()
    circuit = old.get_by_role("button", name=CIRCUIT)
    expect(circuit).to_be_visible()
    assert NEWER not in old.inner_text("main"), "the list is that of the newer release"
    circuit.tap()
    expect(old.get_by_text("Dead in every position")).to_be_visible()
    [opened] = old.evaluate(STORED)
    assert NEWER not in opened["body"], "the sheet is that of the newer release"


def test_a_page_of_the_old_release_finds_its_own_python_and_sheets_after_the_update(
    kept_page: Page, own_site: Site
) -> None:
    an_old_page_finds_its_own_files(kept_page, own_site, counted(1, 2, 2))


def named_alike(site: Site) -> None:
    """Take the hashes from the names of list and sheets."""
    circuits = [*site.folder.glob("assets/circuits/*")]
    for file in [*site.folder.glob("assets/main-*.js"), *circuits]:
        text = file.read_text()
        for other in circuits:
            text = text.replace(other.name, HASH.sub("", other.name))
        file.unlink()
        file.with_name(file.name if file.suffix == ".js" else HASH.sub("", file.name)).write_text(
            text
        )
    site.list_anew()


def test_sheets_that_keep_their_names_over_releases_are_found_out(
    own_site: Site, new_phone: Callable[..., BrowserContext]
) -> None:
    named_alike(own_site)
    phone = new_phone()
    old, newer = phone.new_page(), phone.new_page()
    for page in (old, newer):
        page.goto(own_site.address)
        until_ready_offline(page)
    for sheet in own_site.folder.glob("assets/circuits/*"):
        own_site.replace(
            f"assets/circuits/{sheet.name}",
            sheet.read_text().replace('"title": "', f'"title": "{NEWER} ').encode(),
        )
    own_site.list_anew()
    assert look_for_update(newer) == "stored"
    take_update(newer)
    with pytest.raises(AssertionError, match="that of the newer release"):
        job_on_its_own_sheet(old)


def test_a_worker_that_takes_away_what_an_old_release_still_needs_is_found_out(
    kept_page: Page, own_site: Site
) -> None:
    with pytest.raises(AssertionError, match="files are gone"):
        an_old_page_finds_its_own_files(kept_page, own_site, 1, tidies_at_once)


def tidies_at_once(site: Site) -> None:
    text, count = LEAVES_WHAT_IS_IN_USE.subn("", site.path("service_worker.js").read_text())
    assert count == 1, "the bug no longer fits"
    site.replace("service_worker.js", text.encode())


def test_the_old_release_is_removed_when_its_last_page_is_closed(
    kept_page: Page, own_site: Site
) -> None:
    old = f"footwell-app-{release_of(kept_page)}"
    other = kept_page.context.new_page()
    other.goto(own_site.address)
    make_release(own_site)
    look_for_update(other)
    until(other, UPDATE_WAITS)
    take_update(other)
    other.reload()
    until_ready_offline(other)
    assert old in cache_names(other)
    kept_page.close()
    # A browser lets go of a closed page when it has time to; each start of the app looks again.
    soon(other, lambda: gone_after_a_reload(other, old), "a start that finds the old page closed")


def gone_after_a_reload(page: Page, cache: str) -> bool:
    page.reload()
    until_ready_offline(page)
    return cache not in cache_names(page)
