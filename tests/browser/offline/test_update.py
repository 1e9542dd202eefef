"""A new release is offered; until it is taken, and for old pages after that, nothing changes."""

from __future__ import annotations

from offline_helpers import (
    UPDATE_WAITS,
    cache_names,
    look_for_update,
    make_release,
    release_of,
    take_update,
)
from playwright.sync_api import Page
from pressing import soon
from site_server import Site
from waiting import until, until_python_is, until_ready_offline

FETCHED = "(path) => fetch(path).then((answer) => answer.status)"


def test_an_update_waits_and_a_reload_does_not_take_it(kept_page: Page, own_site: Site) -> None:
    before = release_of(kept_page)
    make_release(own_site)
    look_for_update(kept_page)
    until(kept_page, UPDATE_WAITS)
    kept_page.reload()
    until_python_is(kept_page, "ready")
    assert release_of(kept_page) == before
    until(kept_page, UPDATE_WAITS)


def test_an_update_that_is_taken_is_there_after_the_reload(kept_page: Page, own_site: Site) -> None:
    before = release_of(kept_page)
    make_release(own_site)
    look_for_update(kept_page)
    until(kept_page, UPDATE_WAITS)
    take_update(kept_page)
    kept_page.reload()
    until_ready_offline(kept_page)
    assert release_of(kept_page) != before


def test_a_page_of_the_old_release_finds_its_own_files_after_the_update(
    kept_page: Page, own_site: Site
) -> None:
    old_script = own_site.path("assets/main-*.js").name
    other = kept_page.context.new_page()
    other.goto(own_site.address)
    make_release(own_site)
    look_for_update(other)
    until(other, UPDATE_WAITS)
    take_update(other)
    other.reload()
    until_ready_offline(other)
    assert kept_page.evaluate(FETCHED, f"assets/{old_script}") == 200


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


def test_an_update_does_not_store_the_interpreter_again(kept_page: Page, own_site: Site) -> None:
    make_release(own_site)
    look_for_update(kept_page)
    until(kept_page, UPDATE_WAITS)
    kinds = sorted(name.rsplit("-", 1)[0] for name in cache_names(kept_page))
    assert kinds == ["footwell-app", "footwell-app", "footwell-interpreter"]
