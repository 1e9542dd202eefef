"""Browsers remove stored files when they need room: then the page works or says what to do."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from offline_helpers import REMOVE, STORES, forget_fetched
from parity.seed import some
from playwright.sync_api import BrowserContext, Error, Page
from pressing import soon
from site_server import Site
from waiting import until_ready_offline

PATHS = f"""{STORES}.then((all) => Promise.all(all.map((store) => store.keys())))
  .then((all) => all.flat().map((request) => request.url))"""
FALLS_BACK = re.compile(r"fetch\((\w+)\)\.catch\(\w+\)(?=\})")
PUT_BACK = "() => taken.store.put(taken.url, taken.found)"


def stored_paths(page: Page, site: Site) -> list[str]:
    return sorted(address.removeprefix(site.address) for address in page.evaluate(PATHS))


def test_with_any_one_stored_file_gone_an_offline_page_is_never_blank(
    kept_page: Page, own_site: Site
) -> None:
    paths = stored_paths(kept_page, own_site)
    assert len(paths) > 15
    remover = kept_page.context.new_page()
    remover.goto(f"{own_site.address}NOTICES.txt")
    own_site.stop()
    for path in some(paths, 10):
        remover.evaluate(REMOVE, path)
        kept_page.reload()
        assert len(kept_page.inner_text("body").strip()) > 20, f"blank without {path}"
        remover.evaluate(PUT_BACK)
    assert stored_paths(kept_page, own_site) == paths


def test_a_worker_without_its_own_page_for_that_is_found_out(
    own_site: Site, new_phone: Callable[..., BrowserContext]
) -> None:
    worker = own_site.path("service_worker.js")
    text, count = FALLS_BACK.subn(r"fetch(\1)", worker.read_text())
    assert count == 1, "the bug no longer fits"
    own_site.replace("service_worker.js", text.encode())
    page = new_phone().new_page()
    page.goto(own_site.address)
    until_ready_offline(page)
    own_site.stop()
    forget_fetched(page)
    page.evaluate(REMOVE, "index.html")
    with pytest.raises(Error, match="net::ERR_"):
        page.reload()


def test_a_file_that_was_lost_is_fetched_again_when_there_is_a_network(
    kept_page: Page, own_site: Site
) -> None:
    kept_page.evaluate(REMOVE, "NOTICES.txt")
    kept_page.reload()
    until_ready_offline(kept_page)
    assert "NOTICES.txt" in stored_paths(kept_page, own_site)


def test_what_cannot_be_had_any_more_keeps_no_other_lost_file_away(
    kept_page: Page, own_site: Site
) -> None:
    sheets = [path for path in stored_paths(kept_page, own_site) if "/circuits/" in path]
    for path in sheets:
        kept_page.evaluate(REMOVE, path)
    *gone, last = sheets
    for path in gone:
        own_site.replace(path, b"{}")
    forget_fetched(kept_page)
    kept_page.reload()
    soon(kept_page, lambda: last in stored_paths(kept_page, own_site), "the last sheet")
    assert not set(gone) & set(stored_paths(kept_page, own_site))
