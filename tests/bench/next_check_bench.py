"""Time to the next check in the browser's Python, on sample circuits and by size, and memory after the job.

A job is worked from complaint to cause by the simulated electrician in ordinary Python; its events are
then fed to the browser's Python one by one, as the page does. Printed: the first answer after the story
without and with the work done ahead, the answers after each reading, and the WebAssembly heap at the end of
each job; then the same for drawn circuits of 11, 23, 40 and 60 parts, with what there was to choose from and
the decisions alone (belief and choice, every prediction cached) in processor time. `--sizes` picks some.
"""

from __future__ import annotations

import argparse
import json
import time
from statistics import median

from branching import LARGE, MIDDLE, SMALL, grown, sheet_of
from clocks import worker_time
from in_browser import BrowserPython, browser_python
from site_server import ROOT
from table import print_table

from footwell.checks.catalogue import working_setups
from footwell.circuit.circuit import AS_DRAWN
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import believe
from footwell.job.events import Event
from footwell.job.replay import circuits_of, replay
from footwell.practice.electrician import begin, work
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import ReadSheet, read_data, read_sheet

FLOOR_MS, GOAL_MS = 500, 100
D14 = "one-fault set: floor 1000 ms, goal 100; with pairs: floor 2000 ms, goal 300"
SEED = 1
SIZES = {11: SMALL, 23: MIDDLE, 40: grown(40), 60: LARGE}
DEAD_LOAD = (Fault("W1", "open"),)
HEAP_FLOOR_MB = 64
JOBS = {
    "minibus-saloon-fan": (Fault("M1", "stiff", 0.6), Fault("R1", "open:thermal fuse")),
    "tractor-work-lamps": (Fault("E1", "open"),),
    "van-rear-screen": (Fault("W4", "high_resistance", 20.0),),
}


def of_library(name: str) -> ReadSheet:
    return read_sheet((ROOT / "fixtures" / "circuits" / f"{name}.json").read_text())


def events_of(read: ReadSheet, faults: tuple[Fault, ...]) -> list[Event]:
    """A whole job on a circuit, worked by the simulated electrician with a meter."""
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


def prepared(python: BrowserPython, events: list[Event]) -> float:
    """Milliseconds of all the work done ahead of the first answer, piece by piece as the page asks for it."""
    spent, left, done = 0.0, 1, 0
    while left:
        piece = json.dumps(json.loads(request(events)) | {"done": done})
        spent += python.times("prepare", piece, 1)[0]
        done, left = done + 1, json.loads(python.call("prepare", piece))["ok"]["left"]
    return spent


def forget(python: BrowserPython) -> None:
    python.run("import footwell.job.replay as r; r._CIRCUITS.clear()")


def row(python: BrowserPython, name: str, events: list[Event]) -> list[str]:
    forget(python)
    cold = looks(python, events)
    forget(python)
    ahead = prepared(python, events[:1])
    warm = looks(python, events)
    heap = python.heap_bytes() / 2**20
    return [
        name,
        f"{cold[0]:.0f}",
        f"{ahead:.0f}",
        f"{warm[0]:.0f}",
        f"{median(warm[1:]):.0f}",
        f"{max(warm[1:]):.0f}",
        f"{heap:.1f}",
    ]


DECIDE = """
from footwell.diagnosis.conclude import conclude
from footwell.job.events import Event
from footwell.job.replay import _CIRCUITS, replay

def decide(text):
    return conclude(replay([Event.model_validate(e) for e in json.loads(text)["events"]]).case)

def forget():
    for circuit in _CIRCUITS.values():
        circuit.cache.pop("recall", None)
"""


def decisions(python: BrowserPython, events: list[Event]) -> list[float]:
    """Processor milliseconds of each decision of a job that was looked through before."""
    python.run("import json" + DECIDE)
    python.run("forget()")
    first = next(n for n, e in enumerate(events) if e.kind == "positions tried")
    found: list[float] = []
    for n in range(first, len(events)):
        python.run(f"text = {request(events[: n + 1])!r}; None")
        began = worker_time()
        python.run("decide(text); None")
        found.append(1000.0 * (worker_time() - began))
    return found


def counts(read: ReadSheet, events: list[Event]) -> list[str]:
    """Places and set-ups to measure in, and the most suspects alive at once, by their number of faults."""
    circuit = circuits_of(read)(AS_DRAWN)
    first = next(n for n, e in enumerate(events) if e.kind == "positions tried")
    alive = [believe(replay(events[: n + 1]).case).suspects for n in range(first, len(events))]
    most = [
        max(sum(len(w.hypothesis.faults) == faults for w in rows) for rows in alive)
        for faults in (1, 2, 3)
    ]
    places, setups = len(circuit.points), len(list(working_setups(circuit)))
    return [str(places), str(setups), *map(str, most)]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sizes", type=int, nargs="*", default=list(SIZES), choices=list(SIZES))
    asked = parser.parse_args()
    began = time.monotonic()
    drawn = {n: read_data(sheet_of(SIZES[n], SEED)) for n in asked.sizes}
    jobs = {n: events_of(read, DEAD_LOAD) for n, read in drawn.items()}
    with browser_python() as python:
        python.call("ping", "{}")
        rows = [
            row(python, name, events_of(of_library(name), faults)) for name, faults in JOBS.items()
        ]
    # A memory only grows: each size gets an interpreter of its own.
    by_size = []
    decided = []
    for n, events in jobs.items():
        with browser_python() as python:
            python.call("ping", "{}")
            by_size.append(row(python, f"{n} parts", events))
            first, *later = decisions(python, events)
            figures = (first, median(later), max(later))
            decided.append([f"{n} parts", *(f"{each:.0f}" for each in figures)])
    heads = [
        "circuit",
        "first, nothing ahead",
        "work ahead",
        "first",
        "next, median",
        "next, worst",
    ]
    print_table("The browser's Python, ms", [*heads, "heap MB"], rows)
    print_table("By size, ms", [*heads, "heap MB"], by_size)
    heads = ["circuit", "first (single faults)", "next (pairs too), median", "worst"]
    print_table("Decided with every prediction cached, ms of the processor", heads, decided)
    choices = [[f"{n} parts", *counts(drawn[n], jobs[n])] for n in jobs]
    heads = ["circuit", "places", "set-ups", "single", "pairs", "triples"]
    print_table("What there was to choose from", heads, choices)
    print(f"Circuits drawn by seed {SEED}, {DEAD_LOAD[0].element} open. Decided: {D14}.")
    print(f"Next check: floor {FLOOR_MS} ms, goal {GOAL_MS} ms. Heap (length of the WebAssembly")
    print(f"memory after the jobs so far): at most {HEAP_FLOOR_MB} MB.")
    print(f"{time.monotonic() - began:.0f} s in all")


if __name__ == "__main__":
    main()
