"""Time of "Which orders fit?" in the browser's Python: with six wires 720 orders are held against readings.

The plug of the tests, a lamp behind each way, and what the lamps do under an order that is not the sheet's.
Printed: the first question of a job, which computes every order, the same again, and again after one more
word.
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "score"))

from core.job_rig import Job
from core.wiring_rig import HALF
from every_order import Rows, lit, stepped
from in_browser import browser_python
from table import print_table

FACES: tuple[Rows, ...] = ((4,), (5,), (6,), (3, 3))


def job(layout: Rows) -> Job:
    """What each lamp does in each position, where first and last wire were exchanged."""
    ways = [str(n + 1) for n in range(sum(layout))]
    order = {way: f"V{way}" for way in ways} | {"2": f"V{ways[-1]}", ways[-1]: "V2"}
    found = Job()
    found.events.clear()
    found.add("job opened", title="plug", sheet=stepped(layout))
    states = [
        {"controls": {"S1": step}, "load": lamp, "state": "bright" if burns else "dark"}
        for step, lamp, burns in lit(layout, order)
    ]
    return found.add("positions tried", seen_by="me", states=states)


def main() -> None:
    began = time.monotonic()
    rows = []
    for layout in FACES:
        done = job(layout)
        request = {"events": done.events, "connector": HALF[0], "half": HALF[1]}
        with browser_python() as python:
            python.call("ping", "{}")
            first = python.times("orders", json.dumps(request), 1)[0]
            again = median(python.times("orders", json.dumps(request), 3))
            more = request | {"found": {"1": "V1"}}
            seen = python.times("orders", json.dumps(more), 1)[0]
            answer = json.loads(python.call("orders", json.dumps(request)))["ok"]
        face = " + ".join(map(str, layout))
        fit = f"{answer['fit']} of {answer['total']}"
        rows.append([face, fit, f"{first:.0f}", f"{again:.0f}", f"{seen:.0f}"])
    heads = ["ways", "fit", "first", "again", "with one way seen"]
    print_table("Which orders fit? in the browser's Python, ms", heads, rows)
    print(f"{time.monotonic() - began:.0f} s in all")


if __name__ == "__main__":
    main()
