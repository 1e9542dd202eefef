"""Few touches, no doubles, nothing in the first moment, nothing lost on the way."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect
from pressing import FIRST_MOMENT_S, until_open
from site_server import Site
from waiting import until_python_is
from walk import CIRCUIT, Walk

OpenAtPad = Callable[..., Walk]


@pytest.fixture
def walk(page: Page, site: Site) -> Walk:
    return Walk(page, site.address, lambda name: None)


def stored_readings(page: Page) -> int:
    return int(
        page.evaluate(
            """() => new Promise((resolve) => {
              const opening = indexedDB.open("footwell");
              opening.onsuccess = () => {
                const all = opening.result.transaction("events").objectStore("events").getAll();
                all.onsuccess = () =>
                  resolve(all.result.filter(({ kind }) => kind === "reading taken").length);
              };
            })"""
        )
    )


def test_a_double_tap_keeps_one_reading(at_pad: OpenAtPad) -> None:
    walk = at_pad()
    until_python_is(walk.page, "ready")
    walk.tap("5", exact=True)
    box = until_open(walk.key("Keep 5")).bounding_box()
    assert box
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    for _ in range(2):
        walk.page.touchscreen.tap(x, y)
        walk.page.wait_for_timeout(80)
    walk.until_kept()
    walk.page.wait_for_timeout(1000 * FIRST_MOMENT_S)
    assert stored_readings(walk.page) == 1


def test_nothing_is_committed_in_the_first_moment(walk: Walk) -> None:
    walk.page.goto(walk.address)
    walk.tap("New job")
    walk.tap(CIRCUIT)
    walk.key("Start").wait_for()
    expect(walk.key("Start")).to_be_disabled()
    expect(walk.key("Start")).to_be_enabled()


def test_a_reload_keeps_what_was_typed(at_pad: OpenAtPad) -> None:
    walk = at_pad()
    for key in ("1", "Decimal mark", "4"):
        walk.tap(key, exact=True)
    walk.page.reload()
    expect(walk.page.locator(".digits")).to_contain_text("1.4")


def test_a_reload_after_each_action_shows_the_same_step(walk: Walk) -> None:
    walk.begin()
    for _ in range(2):
        walk.settle()
        heading = walk.page.locator("h1")
        before = heading.text_content()
        walk.page.reload()
        expect(heading).to_have_text(before or "")
        walk.step()


def test_undo_and_its_undo_lead_to_the_same_step(walk: Walk) -> None:
    walk.begin()
    walk.until("Next")
    walk.tap("Next")
    heading = walk.page.locator("h1")
    walk.settle()
    after = heading.text_content() or ""
    walk.tap("Undo")
    walk.key("Bring it back").wait_for()
    walk.tap("Bring it back")
    expect(heading).to_have_text(after)


@pytest.mark.parametrize(("typed", "shown"), [(",", "12.3"), (".", "12.3")])
def test_comma_and_point_are_the_same_on_a_keyboard(
    at_pad: OpenAtPad, typed: str, shown: str
) -> None:
    walk = at_pad()
    for key in ("1", "2", typed, "3"):
        walk.page.keyboard.press(key)
    expect(walk.page.locator(".digits")).to_contain_text(shown)
