"""Pictures of every screen, light and dark, to be looked at: `screens.py ADDRESS [WIDTHxHEIGHT ...]`.

Walks one job by touch and keeps a picture of each screen in `tests/browser/out`.
"""

from __future__ import annotations

import sys
from pathlib import Path

from chromium import launch
from playwright.sync_api import Browser, Page, sync_playwright
from walk import Walk

OUT = Path(__file__).parent / "out"
SIZES = ["360x740", "412x740"]


class Camera:
    """Takes pictures, numbered in the order of the walk."""

    def __init__(self, page: Page, folder: Path) -> None:
        self.page, self.folder, self.count = page, folder, 0
        folder.mkdir(parents=True, exist_ok=True)

    def shoot(self, name: str) -> None:
        self.count += 1
        self.page.wait_for_timeout(150)
        self.page.screenshot(path=self.folder / f"{self.count:02}-{name}.png")


def walk(browser: Browser, address: str, size: str, scheme: str) -> None:
    width, height = (int(number) for number in size.split("x"))
    context = browser.new_context(
        viewport={"width": width, "height": height},
        has_touch=True,
        color_scheme="dark" if scheme == "dark" else "light",
        locale="en-GB",
    )
    page = context.new_page()
    page.on("pageerror", lambda error: print("page error:", error))
    Walk(page, address, Camera(page, OUT / f"{size}-{scheme}").shoot).whole()
    context.close()


def main(address: str, sizes: list[str]) -> None:
    with sync_playwright() as tool:
        browser = launch(tool)
        for size in sizes or SIZES:
            for scheme in ("light", "dark"):
                walk(browser, address, size, scheme)
        browser.close()


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
