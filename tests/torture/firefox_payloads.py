"""C2 in Debian's Firefox: text that would be code, in every field of a job and through every view."""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory

from counts import FIRST, counted, rounds
from firefox import Firefox

sys.path.insert(0, str(Path(__file__).parents[1] / "browser"))
from hostile_texts import CREATED, PAYLOADS, RUN, hostile_job
from site_server import Site

from footwell.job import links

PATIENCE_S = 300
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


@dataclass
class Walked:
    """What all rounds came to; `unfinished` are those that twice broke off."""

    views: int = 0
    telling: int = 0
    misdeeds: list[str] = field(default_factory=list)
    rounds: int = 0
    unfinished: list[int] = field(default_factory=list)
    unnoticed: list[str] = field(default_factory=list)

    def add(self, number: int, tour: Tour | None) -> None:
        self.rounds += 1
        if tour is None:
            self.unfinished.append(number)
            return
        self.views, self.telling = self.views + tour.views, self.telling + tour.telling
        self.misdeeds += tour.misdeeds


@contextmanager
def watched_firefox() -> Iterator[Firefox]:
    """On a new profile, its pages watched."""
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        browser = Firefox(Path(folder) / "profile")
        try:
            browser.ask("script.addPreloadScript", functionDeclaration=WATCH)
            yield browser
        finally:
            browser.kill()


def toured(address: str) -> Tour | None:
    """The tour in a Firefox of its own; once more where it breaks off."""
    for _ in range(2):
        with suppress(RuntimeError, TimeoutError), watched_firefox() as browser:
            tour = Tour(browser)
            tour.whole(address)
            return tour
    return None


def walked(most: int) -> Walked:
    """All rounds, each with other payloads in the fields; and the planted misdeeds not noticed."""
    found = Walked()
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        site = Site(Path(folder))
        for number in rounds(most, FIRST):
            job = links.make(hostile_job(4 * (number - 1)))
            found.add(number, toured(f"{site.address}#{job}"))
            # Each is told when it is over: a run that is ended from outside has its figures.
            print(
                f"    round {number} of {most}: {found.views} views, {found.misdeeds}", flush=True
            )
        with watched_firefox() as browser:
            browser.goto(site.address)
            found.unnoticed = [planted for planted in PLANTED if not noticed(browser, planted)]
        site.stop()
    return found


def noticed(browser: Firefox, planted: str) -> bool:
    browser.ask("browsingContext.reload", context=browser.page, wait="complete")
    clean = browser.evaluate(FOUND) == []
    browser.evaluate(f"({planted}, null)")
    time.sleep(0.5)
    return clean and browser.evaluate(FOUND) != []


def told() -> int:
    """Print the row; 1 where it does not hold."""
    found = walked(counted(2, 30, 120))
    short = [*found.misdeeds, *found.unnoticed, *map(str, found.unfinished)]
    held = not short and found.telling > 0
    print(
        f"C2  Firefox: {'holds' if held else 'BELOW THE FLOOR'}: {len(PAYLOADS)} injection texts, up to"
        f" {found.rounds} in each field (from round {FIRST}), {found.views} views,"
        f" {found.telling} of them with one to read: {len(found.misdeeds)} misdeeds"
        f" {found.misdeeds[:5]}; rounds not finished: {found.unfinished}"
    )
    print(f"    planted misdeeds: {len(PLANTED) - len(found.unnoticed)} of {len(PLANTED)} noticed")
    return int(not held)
