"""Every screen of a whole job can be pressed and read on small phones, lying, and with double text."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from itertools import count
from typing import TypeVar

import pytest
from parity.seed import commit
from playwright.sync_api import BrowserContext, Page
from pressing import until_awake
from screen_probe import faults_of_access, faults_of_size
from site_server import Site
from walk import Walk

pytestmark = pytest.mark.long

NewPhone = Callable[..., BrowserContext]
Size = tuple[int, int]
T = TypeVar("T")

USUAL: Size = (360, 740)
SIZES: list[Size] = [(360, 640), (320, 568), (640, 360)]
SCHEMES = ("light", "dark")

LONG = bool(os.environ.get("FOOTWELL_LONG"))
"""FOOTWELL_LONG=1 touches the keys on every size and looks at every screen on each, at double text and for
access in each scheme; else one size drawn by the commit is touched, and each screen is looked at in one of
these ways in turn."""
DRAWN = int(commit()[:8] or "0", 16)
TOUCHED = SIZES if LONG else [pytest.param(SIZES[DRAWN % len(SIZES)], id="drawn")]


def in_turn(choices: Sequence[T], turn: int) -> Sequence[T]:
    return choices if LONG else [choices[(DRAWN + turn) % len(choices)]]


DOUBLED: Size = (320, 640)
TEXT_SIZE = "(size) => { document.documentElement.style.fontSize = size; }"


def phone_of(new_phone: NewPhone, size: Size) -> BrowserContext:
    return new_phone(viewport={"width": size[0], "height": size[1]}, locale="en-GB")


def faults_of_all_screens(
    page: Page, site: Site, faults: Callable[[Page, int], list[str]]
) -> list[str]:
    found: list[str] = []
    turn = count()

    def look(name: str) -> None:
        # A key that is off is let off by the rules of contrast too.
        until_awake(page)
        found.extend(f"{name}: {fault}" for fault in faults(page, next(turn)))

    Walk(page, site.address, look).whole()
    return found


def resize(page: Page, size: Size) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.wait_for_timeout(100)


def faults_at_sizes(page: Page, turn: int) -> list[str]:
    found: list[str] = []
    for size in in_turn(SIZES, turn):
        resize(page, size)
        found.extend(f"{size}: {fault}" for fault in faults_of_size(page))
    return found


def faults_at_double_text(page: Page, turn: int = 0) -> list[str]:
    resize(page, DOUBLED)
    page.evaluate(TEXT_SIZE, "200%")
    page.wait_for_timeout(100)
    found = [f"double text: {fault}" for fault in faults_of_size(page)]
    page.evaluate(TEXT_SIZE, "")
    return found


def faults_of_access_at(page: Page, turn: int) -> list[str]:
    found: list[str] = []
    resize(page, USUAL)
    for scheme in in_turn(SCHEMES, turn):
        page.emulate_media(color_scheme=scheme)
        found.extend(f"{scheme}: {fault}" for fault in faults_of_access(page))
    return found


def faults_by_turns(page: Page, turn: int) -> list[str]:
    """Faults of the screen by size, at double text and of access by scheme; the page is left as it was."""
    found: list[str] = []
    before = page.viewport_size
    assert before
    for looks in in_turn((faults_at_sizes, faults_at_double_text, faults_of_access_at), turn):
        found.extend(looks(page, turn // 3))
    resize(page, (before["width"], before["height"]))
    return found


@pytest.mark.parametrize("touched", TOUCHED, ids=str)
def test_keys_and_words_fit_all_sizes_and_axe_finds_nothing(
    new_phone: NewPhone, site: Site, touched: Size
) -> None:
    page = phone_of(new_phone, touched).new_page()
    assert faults_of_all_screens(page, site, faults_by_turns) == []


def test_words_too_wide_for_double_text_are_told(new_phone: NewPhone, site: Site) -> None:
    page = phone_of(new_phone, USUAL).new_page()
    page.goto(site.address)
    page.get_by_role("button", name="New job").wait_for()
    assert faults_at_double_text(page) == []
    page.evaluate(
        """() => {
          const said = document.querySelector("main p, main h1, h1");
          said.textContent = "undivided".repeat(4);
          said.style.overflowWrap = "normal";
          said.style.wordBreak = "normal";
        }"""
    )
    assert faults_at_double_text(page) != []
