"""The current's path through a load: the places from supply to earth, in the order it meets them.

The path is the one of least resistance, in the control position that offers it: there the most current
flows. Only the sheet is asked, nothing is solved.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from footwell.circuit.circuit import AS_DRAWN, Circuit, Element, build
from footwell.circuit.places import places
from footwell.circuit.shortest import shortest
from footwell.parts.laws import Law, LimitedOutput, Open, Resistance

OTHER_LOAD_OHMS = 1e4
"""Stands for a lamp, a motor or a diode on the way, so that a path through it is the last resort."""

MOST_POSITIONS = 500
"""Combinations of positions tried where one control must close two contacts of the path."""


@dataclass(frozen=True, slots=True)
class Hop:
    """From one node to another through an element, in any of some of its states."""

    element: str
    start: int
    end: int
    ohms: float
    states: tuple[str, ...]


Ways = dict[int, list[Hop]]
"""Hops by the node they start from."""


@dataclass(frozen=True, slots=True)
class Trace:
    """`between[n]` are the elements after place n, before the next one or the body; `controls` are the
    positions in which the path is closed."""

    places: tuple[str, ...]
    between: tuple[tuple[str, ...], ...]
    controls: Mapping[str, str]


def current_path(circuit: Circuit, load: str) -> list[str]:
    """Places from the battery's positive post to earth through a load.

    Empty where the sheet offers no path. Where wires are found otherwise than drawn and leave none,
    the path of the sheet as drawn.
    """
    return list(trace(circuit, load).places)


def trace_in(circuit: Circuit, load: str, controls: Mapping[str, str]) -> Trace:
    """The path in some positions of the controls; the path of `trace` where they leave none."""
    element = circuit.elements[load]
    hops = _through(circuit, element, _ways(circuit, element, controls))
    return _told(circuit, hops) if hops else trace(circuit, load)


def trace(circuit: Circuit, load: str) -> Trace:
    """The path with the elements between its places and the control positions that close it."""
    hops = _path(circuit, circuit.elements[load])
    if not hops and circuit.arrangement != AS_DRAWN:
        return trace(build(circuit.sheet, circuit.values), load)
    return _told(circuit, hops)


def _path(circuit: Circuit, load: Element) -> list[Hop]:
    """The path with every control free; if that asks one part for two states, in fixed positions."""
    hops = _through(circuit, load, _ways(circuit, load, {}))
    torn = [e for e, states in _states(hops).items() if not states]
    if not torn:
        return hops
    choices = [[(e, s) for s in _states_of(circuit.elements[e])] for e in torn]
    tried = [
        _through(circuit, load, _ways(circuit, load, dict(chosen)))
        for chosen in _first(product(*choices), MOST_POSITIONS)
    ]
    return min((path for path in tried if path), key=_ohms_of, default=[])


def _first(
    combinations: Iterator[tuple[tuple[str, str], ...]], most: int
) -> Iterator[tuple[tuple[str, str], ...]]:
    for _, combination in zip(range(most), combinations, strict=False):
        yield combination


def _ways(circuit: Circuit, load: Element, fixed: Mapping[str, str]) -> Ways:
    """What leads from each node to others in some state, or in the fixed one."""
    ways: Ways = {}
    for element in circuit.elements.values():
        if element is load or element is circuit.supply_element:
            continue
        for (a, b, ohms), states in _conducting(circuit, element, fixed.get(element.id)).items():
            ways.setdefault(a, []).append(Hop(element.id, a, b, ohms, states))
            ways.setdefault(b, []).append(Hop(element.id, b, a, ohms, states))
    return ways


def _conducting(
    circuit: Circuit, element: Element, state: str | None
) -> dict[tuple[int, int, float], tuple[str, ...]]:
    """Pairs of nodes that an element joins, with the resistance and the states that join them."""
    found: dict[tuple[int, int, float], tuple[str, ...]] = {}
    for each in _states_of(element) if state is None else (state,):
        for branch in circuit.branches(element, each):
            if not isinstance(branch.law, Open):
                key = element.nodes[branch.a], element.nodes[branch.b], _ohms(branch.law)
                found[key] = (*found.get(key, ()), each)
    return found


def _states_of(element: Element) -> tuple[str, ...]:
    return element.kind.states(element.values)


def _ohms(law: Law) -> float:
    return law.ohms if isinstance(law, Resistance | LimitedOutput) else OTHER_LOAD_OHMS


def _through(circuit: Circuit, load: Element, ways: Ways) -> list[Hop]:
    """Supply to one end of the load, through it, and from its other end to earth."""
    supply, earth = circuit.supply_element.nodes["+"], circuit.earth
    tried: list[list[Hop]] = []
    for branch in circuit.branches(load, _states_of(load)[-1]):
        ends = load.nodes[branch.a], load.nodes[branch.b]
        for start, end in (ends, ends[::-1]):
            feed = shortest(ways, supply, {start}, {earth, end})
            if feed is None:
                continue
            back = shortest(ways, end, {earth}, {supply, start, *(hop.end for hop in feed)})
            if back is not None:
                tried.append([*feed, Hop(load.id, start, end, 0.0, _states_of(load)), *back])
    return min(tried, key=_ohms_of, default=[])


def _ohms_of(hops: Sequence[Hop]) -> float:
    """Resistance of a path without its load, rounded so that equal ways do not hang on the last bit."""
    return round(sum(hop.ohms for hop in hops), 9)


def _states(hops: Sequence[Hop]) -> dict[str, tuple[str, ...]]:
    """For each element of a path the states that close all its hops."""
    states: dict[str, tuple[str, ...]] = {}
    for hop in hops:
        before = states.get(hop.element, hop.states)
        states[hop.element] = tuple(state for state in before if state in hop.states)
    return states


def _told(circuit: Circuit, hops: Sequence[Hop]) -> Trace:
    if not hops:
        return Trace((), (), {})
    known = places(circuit)
    found: list[tuple[str, list[str]]] = []
    for hop in hops:
        point = circuit.points[hop.start]
        if point in known:
            found.append((point, []))
        if found:
            found[-1][1].append(hop.element)
    states = _states(hops)
    controls = {c.part: states[c.part][0] for c in circuit.sheet.controls if c.part in states}
    return Trace(tuple(p for p, _ in found), tuple(tuple(e) for _, e in found), controls)
