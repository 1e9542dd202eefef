"""A job without a diagram: a check after few touches, places found on the way, and undo."""

from no_diagram import Fingers, first_check
from playwright.sync_api import Page, expect


def test_a_job_without_a_diagram_comes_to_a_check_in_few_touches(page: Page) -> None:
    fingers = Fingers(page)
    assert "probe" in first_check(fingers, "Fan", positions="4", relay=True)
    assert fingers.touches <= 12


def test_what_is_found_on_the_way_stands_on_the_circuit(page: Page) -> None:
    fingers = Fingers(page)
    first_check(fingers, "Lamp", positions="2", relay=False)
    fingers.tap("Circuit")
    fingers.tap("List")
    page.get_by_role("button", name="way 1 of control plug, wire side").first.tap()
    page.get_by_text("What is on the vehicle").tap()
    expect(page.get_by_text("Found in the unseen feed")).to_be_visible()
    fingers.tap("A fuse")
    fingers.tap("Back")
    expect(page.get_by_role("button", name="fuse F1").first).to_be_visible()
