"""A hand at the phone and at the vehicle: does by touch what the screen asks, and answers from a
simulated vehicle.

What the screen should ask is computed beside it, in ordinary Python, from the events that the phone has
stored. So every step also shows that the browser's Python and this one conclude the same.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page
from pressing import at_rest, press, press_through, soon
from site_server import ROOT

from footwell.checks.catalogue import working_setups
from footwell.diagnosis.conclude import Conclusion, conclude
from footwell.job.events import Event
from footwell.job.replay import Replayed, circuits_of, replay
from footwell.messages import JobView
from footwell.page.job_view import job_view
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import ReadSheet, read_sheet

STORED = """async () => {
  const open = indexedDB.open("footwell");
  const db = await new Promise((done) => (open.onsuccess = () => done(open.result)));
  const all = db.transaction("events").objectStore("events").getAll();
  const rows = await new Promise((done) => (all.onsuccess = () => done(all.result)));
  db.close();
  return rows.map(({ device, n, origin, job, kind, format, at, body }) =>
    ({ ...(origin ?? { device, n }), job, kind, format, at, body }));
}"""


def sample(name: str) -> ReadSheet:
    return read_sheet((Path(ROOT) / "fixtures" / "circuits" / f"{name}.json").read_text())


def vehicle(name: str, faults: tuple[Any, ...], arrangement: Any = ()) -> Vehicle:
    return Vehicle(circuits_of(sample(name)), faults, arrangement)


@dataclass
class Hand:
    """Works one job on one page. `steps` tells what was done, `readings` how often the meter was held."""

    page: Page
    vehicle: Vehicle
    steps: list[str] = field(default_factory=list)
    readings: int = 0
    touches: int = 0

    # ---- the phone ---------------------------------------------------------------------------

    def events(self) -> list[Event]:
        """The job's events as the phone has stored them; the newest job where there are several."""
        rows = self.page.evaluate(STORED)
        job = rows[-1]["job"]
        return [Event.model_validate(row) for row in rows if row["job"] == job]

    def told(self) -> tuple[Replayed, Conclusion]:
        replayed = replay(self.events())
        return replayed, conclude(replayed.case)

    def view(self) -> JobView:
        return job_view(self.events())

    def key(self, name: str | re.Pattern[str], exact: bool = False) -> Locator:
        return self.page.get_by_role("button", name=name, exact=exact).first

    def tap(self, name: str, exact: bool = False) -> None:
        self.touches += 1
        press(self.key(name, exact))

    def commit(self, name: str) -> None:
        """Tap a key that ends its screen."""
        self._commit(self.key(name))

    def _commit(self, key: Locator) -> None:
        self.touches += 1
        press_through(key)

    def sees(self, text: str) -> bool:
        return text in self.page.locator("body").inner_text()

    # ---- the work ----------------------------------------------------------------------------

    def begin(self, address: str, circuit: str) -> None:
        """From the list of jobs to the complaint: dead in every position."""
        self.page.goto(address)
        self.tap("New job")
        self.tap(circuit)
        self.page.get_by_role("button", name="Start", exact=True).wait_for()

    def tell_what_each_load_does(self) -> None:
        """The complaint, position by position, as the vehicle shows it."""
        self._answer_positions(self.view().asked_positions, [x.id for x in self.view().loads])

    def tell_rewired(self, connector: str) -> None:
        """A connector that somebody wired lately."""
        name = next(c.name for c in self.view().connectors if c.id == connector)
        self.tap("More of the story")
        group = self.page.get_by_role("group", name="What was re-wired?")
        group.get_by_role("button", name=name).tap()
        self.commit("Keep the story")

    def pass_cautions(self) -> None:
        while self.key("Understood").is_visible():
            self.commit("Understood")
            self.settle()

    def step(self) -> str:
        """Do the step that Footwell asks for, and return its kind."""
        self.settle()
        self.pass_cautions()
        _, conclusion = self.told()
        kind = conclusion.step.kind
        act = {
            "check": self._check,
            "wiring": self._wiring,
            "positions": self._positions,
            "ends": self._ends,
            "repair": self._repair,
        }.get(kind)
        if act is not None:
            act(conclusion)
        return kind

    def work(self, most: int = 24) -> None:
        for _ in range(most):
            if self.step() == "finished":
                return
        raise AssertionError("never finished:\n" + "\n".join(self.steps))

    def settle(self) -> None:
        """Wait until the screen belongs to the newest event."""
        soon(self.page, lambda: at_rest(self.page), "a page at rest")

    def _check(self, conclusion: Conclusion) -> None:
        choice = conclusion.step.choice
        assert choice is not None and choice.check is not None
        shown = self.view().step
        assert shown.kind == "check"
        self.page.locator("p.do").get_by_text(shown.check.do, exact=True).wait_for()
        value, word = self.vehicle.answer(choice.check)
        self.readings += 1
        self.steps.append(f"{conclusion.step.purpose} {choice.check.id} -> {value} {word}")
        if value is None:
            self._answer(word)
        elif value == float("inf"):
            self.commit("Enter reading")
            self.tap("over range")
        else:
            self._type(value, shown.check.units[0])
        self.commit("Next")

    def _answer(self, word: str) -> None:
        self._commit(self.key(re.compile(f"^{re.escape(word)}", re.I)))

    def _type(self, value: float, unit: str) -> None:
        """The value on the pad, to the digits that a meter shows."""
        shown = value * 1000 if unit.startswith("m") else value
        digits = f"{abs(shown):.1f}" if unit.startswith("m") else f"{abs(shown):.2f}"
        self.commit("Enter reading")
        for key in digits:
            self.tap("Decimal mark" if key == "." else key, exact=True)
        if shown < 0 and float(digits) != 0:
            self.tap("Plus or minus")
        keeps = self.page.get_by_role("button", name=re.compile("^Keep")).last
        self._commit(keeps)
        sure, kept = self.key(re.compile("as typed")), self.key("Next")
        sure.or_(kept).first.wait_for()
        if sure.is_visible():
            self._commit(sure)

    def _wiring(self, conclusion: Conclusion) -> None:
        half = conclusion.step.half
        assert half is not None
        if conclusion.step.purpose == "put right":
            self.steps.append(f"put right {half[0]}")
            moved = self.page.get_by_role("button", name="I have moved them")
            if not moved.is_visible():
                self.commit("Look at")
            self.commit("I have moved them")
            self.vehicle = self.vehicle.put_right(half)
            return
        self.steps.append(f"look into {half[0]}")
        self.commit("Look at")
        self._lay(half)
        self.commit("Keep what I found")

    def _lay(self, half: tuple[str, str]) -> None:
        """Tell the screen which wire sits in which way, one way after another."""
        found = self.vehicle.wiring(half)
        view = next(c for c in self.view().connectors if (c.id, c.half) == half)
        order = [wire.id for wire in view.wires]
        self.page.locator(".way").first.tap()
        wires = self.page.locator(".wires button")
        for way in view.ways:
            wire = found[way.way]
            wires.nth(order.index(wire) if wire else wires.count() - 1).tap()
            self.touches += 1

    def _positions(self, conclusion: Conclusion) -> None:
        self.page.get_by_role("button", name="Say what you saw").wait_for()
        asked = self.view().step
        assert asked.kind == "positions"
        seen = self._answer_positions(asked.ask, asked.loads)
        self.steps.append("positions " + " ".join(seen))
        self.commit("Keep what I saw")

    def _answer_positions(self, ask: list[dict[str, str]], loads: list[str]) -> list[str]:
        """One answer for each position and load, in the order of the screen's rows."""
        setups = working_setups(self.vehicle.circuit)
        rows = self.page.locator(".toggles")
        seen = []
        for n, (controls, load) in enumerate((c, x) for c in ask for x in loads):
            setup = next(s for s in setups if dict(s.controls).items() >= controls.items())
            seen.append(self.vehicle.does(setup, load))
            rows.nth(n).get_by_role("button", name=seen[-1], exact=True).tap()
            self.touches += 1
        return seen

    def _ends(self, conclusion: Conclusion) -> None:
        """This vehicle's wires run as on its sheet."""
        self.steps.append(f"ends of {conclusion.step.wire}")
        self.commit("Both as the sheet has them")

    def _repair(self, conclusion: Conclusion) -> None:
        one = conclusion.step.proven
        assert one is not None
        self.steps.append(f"repair {one.fault.element} {one.fault.mode}")
        self.vehicle = self.vehicle.mended(one.fault.element)
        self.commit("I have renewed it")
