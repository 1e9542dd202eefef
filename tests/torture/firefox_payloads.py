"""C2 in Debian's Firefox: text that would be code, in every field of a job and through every view."""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from counts import counted, rounds
from firefox import Firefox

sys.path.insert(0, str(Path(__file__).parents[1] / "browser"))
from hostile_texts import CREATED, PAYLOADS, RUN, hostile_job
from site_server import Site

from footwell.job import links

PATIENCE_S = 120
WATCH = """() => {
  window.misdeeds = [];
  addEventListener("securitypolicyviolation",
    (breach) => misdeeds.push(breach.violatedDirective));
  for (const name of ["alert", "confirm", "prompt"]) window[name] = () => misdeeds.push(name);
}"""
FOUND = f"""[...misdeeds, ...(globalThis.hit === undefined ? [] : ["a script ran"]),
  ...Array.from(document.querySelectorAll({json.dumps(CREATED)}), (made) => made.tagName)]"""
TELLS = f"document.body.innerText.includes({json.dumps(RUN)})"
PRESS = """((name) => {
  const label = (key) => (key.ariaLabel ?? key.textContent).trim();
  const open = [...document.querySelectorAll("button")]
    .filter((key) => key.checkVisibility() && !key.disabled);
  const key = open.find((one) => label(one) === name)
    ?? open.find((one) => label(one).includes(name));
  key?.click();
  return key !== undefined;
})"""
AT_REST = "!document.body.innerText.includes('orking it out')"
MENU = ("Story", "Wiring", "Share this job", "Record a reading", "Circuit as a file")
PLANTED = (
    f"void (globalThis.{RUN.removeprefix('globalThis.')})",
    "void document.body.append(document.createElement('video'))",
    "void fetch('http://x.invalid/').catch(() => undefined)",
)


class Tour:
    """Looks at every view of a job and keeps what should not have come of it."""

    def __init__(self, browser: Firefox) -> None:
        self._browser = browser
        self.views = self.telling = 0
        self.misdeeds: list[str] = []

    def look(self) -> None:
        self.views += 1
        self.telling += self._browser.evaluate(TELLS)
        self.misdeeds += self._browser.evaluate(FOUND)

    def press(self, *names: str) -> None:
        """Press keys, one after another, each as soon as it takes presses; look at what then stands there."""
        for name in names:
            self._soon(f"{PRESS}({json.dumps(name)})", name)
        self._soon(AT_REST, "an answer")
        self.look()

    def _soon(self, expression: str, what: str) -> None:
        end = time.monotonic() + PATIENCE_S
        while not self._browser.evaluate(expression):
            if time.monotonic() > end:
                raise RuntimeError(f"never came: {what}")
            time.sleep(0.05)

    def whole(self, address: str) -> None:
        self._browser.goto("about:blank")
        self._browser.goto(address)
        self._soon("document.body.innerText.includes('stay as they are')", "the link's job")
        self.look()
        self.press("Take over as a new job")
        for bar in ("Circuit", "Suspects", "Path", "More"):
            self.press(bar)
        for name in MENU:
            self.press("More", name)
            self.press("Back")
        self.press("Circuit", "List")
        self.press("More", "Report")
        self.press("More", "All jobs")


def walked(least: int) -> tuple[Tour, list[str]]:
    """All rounds, each with other payloads in the fields; and the planted misdeeds not noticed."""
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        site = Site(Path(folder))
        browser = Firefox(Path(folder) / "profile")
        try:
            browser.ask("script.addPreloadScript", functionDeclaration=WATCH)
            tour = Tour(browser)
            for number in rounds(least):
                tour.whole(f"{site.address}#{links.make(hostile_job(4 * (number - 1)))}")
            return tour, [planted for planted in PLANTED if not noticed(browser, planted)]
        finally:
            browser.kill()
            site.stop()


def noticed(browser: Firefox, planted: str) -> bool:
    browser.ask("browsingContext.reload", context=browser.page, wait="complete")
    clean = browser.evaluate(FOUND) == []
    browser.evaluate(f"({planted}, null)")
    time.sleep(0.5)
    return clean and browser.evaluate(FOUND) != []


def told() -> int:
    """Print the row; 1 where it does not hold."""
    asked = counted(2, 30, 120)
    tour, unnoticed = walked(asked)
    held = not tour.misdeeds and not unnoticed and tour.telling > 0
    print(
        f"C2  Firefox: {'holds' if held else 'BELOW THE FLOOR'}: {len(PAYLOADS)} injection texts, up to"
        f" {asked} in each field, {tour.views} views, {tour.telling} of them with one to read:"
        f" {len(tour.misdeeds)} misdeeds {tour.misdeeds[:5]}"
    )
    print(f"    planted misdeeds: {len(PLANTED) - len(unnoticed)} of {len(PLANTED)} noticed")
    return int(not held)
