"""Elements in series: a break or a poor joint in one of them looks the same from outside the chain.

A chain runs through nodes where exactly two branches meet, up to a load, which itself shows what becomes of
it. A fault in one of its elements is as good as the same fault in the first element of the same stretch,
where a stretch ends at every node that somebody looks at. So one operating point serves a whole stretch of
wires, contacts and joints.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import Fault
from footwell.parts.base import EARTH, SUPPLY

SERIES_MODES = ("open", "high_resistance")


@dataclass(frozen=True, slots=True)
class Link:
    """One element of a chain, in order, with the node before and after it."""

    element: str
    before: int
    after: int


def chains(circuit: Circuit) -> dict[str, tuple[tuple[Link, ...], int]]:
    """Element to the chain it belongs to and its position there."""
    if "chains" not in circuit.cache:
        found: dict[str, tuple[tuple[Link, ...], int]] = {}
        ends, meeting = _ends(circuit)
        for element in ends:
            if element not in found:
                chain = _chain(element, ends, meeting)
                found.update({link.element: (chain, n) for n, link in enumerate(chain)})
        circuit.cache["chains"] = found
    return circuit.cache["chains"]  # type: ignore[no-any-return]


def _ends(circuit: Circuit) -> tuple[dict[str, tuple[int, int]], dict[int, list[str]]]:
    """The two nodes of every simple element, and all elements at each inner node."""
    ends: dict[str, tuple[int, int]] = {}
    meeting: dict[int, list[str]] = {}
    for element in circuit.elements.values():
        pairs = {
            (element.nodes[b.a], element.nodes[b.b])
            for state in element.kind.states(element.values)
            for b in circuit.branches(element, state)
        }
        for pair in pairs:
            for node in pair:
                meeting.setdefault(node, []).append(element.id)
        if len(pairs) == 1 and element.id not in circuit.sheet.loads and _is_simple(element):
            ends[element.id] = next(iter(pairs))
    for fixed in (circuit.earth, circuit.supply_element.nodes[SUPPLY]):
        meeting[fixed] = [EARTH, EARTH, EARTH]
    return ends, meeting


def _is_simple(element: Element) -> bool:
    return all(mode in element.modes for mode in SERIES_MODES) and element.kind.name not in (
        "battery",
        "motor",
    )


def _chain(
    start: str, ends: dict[str, tuple[int, int]], meeting: dict[int, list[str]]
) -> tuple[Link, ...]:
    a, b = ends[start]
    back = _walk(start, a, ends, meeting)
    forth = _walk(start, b, ends, meeting)
    reversed_back = [Link(link.element, link.after, link.before) for link in reversed(back)]
    return (*reversed_back, Link(start, a, b), *forth)


def _walk(
    element: str, node: int, ends: dict[str, tuple[int, int]], meeting: dict[int, list[str]]
) -> list[Link]:
    """Links that follow from an element's node on, while exactly two elements meet."""
    found: list[Link] = []
    seen = {element}
    while len(meeting[node]) == 2:
        other = next((e for e in meeting[node] if e != element), None)
        if other is None or other not in ends or other in seen:
            break
        seen.add(other)
        a, b = ends[other]
        after = b if a == node else a
        found.append(Link(other, node, after))
        element, node = other, after
    return found


def alike(
    circuit: Circuit, faults: tuple[Fault, ...], watched: Collection[int]
) -> tuple[Fault, ...]:
    """Faults that look the same from outside and at the watched nodes: each series fault is moved to the
    first element of its stretch. A stretch ends at any other fault too: before and behind a wire that lies
    on earth a break is not the same."""
    known = chains(circuit)
    series = [f for f in faults if f.mode in SERIES_MODES and f.element in known]
    others = [f for f in faults if f not in series]
    ends = {n for f in others for n in _nodes(circuit, f)}.union(watched) if others else watched
    return tuple(sorted((*others, *_moved(known, series, ends))))


def _nodes(circuit: Circuit, fault: Fault) -> Collection[int]:
    element = circuit.elements.get(fault.element)
    return element.nodes.values() if element else ()


def _moved(
    known: Mapping[str, tuple[tuple[Link, ...], int]],
    series: Sequence[Fault],
    watched: Collection[int],
) -> Iterator[Fault]:
    """Series faults at the first element of their stretches. Poor joints of one stretch stay at elements of
    their own, the greatest first: how far each is off its size says nothing of the other."""
    poor: set[str] = set()
    for fault in sorted(series, key=lambda f: (-f.size, f)) if len(series) > 1 else series:
        chain, at = known[fault.element]
        while at > 0 and chain[at].before not in watched:
            at -= 1
        if fault.size:
            while chain[at].element in poor:
                at += 1
            poor.add(chain[at].element)
        yield Fault(chain[at].element, fault.mode, fault.size)
