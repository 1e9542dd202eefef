"""A plug that is otherwise than on the sheet: its numbers and ways are changed in place, kept and undone."""

from playwright.sync_api import Page, expect
from pressing import soon
from walk import SWITCH_PLUG, Walk


def refused(walk: Walk) -> bool:
    """Presses the key, which does nothing within the time of one touch, until the screen says why not."""
    walk.tap("Keep", exact=True)
    told = walk.page.get_by_role("alert").all_inner_texts()
    return any("cannot be a number of a way" in each for each in told)


def test_numbers_and_ways_are_changed_in_place_and_what_cannot_be_is_told(page: Page) -> None:
    walk = Walk(page, page.url, lambda name: None)
    walk.begin_wiring(SWITCH_PLUG)
    page.get_by_text("This plug is otherwise").tap()
    walk.tap("One more")
    expect(page.get_by_role("button", name="Way 7:")).to_be_visible()
    page.reload()
    page.get_by_text("This plug is otherwise").tap()
    page.get_by_label("Way 2", exact=True).fill("3")
    walk.tap("Keep", exact=True)
    expect(page.get_by_role("button", name="Way 3: should be GN/WH")).to_be_visible()
    page.get_by_label("Way 4", exact=True).fill("a b")
    soon(page, lambda: refused(walk), "that it cannot be")
    walk.tap("Back")
    walk.undo_last()
    walk.to_wiring(SWITCH_PLUG)
    expect(page.get_by_role("button", name="Way 2: should be GN/WH")).to_be_visible()
    expect(page.get_by_role("button", name="Way 7:")).to_be_visible()
