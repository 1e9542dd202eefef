"""Every order of two to six wires in a plug, held against what can be told without the core.

The plug sits on a switch whose positions join way 1 with one other way each, a lamp behind every other
way: a lamp burns where feed and lamp sit in the two ways that a position joins. A slip is named right by
counting on the face. Moves are followed by hand; the fewest are misplaced wires and rings together, and
the same again by search over all seatings.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import accumulate
from typing import Any

from core.job_rig import Job
from core.wiring_rig import HALF, distances, put_right, sheet_of

from footwell.circuit.circuit import AS_DRAWN, arranged
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.faults.miswiring import Wiring, as_drawn
from footwell.faults.moves import moves
from footwell.faults.orders import orders
from footwell.job.replay import replay
from footwell.page.wiring_view import finding

Rows = tuple[int, ...]
LAYOUTS: tuple[Rows, ...] = ((2,), (3,), (4,), (5,), (6,), (2, 2), (3, 3))
"""Ways in each row of the face."""

NAMES = {
    "mirror image": "mirrored",
    "turned round": "reversed",
    "one way too far": "shifted",
    "the rows exchanged": "rows exchanged",
}
KINDS = (*NAMES.values(), "pair swapped", "another order")
BURNS_AMPS = 0.2


@dataclass
class Told:
    """What the findings of all orders of one face come to."""

    layout: Rows
    orders: int = 0
    detected: int = 0
    named: int = 0
    simulated: int = 0
    righted: int = 0
    fewest: int = 0
    most: int = 0
    seconds: float = 0.0
    kinds: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)

    @property
    def row(self) -> list[str]:
        counts = (self.orders, self.detected, self.named, self.simulated, self.righted, self.fewest)
        face = " + ".join(map(str, self.layout))
        kinds = [str(self.kinds[kind]) for kind in KINDS]
        return [face, *map(str, counts), str(self.most), *kinds, f"{self.seconds:.0f}"]


HEAD = ["ways", "orders", "detected", "named", "simulated", "put right", "fewest", "most moves"]
HEAD += [*KINDS, "s"]


def stepped(layout: Rows) -> dict[str, Any]:
    """The plug of the rig with these rows, on a switch that feeds one lamp a position."""
    wires = sum(layout)
    data = sheet_of(wires)
    ways = iter(str(n + 1) for n in range(wires))
    data["connectors"][0]["rows"] = [[next(ways) for _ in range(count)] for count in layout]
    steps = [str(n) for n in range(2, wires + 1)]
    switch = next(part for part in data["parts"] if part["id"] == "S1")
    switch["values"]["closes"] = {"off": [], **{n: [["B", f"L{n}"]] for n in steps}}
    data["controls"][0]["positions"] = [{"id": n, "name": n} for n in ("off", *steps)]
    return data


def told(layout: Rows, picked: slice = slice(None)) -> Told:
    """Counts over all wrong orders of a face, or some of them."""
    job = Job()
    job.events.clear()
    job.add("job opened", title="plug", sheet=stepped(layout))
    case = replay(job.stored()).case
    circuit = case.circuit_for(AS_DRAWN)
    drawn = as_drawn(circuit, HALF)
    far = distances(sum(layout), 0)
    found = Told(layout)
    began = time.monotonic()
    assert finding(case, HALF, drawn).same
    for order in orders(circuit, HALF)[1:][picked]:
        view = finding(case, HALF, order)
        steps = moves(drawn, order)
        kind = kind_told(view.slip)
        least = far[frozenset((way, w) for way, w in order.items() if w)]
        differ = sum(order[way] != drawn[way] for way in drawn)
        verdicts = {
            "detected": not view.same and len(view.differences) == differ,
            "named": kind in kinds_of(layout, drawn, order),
            "simulated": burns_right(layout, case.circuit_for(arranged((), HALF, order)), order)
            and view.effects == effects(layout, order),
            "righted": put_right(order, steps) == drawn and len(view.moves) == len(steps),
            "fewest": len(steps) == least == differ + rings(drawn, order),
        }
        found.orders += 1
        found.kinds[kind] += 1
        found.most = max(found.most, len(steps))
        for name, right in verdicts.items():
            setattr(found, name, getattr(found, name) + right)
            if not right:
                found.wrong.append(f"{name}: {order}: {view.slip}")
    found.seconds = time.monotonic() - began
    return found


def kinds_of(layout: Rows, drawn: Wiring, order: Wiring) -> set[str]:
    """The names that an order may have, read off the face."""
    ways, held = list(drawn), list(drawn.values())
    rows: list[list[str]] = []
    for start, count in zip(accumulate(layout, initial=0), layout, strict=False):
        rows.append(ways[start : start + count])
    sits = [drawn_way(drawn, order[way]) for way in ways]
    found = set()
    if sits == [way for row in rows for way in reversed(row)]:
        found.add("mirrored")
    if sits == ways[::-1]:
        found.add("reversed")
    if sits in (ways[1:] + ways[:1], ways[-1:] + ways[:-1]):
        found.add("shifted")
    if len(layout) > 1 and sits == [way for row in reversed(rows) for way in row]:
        found.add("rows exchanged")
    if sum(order[way] != wire for way, wire in zip(ways, held, strict=True)) == 2:
        found.add("pair swapped")
    return found or {"another order"}


def drawn_way(drawn: Wiring, wire: str | None) -> str:
    return next(way for way, held in drawn.items() if held == wire)


def kind_told(slip: str) -> str:
    """The kind that a finding's words name."""
    for words, kind in NAMES.items():
        if words in slip.lower():
            return kind
    alone = "; " not in slip and "ring" not in slip and slip.endswith("exchanged")
    return "pair swapped" if alone else "another order" if "ways" in slip else "none"


def rings(drawn: Wiring, order: Wiring) -> int:
    """Rings in which misplaced wires were passed on: each costs a move beside one a wire."""
    onward = {way: drawn_way(drawn, order[way]) for way in drawn if order[way] != drawn[way]}
    count = 0
    while onward:
        way = next(iter(onward))
        count += 1
        while way in onward:
            way = onward.pop(way)
    return count


def lit(layout: Rows, order: Wiring) -> Iterator[tuple[str, str, bool]]:
    """Each position and lamp, and whether it must burn."""
    numbers = [str(n) for n in range(2, sum(layout) + 1)]
    seat = {wire: way for way, wire in order.items()}
    for step in numbers:
        for lamp in numbers:
            yield step, f"L{lamp}", {seat["V1"], seat[f"V{lamp}"]} == {"1", step}


def burns_right(layout: Rows, circuit: Any, order: Wiring) -> bool:
    """Whether the currents are those that must flow, and no others."""
    points = {s: operate(circuit, set_up(circuit, {"S1": s})) for s, _, _ in lit(layout, order)}
    return all(
        points[step].settled and (points[step].amps(lamp) > BURNS_AMPS) == burns
        for step, lamp, burns in lit(layout, order)
    )


def effects(layout: Rows, order: Wiring) -> list[str]:
    """The lines that a finding must have of it."""
    rows: dict[str, list[str]] = {}
    for step, lamp, burns in lit(layout, order):
        rows.setdefault(step, []).append(f"lamp {lamp} {'bright' if burns else 'dark'}")
    return [f"switch at {step}: {', '.join(words)}." for step, words in rows.items()]


def every_order() -> list[Told]:
    """All faces, each with all its orders."""
    return [told(layout) for layout in LAYOUTS]
