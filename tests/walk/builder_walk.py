"""From a wiring diagram to the first question of a job: taps and keystrokes, with goals.

The drawings: two lamps H7 on a relay behind a fuse of 15 A and a plug of six ways, its coil on a switch
behind 5 A; a fan of four speeds with its stepped resistor on the supply side behind 30 A. Each wire colour
would be three taps more. What is assumed is not typed.
"""

from __future__ import annotations

from no_diagram import Fingers
from phones import on_new_phones, served
from site_server import Site
from table import print_table

PIN_NUMBERS = "6"
LAMPS = [
    *("Fuse", "15", "Relay", "Plug", f"type {PIN_NUMBERS}", "Put in"),
    *("Splits", "2", "Lamp", "H7", "Earth", "Copy branch", "lamp L1"),
    *("Fuse", "5", "Switch", "1", "Joins…", "relay K1, terminal 86", "Earth"),
]
FAN = [
    *("Fuse", "30", "Switch", "4", "Plug", f"type {PIN_NUMBERS}", "Put in"),
    *("Resistor pack", "3", "Fan", "Not known", "Earth", "Joins…", "fan motor M1, terminal +"),
]
WALKS = [("relay, two lamps", LAMPS, 60), ("fan, four speeds", FAN, 110)]


def build(fingers: Fingers, acts: list[str]) -> int:
    """Build from the list of jobs on; returns taps and keystrokes until the sheet is taken."""
    typed = 0
    fingers.tap("New job", then="From a diagram")
    fingers.tap("From a diagram", then="Fuse")
    for act, after in zip(acts, [*acts[1:], "Use this sheet"], strict=True):
        if act.startswith("type "):
            text = act.removeprefix("type ")
            fingers.page.get_by_label("Its ways").fill(text)
            typed += 1 + len(text)
        else:
            fingers.tap(act, then="" if after.startswith("type ") else after)
    fingers.tap("Use this sheet", then="Start", leads_on=True)
    return fingers.touches + typed


def walked(site: Site) -> list[tuple[str, int, int, str]]:
    """A row for each drawing."""
    rows = []
    for (name, acts, goal), fingers in on_new_phones(site, WALKS):
        rows.append((name, build(fingers, acts), goal, f"{fingers.seconds:.1f} s"))
    return rows


if __name__ == "__main__":
    with served() as site:
        found = walked(site)
    print_table(
        "A sheet from a wiring diagram",
        ["drawing", "taps and keystrokes", "goal, below", "time"],
        found,
    )
