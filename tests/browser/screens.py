"""Pictures of every screen, light and dark, for people to look at: `screens.py ADDRESS [WIDTHxHEIGHT ...]`.

Walks one job by touch and keeps a picture of each screen in `tests/browser/out`.
"""

from __future__ import annotations

import sys
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

OUT = Path(__file__).parent / "out"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"]
SIZES = ["360x740", "412x740"]


class Camera:
    """Takes pictures of one walk, numbered in the order of the walk."""

    def __init__(self, page: Page, folder: Path) -> None:
        self.page, self.folder, self.count = page, folder, 0
        folder.mkdir(parents=True, exist_ok=True)

    def shoot(self, name: str) -> None:
        self.count += 1
        self.page.wait_for_timeout(150)
        self.page.screenshot(path=self.folder / f"{self.count:02}-{name}.png")

    def tap(self, name: str, **how: object) -> None:
        self.page.get_by_role("button", name=name, **how).first.tap()  # type: ignore[arg-type]


def start(camera: Camera, address: str) -> None:
    camera.page.goto(address)
    camera.page.get_by_role("button", name="New job").wait_for()
    camera.shoot("no jobs")
    camera.tap("New job")
    camera.page.get_by_role("button", name="Saloon heater fan").wait_for()
    camera.shoot("new job")
    camera.tap("Saloon heater fan")
    camera.page.get_by_role("button", name="Dead in every position").wait_for()
    camera.tap("Dead in every position")
    camera.shoot("complaint")
    camera.tap("Start")
    camera.page.get_by_role("button", name="More", exact=True).wait_for()


def work(camera: Camera, most: int = 14) -> None:
    """Answers whatever is asked, as well as can be."""
    page = camera.page
    for _ in range(most):
        page.wait_for_timeout(1200)
        if page.get_by_role("button", name="Show the report").is_visible():
            camera.shoot("finished")
            return
        step(camera)


def step(camera: Camera) -> None:
    page = camera.page
    for name, act in STEPS.items():
        if page.get_by_role("button", name=name).first.is_visible():
            act(camera)
            return
    choice = page.locator(".answers button").first
    camera.shoot("check by word")
    choice.tap()
    page.get_by_role("button", name="Next").wait_for()


def pass_caution(camera: Camera) -> None:
    camera.shoot("caution")
    camera.tap("Understood")


def read_number(camera: Camera) -> None:
    camera.shoot("check")
    camera.tap("Enter reading")
    for key in ("1", "1", "Decimal mark", "8"):
        camera.tap(key, exact=True)
    camera.shoot("pad")
    camera.page.locator(".key-main").tap()
    camera.page.wait_for_timeout(1500)
    if camera.page.get_by_role("button", name="as typed").is_visible():
        camera.shoot("doubt")
        camera.tap("as typed")


def go_on(camera: Camera) -> None:
    camera.shoot("verdict")
    camera.tap("Next")


def look_at_wiring(camera: Camera) -> None:
    camera.shoot("wiring step")
    camera.tap("Look at")
    camera.shoot("connector")
    mirror(camera)
    camera.shoot("found")
    camera.tap("Keep what I found")
    moved = camera.page.get_by_role("button", name="I have moved them")
    moved.wait_for()
    camera.shoot("finding")
    moved.tap()


def mirror(camera: Camera) -> None:
    """Lays the last wire into the first way, and so on."""
    page = camera.page
    ways = page.locator(".way").count()
    page.locator(".way").first.tap()
    camera.shoot("wire to pick")
    wires = page.locator(".wires button").count() - 1
    for way in range(ways):
        from_end = ways - 1 - way
        page.locator(".wires button").nth(min(from_end, wires)).tap()


def see_positions(camera: Camera) -> None:
    for question in camera.page.locator(".toggles").all():
        question.locator("button").last.tap()
    camera.shoot("positions")
    camera.tap("Keep what I saw")


def mend(camera: Camera) -> None:
    camera.shoot("repair")
    camera.tap("I have renewed it")


STEPS = {
    "Understood": pass_caution,
    "Next": go_on,
    "Enter reading": read_number,
    "Look at": look_at_wiring,
    "I have renewed it": mend,
    "Say what you saw": see_positions,
}


def tour(camera: Camera) -> None:
    """The other views of a job."""
    page = camera.page
    for bar in ("Circuit", "Suspects", "Path", "More"):
        camera.tap(bar, exact=True)
        camera.shoot(bar.lower())
    for name in ("Story", "Wiring", "Share this job", "Record a reading"):
        camera.tap("More", exact=True)
        camera.tap(name)
        page.wait_for_timeout(400)
        camera.shoot(name.lower())
        camera.tap("Back")
    camera.tap("Circuit", exact=True)
    page.locator(".place").nth(2).dispatch_event("click")
    page.wait_for_timeout(400)
    camera.shoot("place")
    camera.tap("Back")
    camera.tap("Now", exact=True)
    for name in ("Another check", "Cannot do it"):
        key = page.get_by_role("button", name=name)
        if key.is_visible():
            key.tap()
            camera.shoot(name.lower())
            camera.tap("Back")


def end(camera: Camera, address: str) -> None:
    camera.tap("More", exact=True)
    camera.tap("Report")
    camera.shoot("report")
    camera.tap("More", exact=True)
    camera.tap("All jobs")
    camera.shoot("jobs")
    camera.tap("Settings")
    camera.shoot("settings")
    camera.tap("About and notices")
    camera.shoot("about")
    camera.page.goto(f"{address}#cut")
    camera.page.wait_for_timeout(800)
    camera.shoot("cut link")


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
    page.on("console", lambda line: line.type == "error" and print("console:", line.text))
    camera = Camera(page, OUT / f"{size}-{scheme}")
    start(camera, address)
    page.wait_for_timeout(1200)
    tour(camera)
    work(camera)
    end(camera, address)
    context.close()


def main(address: str, sizes: list[str]) -> None:
    with sync_playwright() as tool:
        browser = tool.chromium.launch(executable_path="/usr/bin/chromium", args=FLAGS)
        for size in sizes or SIZES:
            for scheme in ("light", "dark"):
                walk(browser, address, size, scheme)
        browser.close()


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
