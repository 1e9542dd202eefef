"""A walk through one job by touch, as a person would go: every screen is told to `seen`."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import Locator, Page
from pressing import at_rest, press, press_through, soon

CIRCUIT = "Saloon heater fan"
SWITCH_PLUG = "switch plug X2, wire side"


class Walk:
    """Walks through the pages of one phone; `seen` is called on each screen with its name."""

    def __init__(self, page: Page, address: str, seen: Callable[[str], None]) -> None:
        self.page, self.address, self.seen = page, address, seen
        self.shown: set[str] = set()

    def key(self, name: str, exact: bool = False) -> Locator:
        return self.page.get_by_role("button", name=name, exact=exact).first

    def tap(self, name: str, exact: bool = False) -> None:
        press(self.key(name, exact))

    def go(self, name: str) -> None:
        """Tap a key that ends its screen."""
        press_through(self.key(name))

    def begin(self) -> None:
        """From an empty phone to the first step of a job."""
        self.page.goto(self.address)
        self.key("New job").wait_for()
        self.seen("no jobs")
        self.tap("New job")
        self.key(CIRCUIT).wait_for()
        self.seen("new job")
        self.tap(CIRCUIT)
        self.key("Dead in every position").wait_for()
        self.ready_answer("Runs on the top step only", "fan switch 3", "runs")
        self.tap("Dead in every position")
        self.seen("complaint")
        self.go("Start")
        self.key("Suspects").wait_for()

    def begin_wiring(self, half: str) -> None:
        """From an empty phone to the wiring of one half of a plug, in a job whose load is dead."""
        self.tap("New job")
        self.tap(CIRCUIT)
        self.tap("Dead in every position")
        self.go("Start")
        self.settle()
        self.to_wiring(half)

    def to_wiring(self, half: str) -> None:
        self.tap("More", exact=True)
        self.tap("Wiring")
        self.tap(half)

    def undo_last(self) -> None:
        """Takes the last entry of the path back."""
        self.tap("Path", exact=True)
        press(self.page.locator(".key-row button").last)
        self.key("Bring it back").wait_for()

    def ready_answer(self, words: str, position: str, says: str) -> None:
        """A usual complaint of the circuit, by one tap."""
        self.tap(words)
        self.page.get_by_role("button", name=words, pressed=True).wait_for()
        row = self.page.get_by_role("group", name=position)
        row.get_by_role("button", name=says, pressed=True).wait_for()

    def tour(self) -> None:
        """The other views of a job."""
        for bar in ("Circuit", "Suspects", "Path", "More"):
            self.tap(bar, exact=True)
            self.seen(bar.lower())
        for name in ("Story", "Wiring", "Share this job", "Record a reading"):
            self.tap("More", exact=True)
            self.tap(name)
            self.page.wait_for_timeout(400)
            self.seen(name.lower())
            self.tap("Back")
        self.place()
        self.tap("Now", exact=True)

    def place(self) -> None:
        """A place of the circuit."""
        self.tap("Circuit", exact=True)
        if self.page.locator(".place").count() < 3:
            return
        self.tap("List")
        self.seen("places")
        self.page.locator(".middle .key-answer").nth(2).tap()
        self.key("Measure here").wait_for()
        self.page.wait_for_timeout(400)
        self.seen("place")
        self.tap("Back")

    def work(self, most: int = 20) -> None:
        """Answers whatever is asked until the job is finished."""
        for _ in range(most):
            self.settle()
            if self.key("Show the report").is_visible():
                self.seen("finished")
                return
            self.step()

    def until(self, name: str, most: int = 12) -> None:
        """Answers what is asked until a key of this name stands there."""
        for _ in range(most):
            self.settle()
            if self.key(name).is_visible():
                return
            self.step()
        raise AssertionError(f"{name} never stood there")

    def settle(self) -> Act:
        """Waits until the next step stands there and nothing is being worked out; how it is answered."""
        return soon(self.page, self.standing, "the next step")

    def standing(self) -> Act | None:
        """How the step that stands there is answered; none while none stands there at rest."""
        for name, act in STEPS.items():
            if self.key(name).is_visible():
                return act if at_rest(self.page) else None
        return Walk.say_a_word if self.answer().is_visible() and at_rest(self.page) else None

    def answer(self) -> Locator:
        """The first of the words to choose from."""
        return self.page.locator(".answers button").first

    def step(self) -> None:
        """Answers the step that stands there, as well as can be."""
        self.settle()(self)

    def say_a_word(self) -> None:
        self._other_ways()
        self.seen("check by word")
        press_through(self.answer())
        self.key("Next").wait_for()

    def pass_caution(self) -> None:
        self.seen("caution")
        self.go("Understood")

    def read_number(self) -> None:
        self._other_ways()
        self.seen("check")
        self.tap("Enter reading")
        for key in ("1", "1", "Decimal mark", "8"):
            self.tap(key, exact=True)
        self.seen("pad")
        self.go("Keep 11")
        self.until_kept()

    def until_kept(self) -> None:
        """Waits until a reading is kept, also where Footwell asks back."""
        doubt, kept = self.key("as typed"), self.key("Next")
        doubt.or_(kept).first.wait_for()
        if doubt.is_visible():
            self.seen("doubt")
            self.go("as typed")
            kept.wait_for()

    def go_on(self) -> None:
        self.seen("verdict")
        self.go("Next")

    def look_at_wiring(self) -> None:
        self.seen("wiring step")
        self.go("Look at")
        self.seen("connector")
        self._mirror()
        self.seen("found")
        self.go("Keep what I found")
        self.key("I have moved them").wait_for()
        self.seen("finding")
        self.go("I have moved them")

    def _mirror(self) -> None:
        """Lays the wire of the last way into the first, and so on."""
        ways = self.page.locator(".way")
        count = ways.count()
        ways.first.tap()
        self.seen("wire to pick")
        wires = self.page.locator(".wires button")
        empty = wires.count() - 1
        for way in range(count):
            wires.nth(min(count - 1 - way, empty)).tap()

    def see_positions(self) -> None:
        for question in self.page.locator(".toggles").all():
            question.locator("button").last.tap()
        self.seen("positions")
        self.go("Keep what I saw")

    def find_ends(self) -> None:
        self.seen("ends")
        self.go("Both as the sheet has them")

    def mend(self) -> None:
        self.seen("repair")
        self.go("I have renewed it")

    def _other_ways(self) -> None:
        for name in ("Another check", "Cannot do it"):
            if name not in self.shown and self.key(name).is_visible():
                self.shown.add(name)
                self.tap(name)
                self.seen(name.lower())
                self.tap("Back")

    def end(self) -> None:
        """Report, jobs, settings, and a link that cannot be opened."""
        self.tap("More", exact=True)
        self.tap("Report")
        self.seen("report")
        self.tap("More", exact=True)
        self.tap("All jobs")
        self.key(CIRCUIT).wait_for()
        self.seen("jobs")
        self.tap("Settings")
        self.seen("settings")
        self.tap("About and notices")
        self.seen("about")
        self.page.goto(f"{self.address}#cut")
        self.page.get_by_role("alert").wait_for()
        self.seen("cut link")

    def whole(self) -> None:
        self.begin()
        self.settle()
        self.tour()
        self.work()
        self.end()


def rest(walk: Walk) -> None:
    """Nothing is left to be done."""


Act = Callable[[Walk], None]

STEPS: dict[str, Act] = {
    "Show the report": rest,
    "Understood": Walk.pass_caution,
    "Next": Walk.go_on,
    "Enter reading": Walk.read_number,
    "Look at": Walk.look_at_wiring,
    "Both as the sheet has them": Walk.find_ends,
    "I have renewed it": Walk.mend,
    "Say what you saw": Walk.see_positions,
}
