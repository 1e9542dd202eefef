"""The policy that page and worker run under, and the guard that watches every test."""

from __future__ import annotations

import urllib.request
from collections.abc import Callable
from fnmatch import fnmatchcase

import pytest
from guard import Guard
from playwright.sync_api import BrowserContext, Page, Worker
from site_server import ROOT, Site
from waiting import until, until_python_is

HOSTS = ROOT / "web" / "hosts"
SAID = (
    *("content-security-policy", "cross-origin-opener-policy", "permissions-policy"),
    *("referrer-policy", "strict-transport-security", "x-content-type-options", "cache-control"),
)
REFUSED = "(text) => { try { setTimeout(text); return false } catch { return true } }"


def served(site: Site, path: str) -> dict[str, str]:
    with urllib.request.urlopen(site.address + path) as response:
        return {name.lower(): value for name, value in response.headers.items()}


@pytest.mark.parametrize("pattern", ["index.html", "assets/worker-*.js", "service_worker.js"])
def test_page_and_workers_are_served_with_the_policy(site: Site, pattern: str) -> None:
    path = site.path(pattern).relative_to(site.folder)
    headers = served(site, str(path))
    policy = headers["content-security-policy"]
    assert policy.startswith("default-src 'none'; script-src 'self' 'wasm-unsafe-eval';")
    assert "'unsafe-eval'" not in policy
    assert "'unsafe-inline'" not in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"


def ruled(path: str) -> dict[str, str]:
    """What `_headers` says of a path; of several rules for one field the values would be joined."""
    found: dict[str, str] = {}
    applies = False
    for line in (HOSTS / "_headers").read_text().splitlines():
        if not line.startswith(" "):
            applies = fnmatchcase(path, line)
        elif applies:
            name, _, value = line.strip().partition(": ")
            found[name.lower()] = ", ".join(filter(None, [found.get(name.lower()), value]))
    return found


def test_the_files_for_other_hosts_say_what_our_own_server_says(site: Site) -> None:
    paths = [file.relative_to(site.folder).as_posix() for file in site.folder.rglob("*.*")]
    assert len(paths) > 20
    for path in ["", *paths]:
        ours = served(site, path)
        assert ruled(f"/{path}").items() <= ours.items()
        assert {*SAID} <= {*ruled(f"/{path}")}
    ours = served(site, "index.html")
    apache, nginx = ((HOSTS / name).read_text() for name in (".htaccess", "nginx.conf"))
    for name in SAID:
        assert f'Header always set {name} "{ours[name]}"'.lower() in apache.lower()
        assert nginx.lower().count(f'add_header {name} "{ours[name]}" always;'.lower()) >= 1


def test_the_extension_is_served_as_what_can_be_compiled_while_it_streams(site: Site) -> None:
    path = site.path("python/pydantic_core-*.wasm").relative_to(site.folder)
    assert served(site, str(path))["content-type"] == "application/wasm"


def test_the_page_refuses_code_made_from_text(page: Page, guards: list[Guard]) -> None:
    assert page.evaluate(REFUSED, "window.broken = true")
    assert page.evaluate("window.broken") is None
    guards[0].forgive("TrustedScript")


def python_worker(page: Page) -> Worker:
    until_python_is(page, "ready")
    return page.workers[0]


def test_the_worker_refuses_code_made_from_text(page: Page, guards: list[Guard]) -> None:
    worker = python_worker(page)
    assert worker.evaluate(REFUSED, "self.broken = true")
    assert worker.evaluate("self.broken") is None
    guards[0].forgive("require-trusted-types-for")


@pytest.mark.parametrize("who", ["page", "worker"])
def test_neither_page_nor_worker_can_ask_another_host(
    page: Page, guards: list[Guard], who: str
) -> None:
    asking = page if who == "page" else python_worker(page)
    script = "fetch('https://another.example/').then(() => 'answered', () => 'refused')"
    assert asking.evaluate(script) == "refused"
    guards[0].forgive("Content Security Policy")


def test_the_notices_of_everything_shipped_can_be_read(site: Site) -> None:
    with urllib.request.urlopen(f"{site.address}NOTICES.txt") as response:
        text = response.read().decode()
    shipped = ["pyodide", "CPython", "pydantic", "pydantic_core", "typing_extensions"]
    more = ["annotated-types", "typing-inspection", "preact", "@preact/signals", "micropip"]
    for name in [*shipped, *more]:
        assert f"\n{name} " in text


def test_names_of_other_hosts_cannot_even_be_resolved(
    new_phone: Callable[..., BrowserContext], site: Site, guards: list[Guard]
) -> None:
    page = new_phone(bypass_csp=True).new_page()
    page.goto(site.address)
    script = "fetch('https://another.example/').then(() => 'answered', () => 'refused')"
    until(page, "document.readyState === 'complete'")
    assert page.evaluate(script) == "refused"
    guards[0].forgive("other host")
