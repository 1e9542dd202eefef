"""A sheet from a wiring diagram: refused at the place, undone, kept over a reload, used unfinished."""

import re

from no_diagram import Fingers
from playwright.sync_api import Page, expect
from waiting import until_python_is


def in_view(page: Page) -> None:
    """No key of what can come next lies outside the screen or below the keys at its foot."""
    foot = page.get_by_role("button", name="Use this sheet").bounding_box()
    boxes = [key.bounding_box() for key in page.locator(".key-board button").all()]
    assert foot and len(boxes) > 15
    for box in boxes:
        assert box and box["x"] >= 0 and box["x"] + box["width"] <= 360
        assert box["height"] >= 48 and box["width"] >= 48
        assert box["y"] + box["height"] <= foot["y"]


def test_a_sheet_is_built_kept_over_a_reload_and_used_unfinished(page: Page) -> None:
    until_python_is(page, "ready")
    fingers = Fingers(page)
    fingers.tap("New job", then="From a diagram")
    fingers.tap("From a diagram", then="Fuse")
    fingers.tap("Fuse", then="15")
    fingers.tap("15", then="Earth")
    fingers.tap("Earth")
    expect(page.get_by_role("alert")).to_contain_text("straight to earth")
    in_view(page)
    fingers.tap("Plug", then="Put in")
    page.get_by_label("Its ways").fill("2 2")
    fingers.tap("Put in")
    expect(page.get_by_role("alert")).to_contain_text("Way 2 is named twice")
    expect(page.get_by_label("Its ways")).to_have_value("2 2")
    fingers.tap("Back", then="Switch")
    expect(page.get_by_role("button", name="Use this sheet")).to_have_class(re.compile("key-off"))
    expect(page.locator(".open-end[data-end='F1.2'] circle")).to_have_count(2)
    fingers.tap("Switch", then="1")
    expect(page.get_by_role("alert")).to_have_count(0)
    fingers.tap("1", then="Lamp")
    in_view(page)
    fingers.tap("Lamp", then="H7")
    fingers.tap("H7", then="Use this sheet")
    expect(page.get_by_text("lamp L1, terminal 2", exact=True)).to_be_visible()
    page.reload()
    expect(page.get_by_text("lamp L1, terminal 2", exact=True)).to_be_visible()
    fingers.tap("Undo")
    expect(page.get_by_text("switch S1, terminal 1", exact=True)).to_be_visible()
    fingers.tap("Lamp", then="H7")
    fingers.tap("H7", then="Lamp")
    in_view(page)
    expect(page.get_by_role("button", name="Use this sheet")).not_to_have_class(
        re.compile("key-off")
    )
    fingers.tap("Use this sheet", then="Dark in every position", leads_on=True)
