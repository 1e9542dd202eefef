"""Loads that get no current though their position asks for it, with the first thing in the way.

A position that switches a load off is no trouble, whatever else may be wrong on the way to it: then
nothing is said.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from footwell.circuit.circuit import AS_DRAWN, Element, by_the_sheet
from footwell.electrics.breaks import (
    AT_REST,
    BROKEN,
    SWITCHED,
    Break,
    Side,
    Way,
    batteries,
    coils,
    name_of,
    way_to,
    wrong_seats,
)
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.base import Branch
from footwell.parts.laws import Open

SAME_VOLTS = 0.1
"""Voltages (V) nearer to each other than this are one to an electrician."""

NOTICED_VOLTS = 1.0
"""Both sides of a load at less than this stand at nothing that could mislead."""

TRACE = 1e-3
"""Share of its power below which a load gets nothing: 3 % of its volts. Earths that are shared leave
a few millivolts across loads that are switched off."""

SIDES: tuple[Side, ...] = ("supply", "earth")

Ends = tuple[str, str]
"""Two terminals of an element."""


@dataclass(frozen=True, slots=True)
class Unfed:
    """Why a load gets no current: what does not reach it (nothing of that where it is open itself),
    and the first thing in the way, in words that end a sentence."""

    load: str
    lacks: tuple[Side, ...]
    reason: str
    element: str
    both_at: float | None = None
    """Voltage (V) at which both its sides stand, where that would mislead."""


def unfed(point: OperatingPoint) -> list[Unfed]:
    """Loads of the sheet without current that no control switches off, in the order of the sheet.

    >>> from footwell.circuit.example import work_lamp
    >>> from footwell.circuit.fault import Fault
    >>> from footwell.circuit.setup import set_up
    >>> circuit, broken = work_lamp(), (Fault("W4", "open"),)
    >>> on, off = (operate(circuit, set_up(circuit, {"S1": at}), broken) for at in ("on", "off"))
    >>> [(row.load, row.lacks, row.reason) for row in unfed(on)], unfed(off)
    ([('H1', ('earth',), 'wire W4 is broken')], [])
    """
    found: list[Unfed] = []
    resting = _resting(point)
    for load in point.circuit.sheet.loads:
        element = point.circuit.elements[load]
        if element is point.circuit.supply_element or _is_stood_in(point, load):
            continue
        if load in resting:
            continue
        if not _works(point, element):
            found += _reasons(point, element, _at_work(point, element), ()) or []
    return found


def _resting(point: OperatingPoint) -> frozenset[str]:
    """Loads that stand still in the set-up with nothing broken, and rightly so: no fault is the reason,
    though it may be in their way as well."""
    if not point.faults:
        return frozenset()
    key = ("resting", point.setup)
    if key not in point.circuit.cache:
        sound = operate(point.circuit, point.setup)
        loads = point.circuit.sheet.loads
        still = {load for load in loads if not _works(sound, point.circuit.elements[load])}
        point.circuit.cache[key] = frozenset(still - {row.load for row in unfed(sound)})
    return point.circuit.cache[key]  # type: ignore[no-any-return]


def _works(point: OperatingPoint, element: Element) -> bool:
    """Whether an element takes more than a trace of the power that it is made for."""
    volts = float(point.circuit.context.system_volts)
    flows = point.felt(element.id).flows.values()
    return any(
        abs(f.volts * f.amps) > TRACE * abs(volts * f.branch.law.at(volts)[0]) for f in flows
    )


def _is_stood_in(point: OperatingPoint, load: str) -> bool:
    """Whether a lamp stands in for the load at its plug."""
    known = point.circuit.connectors
    plugs = [known[held] for held, _ in point.setup.stand_in if held in known]
    return any(end.startswith(f"{load}.") for plug in plugs for end in plug.part_ways.values())


def _at_work(point: OperatingPoint, element: Element) -> list[Branch]:
    """The branches by which an element does its work: the coils of a relay, or all it ever has."""
    rows: dict[str, Branch] = {}
    for state in element.kind.states(element.values):
        for branch in point.circuit.branches(element, state):
            if not isinstance(branch.law, Open):
                rows.setdefault(branch.name, branch)
    return coils(point.circuit, element.id) or list(rows.values())


def _ends_at_work(branches: list[Branch]) -> list[Ends]:
    """Pairs of terminals between which an element works: those of each branch, then those that branches
    in a row join, as the turns of a winding with a tap."""
    found = dict.fromkeys((b.a, b.b) for b in branches)
    for one, other in combinations(dict.fromkeys(end for pair in found for end in pair), 2):
        if (other, one) not in found and _in_a_row(branches, one, other):
            found.setdefault((one, other))
    return list(found)


def _in_a_row(branches: list[Branch], start: str, end: str) -> bool:
    reached, before = {start}, 0
    while len(reached) > before:
        before = len(reached)
        reached |= {t for b in branches if reached & {b.a, b.b} for t in (b.a, b.b)}
    return end in reached


def _reasons(
    point: OperatingPoint, element: Element, branches: list[Branch], asked: tuple[str, ...]
) -> list[Unfed] | None:
    """Reasons why an element does not work; empty where nothing is in the way, None where nothing
    asks it to work or the sheet has no way for it."""
    if point.circuit.arrangement != AS_DRAWN:
        drawn = _as_drawn(point)
        same = drawn.circuit.elements[element.id]
        if not _works(drawn, same):
            return _open_ways(drawn, same, branches, asked)
        moved = _moved_wires(point, drawn, same, branches)
        if moved:
            return moved
    return _open_ways(point, element, branches, asked)


def _as_drawn(point: OperatingPoint) -> OperatingPoint:
    """The same situation with every wire where it belongs."""
    return operate(by_the_sheet(point.circuit), point.setup, point.faults)


def _moved_wires(
    point: OperatingPoint, drawn: OperatingPoint, element: Element, branches: list[Branch]
) -> list[Unfed]:
    """The first wire on each side that sits elsewhere than on the way that works as drawn."""
    ends, nearest = _nearest(drawn, element, branches)
    rows = {
        side: next(wrong_seats(point.circuit, drawn.circuit, way), None)
        for side, way in nearest.items()
    }
    return _told_once(point, element, ends, [(s, b) for s, b in rows.items() if b])


def _open_ways(
    point: OperatingPoint,
    element: Element,
    branches: list[Branch],
    asked: tuple[str, ...],
    resting: tuple[str, ...] = (),
) -> list[Unfed] | None:
    """Reasons by the branch with the least against it. A way through a relay that nothing asks to move
    is none: then the next best one counts."""
    ends, nearest = _nearest(point, element, branches, resting)
    if not nearest or any(b.sort >= SWITCHED for way in nearest.values() for b in way.breaks):
        return None
    whys: dict[str, str] = {}
    for stop in (b for way in nearest.values() for b in way.breaks):
        if stop.must_move or stop.sort >= AT_REST:
            why = _why_at_rest(point, stop, (*asked, element.id))
            if why is None:
                return _open_ways(point, element, branches, asked, (*resting, stop.element))
            whys[stop.element] = why
    rows = [(side, _whole(way, whys)) for side, way in nearest.items() if way.breaks]
    return _told_once(point, element, ends, rows) or _by_itself(point, element)


def _whole(way: Way, whys: Mapping[str, str]) -> Break:
    """The break nearest to the load, and what is broken behind it: to mend one alone would not do."""
    first = way.breaks[0]
    reason = whys.get(first.element, first.reason)
    behind = dict.fromkeys(b.reason for b in way.breaks[1:] if b.sort == BROKEN)
    more = [each for each in behind if each not in reason]
    return Break(first.element, ", and ".join([reason, *more]) + " too" * bool(more), first.sort)


def _told_once(
    point: OperatingPoint, element: Element, ends: Ends, rows: list[tuple[Side, Break]]
) -> list[Unfed]:
    """One row for each reason, with the sides that it concerns."""
    found: dict[str, Unfed] = {}
    for side, why in rows:
        before = found[why.reason].lacks if why.reason in found else ()
        both = _both_sides(point, element, ends)
        found[why.reason] = Unfed(element.id, (*before, side), why.reason, why.element, both)
    return list(found.values())


Ways = dict[Side, Way]


def _nearest(
    point: OperatingPoint, element: Element, branches: list[Branch], resting: Collection[str] = ()
) -> tuple[Ends, Ways]:
    """The ways with the least against them, and between which ends the element then works; no way where
    the sheet has none."""
    tried = [
        (ends, ways)
        for ends in _ends_at_work(branches)
        for ways in _both_ways(point, element, ends, resting)
    ]
    return min(
        tried,
        key=lambda row: sum(way.cost for way in row[1].values()),
        default=((branches[0].a, branches[0].b), {}),
    )


def _both_ways(
    point: OperatingPoint, element: Element, ends: Ends, resting: Collection[str]
) -> Iterator[Ways]:
    """The ways to supply and earth from two ends, in either sense."""
    a, b = (element.nodes[end] for end in ends)
    for source in batteries(point, element.id):
        for feed, back in ((a, b), (b, a)):
            up = way_to(point, feed, "supply", element.id, resting, source)
            down = way_to(point, back, "earth", element.id, resting, source)
            if up is not None and down is not None:
                yield {"supply": up, "earth": down}


def _why_at_rest(point: OperatingPoint, relay: Break, asked: tuple[str, ...]) -> str | None:
    """Why a relay has not moved though it should; None where nothing asks it to."""
    element = point.circuit.elements[relay.element]
    windings = coils(point.circuit, relay.element)
    if relay.element in asked or point.states[relay.element] != element.rest or not windings:
        return relay.reason if relay.sort == BROKEN else None
    rows = _reasons(point, element, windings, asked)
    if rows is None:
        return None
    if relay.sort == BROKEN:
        return relay.reason
    name = name_of(point.circuit, relay.element)
    if rows:
        return _lacking(name, "coil", rows[0])
    for winding in windings:
        # One winding is fed, and alone it is too weak.
        for row in _reasons(point, element, [winding], asked) or []:
            return _lacking(name, f"{winding.name} winding", row)
    volts = max(point.felt(relay.element).across(b.name) for b in windings)
    return f"{name} does not pull in with the {volts:.1f} V that its coil gets"


def _lacking(name: str, winding: str, row: Unfed) -> str:
    if not row.lacks:
        return f"{name} {row.reason.removeprefix('it ')}"
    lacking = {("supply",): "no supply", ("earth",): "no earth", SIDES: "nothing"}[row.lacks]
    return f"{name} stays at rest because {lacking} reaches its {winding}: {row.reason}"


def _by_itself(point: OperatingPoint, element: Element) -> list[Unfed]:
    """A load that has supply and earth, and still no current: its own fault, if it has one."""
    modes = [element.modes[f.mode] for f in point.faults if f.element == element.id]
    return [Unfed(element.id, (), f"it is {mode.title}", element.id) for mode in modes[:1]]


def _both_sides(point: OperatingPoint, element: Element, ends: Ends) -> float | None:
    nodes = point.circuit.elements[element.id].nodes
    a, b = (point.volts[nodes[end]] for end in ends)
    alike = abs(a - b) < SAME_VOLTS and min(a, b) > NOTICED_VOLTS
    return (a + b) / 2.0 if alike else None
