"""The policy that page and worker run under, and the guard that watches every test."""

from __future__ import annotations

import urllib.error
import urllib.request
from collections.abc import Callable, Mapping
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
MARKUP_REFUSED = """(() => {
  try { document.createElement("p").innerHTML = "<b>x</b>"; return false } catch { return true }
})()"""
REFUSED = "(text) => { try { setTimeout(text); return false } catch { return true } }"


def answered(
    site: Site, path: str, method: str = "GET", **headers: str
) -> tuple[int, dict[str, str]]:
    """Status and headers of a response, refusals included."""
    asked = urllib.request.Request(site.address + path, method=method, headers=headers)
    try:
        response = urllib.request.urlopen(asked)
    except urllib.error.HTTPError as refusal:
        response = refusal
    with response:
        return response.status, {name.lower(): value for name, value in response.headers.items()}


def served(site: Site, path: str) -> dict[str, str]:
    return answered(site, path)[1]


def paths_of(site: Site) -> list[str]:
    files = [file for file in site.folder.rglob("*") if file.is_file()]
    return ["", *(file.relative_to(site.folder).as_posix() for file in files)]


def has_the_policy(headers: Mapping[str, str]) -> None:
    policy = headers.get("content-security-policy", "")
    assert policy.startswith("default-src 'none'; script-src 'self' 'wasm-unsafe-eval';")
    assert "require-trusted-types-for 'script'" in policy
    assert "'unsafe-eval'" not in policy
    assert "unsafe-inline" not in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cross-origin-opener-policy"] == "same-origin"
    assert headers["permissions-policy"].startswith("camera=(self), microphone=()")
    assert headers["strict-transport-security"] == "max-age=31536000"


def test_every_response_has_the_policy(
    site: Site, record_property: Callable[[str, object], None]
) -> None:
    paths = paths_of(site)
    assert len(paths) > 20
    responses = [answered(site, path) for path in paths]
    responses += [answered(site, paths[1], "HEAD"), answered(site, "?from=home")]
    same = responses[1][1]["etag"]
    others = [
        answered(site, paths[1], **{"If-None-Match": same}),
        answered(site, "no/such/file"),
        answered(site, "", "POST"),
    ]
    assert [status for status, _ in responses] == [200] * len(responses)
    assert [status for status, _ in others] == [304, 404, 405]
    for _, headers in (*responses, *others):
        has_the_policy(headers)
    record_property("responses", len(responses) + len(others))


@pytest.mark.parametrize("bug", [{"content-security-policy": "default-src 'self'"}, {}])
def test_a_response_without_the_policy_is_found_out(site: Site, bug: dict[str, str]) -> None:
    whole = served(site, "service_worker.js")
    has_the_policy(whole)
    whole.pop("content-security-policy")
    with pytest.raises(AssertionError):
        has_the_policy(whole | bug)


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
    for path in paths_of(site):
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
    assert page.evaluate(MARKUP_REFUSED)


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
