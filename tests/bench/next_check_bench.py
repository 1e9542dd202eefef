"""Time to the next check in the browser's Python, on each sample circuit, and memory after the job.

A job is worked from complaint to cause by the simulated electrician in ordinary Python; its events are
then fed to the browser's Python one by one, as the page does. Printed: the first answer after the story
without and with the work done ahead, the answers after each reading, the page's floor and goal, and the
WebAssembly heap at the end of each job.
"""

from __future__ import annotations

import json
import time
from statistics import median

from in_browser import BrowserPython, browser_python
from site_server import ROOT
from table import print_table

from footwell.circuit.fault import Fault
from footwell.job.events import Event
from footwell.job.replay import circuits_of
from footwell.practice.electrician import begin, work
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import read_sheet

FLOOR_MS, GOAL_MS = 500, 100
HEAP_FLOOR_MB = 64
JOBS = {
    "minibus-saloon-fan": (Fault("M1", "stiff", 0.6), Fault("R1", "open:thermal fuse")),
    "tractor-work-lamps": (Fault("E1", "open"),),
    "van-rear-screen": (Fault("W4", "high_resistance", 20.0),),
}


def events_of(name: str, faults: tuple[Fault, ...]) -> list[Event]:
    """A whole job on a sample circuit, worked by the simulated electrician with a meter."""
    text = (ROOT / "fixtures" / "circuits" / f"{name}.json").read_text()
    read = read_sheet(text)
    vehicle = Vehicle(circuits_of(read), faults)
    run = begin(read.sheet, vehicle, ["meter"])
    work(run, vehicle)
    return run.events


def request(events: list[Event]) -> str:
    return json.dumps({"events": [e.model_dump() for e in events]})


def looks(python: BrowserPython, events: list[Event]) -> list[float]:
    """Milliseconds of the first look at each length of the job, from the first complaint on."""
    first = next(n for n, e in enumerate(events) if e.kind == "positions tried")
    return [python.times("look", request(events[: n + 1]), 1)[0] for n in range(first, len(events))]


def forget(python: BrowserPython) -> None:
    python.run("import footwell.job.replay as r; r._CIRCUITS.clear()")


def row(python: BrowserPython, name: str, events: list[Event]) -> list[str]:
    forget(python)
    cold = looks(python, events)
    forget(python)
    ahead = python.times("prepare", request(events[:1]), 1)[0]
    warm = looks(python, events)
    again = python.times("look", request(events), 5)
    heap = python.heap_bytes() / 2**20
    return [
        name,
        f"{cold[0]:.0f}",
        f"{ahead:.0f}",
        f"{warm[0]:.0f}",
        f"{median(warm[1:]):.0f}",
        f"{max(warm[1:]):.0f}",
        f"{median(again):.0f}",
        f"{heap:.1f}",
    ]


def main() -> None:
    began = time.monotonic()
    with browser_python() as python:
        python.call("ping", "{}")
        rows = [row(python, name, events_of(name, faults)) for name, faults in JOBS.items()]
    heads = [
        "circuit",
        "first, nothing ahead",
        "work ahead",
        "first",
        "next, median",
        "next, worst",
    ]
    print_table("The browser's Python, ms", [*heads, "same job again", "heap MB"], rows)
    print(f"Next check: floor {FLOOR_MS} ms, goal {GOAL_MS} ms. Heap (length of the WebAssembly")
    print(f"memory after the jobs so far): at most {HEAP_FLOOR_MB} MB.")
    print(f"{time.monotonic() - began:.0f} s in all")


if __name__ == "__main__":
    main()
