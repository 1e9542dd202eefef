"""A whole job on a sample circuit, worked on a phone: every answer comes from a simulated vehicle.

Unlike the simulated electrician of the core this one writes what the page writes, with all that was
shown, and asks the core by its calls alone.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

from footwell.checks.check import Check
from footwell.circuit.circuit import arranged
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.job.events import ReadingTaken
from footwell.job.replay import circuits_of
from footwell.job.stored import check_of
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import read_data

from .job_rig import MINIBUS, MIRRORED, TRACTOR, VAN, Data, Job, compact, sheet

MOST_STEPS = 30


class Road:
    """One job from the customer's words to a proven mend."""

    def __init__(self, circuit: str, vehicle: Vehicle) -> None:
        self.job = Job(circuit)
        self.vehicle = vehicle
        self.passed: set[str] = set()

    def begin(self, tools: tuple[str, ...], **story: Any) -> None:
        self.job.add("sitting begun", engine="off").tools(*tools)
        if story:
            self.job.add("story told", dead_now="yes", seen=[], **story)
        self._positions("customer")

    def work(self) -> None:
        """Do what is proposed until nothing is left to do."""
        do: dict[str, Callable[[Data], None]] = {
            "check": lambda step: self._check(step["check"]),
            "wiring": self._wiring,
            "ends": self._ends,
            "repair": self._repair,
            "positions": lambda _: self._positions("me"),
        }
        for _ in range(MOST_STEPS):
            step = self.job.look()["step"]
            if step["kind"] == "finished":
                return
            do[step["kind"]](step)

    def probe(self, red: str, **controls: str) -> None:
        """A reading at a place of the person's own choice."""
        place = {"red": red, "black": "earth"}
        self._check(self.job.ask("check_at", instrument="volts", controls=controls, **place))

    def _positions(self, seen_by: str) -> None:
        view = self.job.look()
        circuit = self.vehicle.circuit
        states = [
            {
                "controls": controls,
                "load": load["id"],
                "state": self.vehicle.does(set_up(circuit, controls), load["id"]),
            }
            for controls in view["asked_positions"]
            for load in view["loads"]
        ]
        self.job.add("positions tried", seen_by=seen_by, states=states)

    def _check(self, check: Data) -> None:
        for hazard in (caution["hazard"] for caution in check["cautions"]):
            if hazard not in self.passed:
                self.passed.add(hazard)
                self.job.add("caution passed", hazard=hazard)
        value, word = self.vehicle.answer(self._stored_check(check))
        if value is None or value == float("inf"):
            self._keep_word(check, word or "over range")
        else:
            self._keep_number(check, value)

    def _stored_check(self, check: Data) -> Check:
        record = ReadingTaken.model_validate_json(compact(check["record"]))
        return check_of(self.vehicle.circuit, record, "off")

    def _keep_word(self, check: Data, word: str) -> None:
        fits = "as expected" if word == check["healthy_choice"] else "not as expected"
        record = check["record"]
        shown = record["shown"] | {"verdict": fits}
        self.job.add("reading taken", **record | {"choice": word, "shown": shown})

    def _keep_number(self, check: Data, value: float) -> None:
        """Typed with the digits of a common meter."""
        unit = check["units"][0]
        digits = f"{value * 1000:.1f}" if unit.startswith("m") else f"{value:.2f}"
        weighed = self.job.ask("weigh", record=check["record"], typed=digits, unit=unit)
        assert weighed["record"], weighed
        self.job.add("reading taken", **weighed["record"])

    def _wiring(self, step: Data) -> None:
        half = (step["connector"], step["half"])
        found = self.vehicle.wiring(half)
        where = {"connector": half[0], "half": half[1]}
        if not step["goal"].startswith("Put"):
            self.job.add("wiring found", **where, found=found, loose=[])
            return
        finding = self.job.ask("wiring", **where, found=found)["finding"]
        self.job.add("wiring corrected", **where, now=finding["corrected"])
        self.vehicle = self.vehicle.put_right(half)

    def _ends(self, step: Data) -> None:
        """This vehicle's wires run as on its sheet."""
        start, end = (each["point"] for each in step["ends"])
        self.job.add("wire followed", wire=step["wire"], start=start, end=end)

    def _repair(self, step: Data) -> None:
        body = {"element": step["element"], "mode": step["mode"], "what": "renewed", "note": ""}
        self.job.add("repair done", **body)
        self.vehicle = self.vehicle.mended(step["element"])


TOOLS = ("meter", "clamp", "fused jumper", "substitute lamp", "test lamp")


def _vehicle(circuit: str, *faults: Fault, mirrored: bool = False) -> Vehicle:
    wiring = arranged((), ("X2", "a"), MIRRORED) if mirrored else ()
    return Vehicle(circuits_of(read_data(sheet(circuit))), faults, wiring)


@cache
def road_of(circuit: str) -> Job:
    """The sample job of a circuit, done to its end."""
    road = _begun(circuit)
    road.work()
    return road.job


@cache
def long_road() -> Job:
    """Twenty entries of the minibus's job: readings of the person's own choice come first."""
    road = _begun(MINIBUS)
    for position in "123":
        for place in ("F1.1", "F1.2", "X2.1.a", "X2.2.a", "X3.1.a"):
            road.probe(place, S1=position)
    del road.job.events[20:]
    return road.job


def _begun(circuit: str) -> Road:
    if circuit == MINIBUS:
        faults = (Fault("M1", "stiff", 0.6), Fault("R1", "open:thermal fuse"))
        road = Road(circuit, _vehicle(circuit, *faults, mirrored=True))
        words = "Dead in all positions since I fitted the new switch and its plug."
        road.begin(("meter", "clamp"), words=words, renewed=["S1"], rewired=["X2"])
    elif circuit == VAN:
        road = Road(circuit, _vehicle(circuit, Fault("W4", "high_resistance", 20.0)))
        road.begin(TOOLS)
    else:
        assert circuit == TRACTOR
        road = Road(circuit, _vehicle(circuit, Fault("E1", "open")))
        road.begin(TOOLS)
    return road
