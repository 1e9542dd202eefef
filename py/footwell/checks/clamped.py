"""What a clamp around a wire finds, and at which end of the wire it is put.

Where a chafed wire lies on earth the current that comes in is not what goes out at its other end. A clamp is
put at the far end, where less comes out; with a lamp in place of a blown fuse at the near one, where a
short's current comes in: the lamp keeps it small enough to be followed wire by wire to where it ends.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from heapq import heappop, heappush

from footwell.checks.phases import phases
from footwell.circuit.circuit import Circuit, by_the_sheet
from footwell.circuit.setup import SetupState
from footwell.electrics.laying import lamp_ends
from footwell.electrics.network import Slot
from footwell.electrics.operating_point import operate
from footwell.parts.base import SUPPLY
from footwell.parts.laws import Resistance

WireEnd = tuple[str, str]
"""A wire and its terminal, "1" or "2"."""

Joined = dict[int, dict[int, float]]
"""Node to those beside it, each with how far it is."""

OTHER = {"1": "2", "2": "1"}

LEAST_AMPS = 1e-3
"""With less than this in a wire the way from the battery says which end is near."""


def near_end(circuit: Circuit, wire: str, setup: SetupState) -> str:
    """The terminal of a wire that current comes in at in a set-up when all is well, or that is nearer to the
    battery where none flows; with a lamp in place of a fuse the one nearer to the lamp."""
    key = ("near ends", setup)
    if key not in circuit.cache:
        circuit.cache[key] = dict(_near_ends(by_the_sheet(circuit), setup))
    return circuit.cache[key][wire]  # type: ignore[no-any-return]


def clamp_end(circuit: Circuit, wire: str, setup: SetupState) -> str:
    """The terminal of a wire that the clamp is put close to."""
    near = near_end(circuit, wire, setup)
    return near if setup.stand_in else OTHER[near]


def owner_at(circuit: Circuit, wire: str, end: str) -> str:
    """The connector or part that an end of a wire leads to by the sheet."""
    drawn = next(w for w in circuit.sheet.wires if w.id == wire)
    return (drawn.start if end == "1" else drawn.end).split(".")[0]


def _near_ends(drawn: Circuit, setup: SetupState) -> Iterator[WireEnd]:
    fuse = next((held for held, _ in setup.stand_in if held in drawn.elements), "")
    if fuse:
        away, points = _behind(drawn, fuse, setup._replace(apart=(), stand_in=())), []
    else:
        away = _from_battery(drawn)
        points = [(share, operate(drawn, each)) for share, each in phases(drawn, setup)]
    for wire in drawn.sheet.wires:
        amps = sum(share * point.amps(wire.id) for share, point in points)
        first, second = (away.get(drawn.elements[wire.id].nodes[end], math.inf) for end in "12")
        reverse = amps < 0.0 if abs(amps) >= LEAST_AMPS else second < first
        yield wire.id, "2" if reverse else "1"


def _from_battery(circuit: Circuit) -> dict[int, float]:
    """Fewest elements between the battery's plus and each node."""
    joined = Joined()
    for element in circuit.elements.values():
        ends = element.ends - {circuit.earth}
        for node in ends:
            joined.setdefault(node, {}).update(dict.fromkeys(ends, 1.0))
    return _nearest(joined, circuit.supply_element.nodes[SUPPLY])


def _nearest(joined: Joined, start: int) -> dict[int, float]:
    """The shortest way from a node to each that can be reached."""
    found: dict[int, float] = {}
    waiting = [(0.0, start)]
    while waiting:
        way, node = heappop(waiting)
        if node not in found:
            found[node] = way
            for other, more in joined.get(node, {}).items():
                heappush(waiting, (way + more, other))
    return found


def entering(
    circuit: Circuit, wire: str, end: str, own: Iterable[Slot]
) -> list[tuple[float, Slot]]:
    """Branches of a wire that meet at one of its terminals: 1 for those that lead away from it, -1 for those
    that lead to it."""
    node = circuit.elements[wire].nodes[end]
    signs = ((float(s.a == node) - float(s.b == node), s) for s in own)
    return [(sign, s) for sign, s in signs if sign]


def along(circuit: Circuit, wire: str, setup: SetupState) -> tuple[str, float]:
    """The terminal that the clamp is put close to, and 1 where what comes in there flows along its arrow,
    which points from the near to the far end, or -1."""
    end = clamp_end(circuit, wire, setup)
    return end, 1.0 if end == near_end(circuit, wire, setup) else -1.0


def wire_amps(
    circuit: Circuit, groups: Mapping[str, Sequence[Slot]], volts: Sequence[float]
) -> dict[WireEnd, float]:
    """Current (A) that comes into each wire at each of its terminals."""
    return {
        (wire.id, end): sum(
            sign * s.branch.law.at(volts[s.a] - volts[s.b])[0]
            for sign, s in entering(circuit, wire.id, end, groups.get(wire.id, ()))
        )
        for wire in circuit.sheet.wires
        for end in "12"
    }


LETS_THROUGH_OHMS = 5.0
"""What has more than this between two points starves a lamp of 21 W (7 Ω at 12 V; common practice, no
source)."""


def wires_behind(circuit: Circuit, fuse: str, setup: SetupState) -> list[str]:
    """Wires that a lamp in place of a fuse would drive a short's current through: those that hang on the
    fuse in a set-up of the sound circuit, up to the loads. None where the fuse itself is not fed."""
    reach = _behind(circuit, fuse, setup).keys()
    nodes = {w.id: circuit.elements[w.id].nodes for w in circuit.sheet.wires}
    return [wire for wire, at in nodes.items() if {at["1"], at["2"]} <= reach]


def _behind(circuit: Circuit, fuse: str, setup: SetupState) -> dict[int, float]:
    """Resistance (Ω) on the shortest way from a fuse to each node behind it, by what lets a lamp's current
    through and not by way of earth."""
    joined = Joined()
    for slot in operate(circuit, setup).slots:
        law = slot.branch.law
        if slot.element != fuse and isinstance(law, Resistance) and _lets_through(circuit, slot):
            for one, other in ((slot.a, slot.b), (slot.b, slot.a)):
                joined.setdefault(one, {})[other] = law.ohms
    sides = [_nearest(joined, end) for end in lamp_ends(circuit, fuse)]
    dead = [side for side in sides if circuit.supply_element.nodes[SUPPLY] not in side]
    return dead[0] if len(dead) == 1 else {}


def _lets_through(circuit: Circuit, slot: Slot) -> bool:
    law, loads = slot.branch.law, circuit.sheet.loads
    little = isinstance(law, Resistance) and law.ohms <= LETS_THROUGH_OHMS
    return little and slot.element not in loads and circuit.earth not in (slot.a, slot.b)
