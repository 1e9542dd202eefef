"""After one visit the site needs no network, and it says so only when that is true."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import BrowserContext, Page
from site_server import Site
from waiting import until, until_python_is, until_ready_offline

STORED = """caches.keys()
  .then((names) => names.filter((name) => name !== "footwell-image"))
  .then((names) => Promise.all(names.map((name) => caches.open(name))))"""
COUNT = f"{STORED}.then((all) => Promise.all(all.map((one) => one.keys()))).then((l) => l.flat())"

READY, NOT_READY = "Ready offline: works here", "Not ready offline yet"
NOTE_WHAT_IS_SAID = """
window.said = "";
new MutationObserver(() => { said += document.body?.innerText ?? ""; })
  .observe(document, { subtree: true, childList: true, characterData: true });
"""


def stored_addresses(page: Page) -> list[str]:
    addresses: list[str] = page.evaluate(f"{COUNT}.then((l) => l.map((request) => request.url))")
    return addresses


def listed_files(site: Site) -> list[str]:
    files = [path for path in site.folder.rglob("*") if path.is_file()]
    names = [path.relative_to(site.folder).as_posix() for path in files]
    unlisted = ("service_worker.js", "build.json")
    fallback = ("python/wheels-", "python_stdlib.zip")
    return [n for n in names if n not in unlisted and not any(word in n for word in fallback)]


def test_the_page_and_its_python_start_without_a_network(kept_page: Page, own_site: Site) -> None:
    kept_page.context.set_offline(True)
    own_site.stop()
    kept_page.reload()
    until_python_is(kept_page, "ready")


def test_when_ready_offline_is_said_every_listed_file_is_stored(
    kept_page: Page, own_site: Site
) -> None:
    stored = {address.removeprefix(own_site.address) for address in stored_addresses(kept_page)}
    assert stored == set(listed_files(own_site))


def test_ready_offline_is_not_said_while_one_file_cannot_be_had(
    own_site: Site, new_phone: Callable[..., BrowserContext]
) -> None:
    notices = own_site.path("NOTICES.txt")
    whole = notices.read_bytes()
    own_site.replace("NOTICES.txt", whole + b"changed on the way")
    page = new_phone().new_page()
    page.goto(own_site.address)
    until(page, "navigator.serviceWorker.getRegistration().then((it) => it === undefined)")
    until_python_is(page, "ready")
    assert page.evaluate("document.documentElement.dataset.offline") != "ready offline"
    own_site.replace("NOTICES.txt", whole)
    page.reload()
    until_ready_offline(page)


def test_a_stored_site_opened_offline_is_never_said_to_be_not_ready(
    kept_page: Page, own_site: Site
) -> None:
    kept_page.add_init_script(NOTE_WHAT_IS_SAID)
    kept_page.context.set_offline(True)
    own_site.stop()
    kept_page.reload()
    kept_page.get_by_text(READY).wait_for()
    assert not kept_page.evaluate(f"said.includes('{NOT_READY}')")


def test_on_the_first_visit_the_page_says_that_it_is_not_ready_yet(
    own_site: Site, new_phone: Callable[..., BrowserContext]
) -> None:
    page = new_phone().new_page()
    page.add_init_script(NOTE_WHAT_IS_SAID)
    page.goto(own_site.address)
    page.get_by_text(READY).wait_for()
    assert page.evaluate(f"said.includes('{NOT_READY}')")


def test_an_address_with_a_fragment_or_a_question_opens_offline_too(
    kept_page: Page, own_site: Site
) -> None:
    own_site.stop()
    kept_page.goto(f"{own_site.address}?from=home#anything")
    until_python_is(kept_page, "ready")


def test_the_notices_can_be_read_offline(kept_page: Page, own_site: Site) -> None:
    own_site.stop()
    kept_page.goto(f"{own_site.address}NOTICES.txt")
    assert "pydantic" in kept_page.inner_text("body")
