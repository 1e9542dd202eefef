"""Few touches, no doubles, nothing in the first moment, nothing lost on the way."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect
from site_server import Site
from walk import CIRCUIT, FIRST_MOMENT_MS, Walk

MOST_TOUCHES = 8


@pytest.fixture
def walk(page: Page, site: Site) -> Walk:
    return Walk(page, site.address, lambda name: None)


def to_pad(walk: Walk) -> None:
    """From an empty phone to the pad of the first check that takes a number."""
    walk.begin()
    walk.until("Enter reading")
    walk.tap("Enter reading")


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


def test_first_check_stands_after_at_most_eight_touches(walk: Walk) -> None:
    touches = 0

    def touch(name: str) -> None:
        nonlocal touches
        touches += 1
        walk.tap(name)

    walk.page.goto(walk.address)
    for name in ("New job", CIRCUIT, "Dead in every position", "Start"):
        walk.key(name).wait_for()
        touch(name)
    walk.settle()
    while walk.key("Understood").is_visible():
        touch("Understood")
        walk.settle()
    expect(walk.page.locator(".expected, .answers").first).to_be_visible()
    assert touches <= MOST_TOUCHES


def test_a_double_tap_keeps_one_reading(walk: Walk) -> None:
    to_pad(walk)
    walk.tap("5", exact=True)
    walk.page.wait_for_timeout(FIRST_MOMENT_MS)
    box = walk.key("Keep 5").bounding_box()
    assert box
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    for _ in range(2):
        walk.page.touchscreen.tap(x, y)
        walk.page.wait_for_timeout(80)
    walk.page.wait_for_timeout(FIRST_MOMENT_MS)
    if walk.key("as typed").is_visible():
        walk.tap("as typed")
        walk.key("Next").wait_for()
    assert stored_readings(walk.page) == 1


def test_nothing_is_committed_in_the_first_moment(walk: Walk) -> None:
    walk.page.goto(walk.address)
    walk.tap("New job")
    walk.tap(CIRCUIT)
    walk.key("Start").wait_for()
    expect(walk.key("Start")).to_be_disabled()
    expect(walk.key("Start")).to_be_enabled()


def test_a_reload_keeps_what_was_typed(walk: Walk) -> None:
    to_pad(walk)
    for key in ("1", "Decimal mark", "4"):
        walk.tap(key, exact=True)
    walk.page.reload()
    expect(walk.page.locator(".digits")).to_contain_text("1.4")


def test_a_reload_after_each_action_shows_the_same_step(walk: Walk) -> None:
    walk.begin()
    for _ in range(4):
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
def test_comma_and_point_are_the_same_on_a_keyboard(walk: Walk, typed: str, shown: str) -> None:
    to_pad(walk)
    walk.page.locator(".digits").wait_for()
    for key in ("1", "2", typed, "3"):
        walk.page.keyboard.press(key)
    expect(walk.page.locator(".digits")).to_contain_text(shown)
