"""From an empty job, without a diagram, to the first check: touches and time, with floor and goal.

A touch counts a second and a half; the time that the page computed in between is measured and added. Each
walk has a new phone, on which Python is ready.
"""

from __future__ import annotations

from no_diagram import first_check
from phones import on_new_phones, served
from site_server import Site
from table import print_table

FLOOR = (16, 90)
GOAL = (12, 60)
WALKS = [("Lamp", "2", False), ("Fan", "4", False), ("Fan", "4", True), ("Starter", "2", False)]


def walked(site: Site) -> list[tuple[str, int, str, str]]:
    """A row for each walk."""
    rows = []
    for (load, positions, relay), fingers in on_new_phones(site, WALKS):
        first_check(fingers, load, positions, relay)
        name = f"{load}, {positions} positions{', relay' if relay else ''}"
        spent = (f"{fingers.computing:.1f} s", f"{fingers.seconds:.1f} s")
        rows.append((name, fingers.touches, *spent))
    return rows


if __name__ == "__main__":
    with served() as site:
        found = walked(site)
    limits = [(name, n, "", f"{s} s") for name, (n, s) in (("floor", FLOOR), ("goal", GOAL))]
    print_table(
        "First check without a diagram", ["walk", "touches", "computing", "time"], found + limits
    )
