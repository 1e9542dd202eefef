"""A phone whose kept view is gone or damaged, and one whose Python does not start: the events are enough."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from guard import Guard
from offline.offline_helpers import REMOVE, forget_fetched
from parity.seed import some
from planting import plant
from playwright.sync_api import BrowserContext, Page, StorageState, expect
from pressing import press
from site_server import Site
from test_stored_formats import STORED
from waiting import PATIENCE_S, until, until_python_is, until_ready_offline
from walk import Walk

NewPhone = Callable[..., BrowserContext]
Change = Callable[[dict[str, Any]], str | None]

WASM = "python/interpreter-*/pyodide.asm.wasm"
VIEW = "JSON.parse(localStorage.getItem('footwell.view') ?? '{}')"

BOUNDARY_GIVES_UP = (
    "web/src/app/Boundary.tsx",
    "if (error && dropKeptView()) reset();",
    "",
)
ONCE_FAILED_ALWAYS_FAILED = ("web/src/features/step/Waiting.tsx", "ports().core.start();", "")


def moved(state: StorageState, site: Site, screen: str, change: Change | None = None) -> Any:
    """The phone on another address, left at another screen of its job, with its view changed."""
    phone: Any = json.loads(json.dumps(state))
    [origin] = phone["origins"]
    origin["origin"] = site.address.rstrip("/")
    kept = {item["name"]: item["value"] for item in origin["localStorage"]}
    route = json.loads(kept["footwell.route"])
    kept["footwell.route"] = json.dumps(route | {"show": screen})
    if change:
        text = change(json.loads(kept.pop("footwell.view")))
        kept |= {} if text is None else {"footwell.view": text}
    origin["localStorage"] = [{"name": name, "value": value} for name, value in kept.items()]
    return phone


DAMAGES: dict[str, Change] = {
    "removed": lambda kept: None,
    "cut": lambda kept: json.dumps(kept)[:2000],
    "of another shape": lambda kept: json.dumps(kept | {"view": {}}),
    "its step gone": lambda kept: json.dumps(
        kept | {"view": {k: v for k, v in kept["view"].items() if k != "step"}}
    ),
    "of another release": lambda kept: json.dumps(kept | {"release": "0", "view": {"title": 1}}),
    "a list": lambda kept: "[1]",
}


def the_view_is_made_anew(page: Page, address: str, patience_s: float = PATIENCE_S) -> None:
    page.goto(address)
    key = page.get_by_role("button", name="Enter reading")
    expect(key).to_be_visible(timeout=1000 * patience_s)
    expect(page.get_by_role("alert")).to_have_count(0)
    until(page, f"{VIEW}.view?.step?.kind === 'check'")


@pytest.mark.parametrize("damage", some(DAMAGES, 2))
def test_a_view_that_is_gone_or_damaged_is_made_anew_from_the_events(
    new_phone: NewPhone, site: Site, kept_at_pad: StorageState, damage: str
) -> None:
    state = moved(kept_at_pad, site, "work", DAMAGES[damage])
    the_view_is_made_anew(new_phone(storage_state=state).new_page(), site.address)


def test_a_page_that_stays_with_a_damaged_view_is_found_out(
    new_phone: NewPhone, own_site: Site, kept_at_pad: StorageState
) -> None:
    plant(own_site, BOUNDARY_GIVES_UP)
    state = moved(kept_at_pad, own_site, "work", DAMAGES["of another shape"])
    page = new_phone(storage_state=state).new_page()
    with pytest.raises(AssertionError):
        the_view_is_made_anew(page, own_site.address, patience_s=5)
    expect(page.get_by_text("This screen could not be drawn")).to_be_visible()


def a_reading_waits_for_python(
    new_phone: NewPhone, site: Site, state: StorageState, patience_s: float = PATIENCE_S
) -> None:
    """Kept while Python cannot be had, counted once it can."""
    wasm = site.path(WASM)
    whole = wasm.read_bytes()
    wasm.unlink()
    page = new_phone(storage_state=moved(state, site, "pad")).new_page()
    walk = Walk(page, site.address, lambda name: None)
    page.goto(site.address)
    for key in ("1", "1", "Decimal mark", "8"):
        walk.tap(key, exact=True)
    walk.go("Keep 11")
    expect(page.get_by_text("Kept as typed")).to_be_visible()
    walk.go("Next")
    until_python_is(page, "failed")
    expect(page.get_by_role("alert")).to_contain_text("cannot work anything out now")
    expect(page.get_by_role("alert")).to_contain_text("a content blocker is on, allow this site")
    expect(walk.key("Record a reading")).to_be_visible()
    before = page.evaluate(f"{VIEW}.events")
    wasm.write_bytes(whole)
    press(walk.key("Try again"))
    until(page, f"{VIEW}.events === {before + 1}", patience_s)
    walk.settle()


def test_a_reading_kept_while_python_cannot_start_is_counted_when_it_can(
    new_phone: NewPhone, own_site: Site, kept_at_pad: StorageState
) -> None:
    a_reading_waits_for_python(new_phone, own_site, kept_at_pad)


def test_a_page_that_never_starts_python_again_is_found_out(
    new_phone: NewPhone, own_site: Site, kept_at_pad: StorageState
) -> None:
    plant(own_site, ONCE_FAILED_ALWAYS_FAILED)
    with pytest.raises(AssertionError, match="never true"):
        a_reading_waits_for_python(new_phone, own_site, kept_at_pad, patience_s=5)


def the_job_can_be_saved_as_a_file(walk: Walk) -> None:
    stored = walk.page.evaluate(STORED)
    walk.tap("More", exact=True)
    walk.tap("Share this job")
    with walk.page.expect_download() as download:
        walk.tap("Save as a file")
    lines = download.value.path().read_text("utf-8").splitlines()
    assert [json.loads(line)["body"] for line in lines[1:]] == [event["body"] for event in stored]
    expect(walk.page.get_by_text("Making the link")).to_have_count(0)
    walk.tap("Back")


def test_with_the_interpreter_gone_and_no_network_the_page_says_so_and_shows_what_is_stored(
    new_phone: NewPhone, own_site: Site, kept_at_pad: StorageState, guards: list[Guard]
) -> None:
    page = new_phone(storage_state=moved(kept_at_pad, own_site, "work")).new_page()
    page.goto(own_site.address)
    until_ready_offline(page)
    # In this order: the worker, which looks after its files just now, could fetch it again.
    own_site.stop()
    forget_fetched(page)
    page.evaluate(REMOVE, own_site.path(WASM).relative_to(own_site.folder).as_posix())
    page.reload()
    until_python_is(page, "failed")
    # What the interpreter asked for besides, and nobody waits for any more.
    guards[-1].forgive("Failed to fetch")
    expect(page.get_by_role("alert")).to_contain_text("one of its files is no longer on this phone")
    expect(page.get_by_role("alert")).to_contain_text("Connect to a network once")
    walk = Walk(page, own_site.address, lambda name: None)
    expect(walk.key("Enter reading")).to_be_visible()
    the_job_can_be_saved_as_a_file(walk)
    walk.tap("More", exact=True)
    walk.tap("All jobs")
    expect(page.get_by_text("Saloon heater fan")).to_be_visible()
    own_site.start()
    page.reload()
    until_python_is(page, "ready")
    expect(page.get_by_role("alert")).to_have_count(0)
