"""A sheet from a wiring diagram: refused at the place, undone, kept over a reload, used unfinished."""

from no_diagram import Fingers
from playwright.sync_api import Page, expect


def test_a_sheet_is_built_kept_over_a_reload_and_used_unfinished(page: Page) -> None:
    fingers = Fingers(page)
    fingers.tap("New job", then="From a diagram")
    fingers.tap("From a diagram", then="Fuse")
    fingers.tap("Fuse", then="15")
    fingers.tap("15", then="Earth")
    fingers.tap("Earth")
    expect(page.get_by_role("alert")).to_contain_text("straight to earth")
    fingers.tap("Switch", then="1")
    fingers.tap("1", then="Lamp")
    fingers.tap("Lamp", then="H7")
    fingers.tap("H7", then="Use this sheet")
    expect(page.get_by_text("lamp L1, terminal 2", exact=True)).to_be_visible()
    page.reload()
    expect(page.get_by_text("lamp L1, terminal 2", exact=True)).to_be_visible()
    fingers.tap("Undo")
    expect(page.get_by_text("switch S1, terminal 1", exact=True)).to_be_visible()
    fingers.tap("Lamp", then="H7")
    fingers.tap("H7", then="Use this sheet")
    fingers.tap("Use this sheet", then="Dead in every position", leads_on=True)
