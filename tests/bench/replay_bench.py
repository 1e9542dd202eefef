"""A job of 500 entries beside the same job without its repetitions, in the browser's Python.

Both hold one road from complaint to a proven mend. In the long one every reading was taken over and
withdrawn again until there are 500 entries: as much to read, the same to conclude. Printed are the
first look at each (nothing remembered of the job), with the replay alone, and the look after one more
entry.
"""

from __future__ import annotations

import json
import time
from statistics import median

from in_browser import BrowserPython, browser_python
from next_check_bench import JOBS, events_of, forget, prepared, request
from table import print_table

from footwell.job.events import Event

ENTRIES = 500
RUNS = 5
REPLAY = """
import time
from footwell.job.replay import replay
from footwell.messages import Job
events = Job.model_validate_json({text!r}).events
def timed():
    began = time.perf_counter()
    replay(events)
    return time.perf_counter() - began
1000 * sorted(timed() for _ in range(5))[2]
"""


def lengthened(events: list[Event], entries: int) -> list[Event]:
    """The job with readings taken once more and withdrawn, up to a number of entries."""
    readings = [e for e in events if e.kind == "reading taken"]
    grown = list(events)
    while len(grown) + 2 <= entries:
        again = readings[len(grown) % len(readings)]
        n = grown[-1].n + 1
        body = json.dumps({"device": again.device, "n": n})
        undone = {"n": n + 1, "kind": "event withdrawn", "body": body}
        grown += [again.model_copy(update={"n": n}), again.model_copy(update=undone)]
    return grown


def first_looks(python: BrowserPython, events: list[Event]) -> float:
    """Milliseconds of a look at a job that is not known yet, the circuit being ready."""
    times = []
    for _ in range(RUNS):
        forget(python)
        prepared(python, events[:1])
        times += python.times("look", request(events), 1)
    return median(times)


def row(python: BrowserPython, name: str, events: list[Event]) -> list[str]:
    long = lengthened(events, ENTRIES)
    short_ms, long_ms = first_looks(python, events), first_looks(python, long)
    replayed = float(str(python.run(REPLAY.format(text=request(long)))))
    return [
        name,
        f"{len(events)}",
        f"{short_ms:.0f}",
        f"{len(long)}",
        f"{long_ms:.0f}",
        f"{replayed:.0f}",
        f"{replayed / short_ms:.2f}",
    ]


def main() -> None:
    began = time.monotonic()
    with browser_python() as python:
        python.call("ping", "{}")
        rows = [row(python, name, events_of(name, faults)) for name, faults in JOBS.items()]
    heads = ["circuit", "entries", "look", "entries", "look", "replay alone", "replay / short look"]
    print_table(f"A job of {ENTRIES} entries, ms", heads, rows)
    print("Goal: the replay alone takes no longer than a look, so the last column is at most 1.")
    print(f"{time.monotonic() - began:.0f} s in all")


if __name__ == "__main__":
    main()
