"""As it should be, read off the old plug: kept by the job over a reload, undone, and compared with."""

from playwright.sync_api import Page, expect
from walk import SWITCH_PLUG, Walk

READ = [("1", "RD/BK"), ("2", "GN/BK"), ("3", "GN/WH"), ("4", "GN/RD")]


def test_the_old_plug_says_how_it_should_be_until_that_is_undone(page: Page) -> None:
    walk = Walk(page, page.url, lambda name: None)
    walk.begin_wiring(SWITCH_PLUG)
    expect(page.get_by_text("As it should be: from the sheet.")).to_be_visible()
    walk.tap("Read it off the old plug")
    page.locator(".way").first.tap()
    for way, colour in READ:
        expect(page.get_by_role("group", name=f"Colour in way {way}")).to_be_visible()
        walk.tap(colour, exact=True)
    walk.tap("All other ways are empty")
    expect(page.get_by_text("the sheet has it in way 2")).to_be_visible()
    page.reload()
    expect(page.get_by_text("the sheet has it in way 2")).to_be_visible()
    walk.go("This is how it should be")
    expect(page.get_by_text("As it should be: read off the old plug.")).to_be_visible()
    second = page.get_by_role("button", name="Way 2: should be GN/BK")
    expect(second).to_be_visible()
    walk.tap("All as they should be")
    expect(page.get_by_text("Every wire sits where it should.")).to_be_visible()
    while not walk.key("Path", exact=True).is_visible():
        walk.tap("Back")
    walk.tap("Path", exact=True)
    expect(page.get_by_text("read off the old plug").first).to_be_visible()
    walk.undo_last()
    walk.to_wiring(SWITCH_PLUG)
    expect(page.get_by_text("As it should be: from the sheet.")).to_be_visible()
    expect(page.get_by_role("button", name="Way 2: should be GN/WH")).to_be_visible()
