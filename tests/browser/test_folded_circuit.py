"""A large circuit on the phone: branches that work are one symbol, which a tap opens and a key closes."""

from __future__ import annotations

from playwright.sync_api import Page, expect
from pressing import press
from site_server import Site

from tests.core.test_diagram_folds import told

WORDS_PX = 14
SIZE_OF_WORDS = """() => {
  const drawing = document.querySelector("svg.circuit");
  return 0.32 * drawing.clientWidth / drawing.viewBox.baseVal.width;
}"""


def test_branches_that_work_open_by_a_tap_and_fold_again(page: Page, site: Site) -> None:
    page.goto(f"{site.address}#{told('L3').ask('link_make')['text']}")
    press(page.get_by_role("button", name="Take over as a new job"))
    press(page.get_by_role("button", name="Circuit", exact=True))
    fold = page.get_by_role("button", name="(L1, L5, L7): fine")
    expect(fold).to_be_visible()
    assert page.evaluate(SIZE_OF_WORDS) >= WORDS_PX
    lamp = page.get_by_role("button", name="S5", exact=False)
    expect(lamp).to_have_count(0)
    fold.tap()
    expect(fold).to_have_count(0)
    expect(lamp).not_to_have_count(0)
    press(page.get_by_role("button", name="Fold", exact=True))
    expect(fold).to_be_visible()
