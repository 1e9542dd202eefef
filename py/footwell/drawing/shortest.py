"""Least resistance from node to node."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass
from heapq import heappop, heappush


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


def shortest(
    ways: Mapping[int, list[Hop]], start: int, goal: int, barred: Set[int]
) -> list[Hop] | None:
    """Hops of least resistance from start to goal past the barred nodes; None where there is no way.

    Of equal ways the one found first in the order of the sheet is taken.
    """
    arrived: dict[int, Hop | None] = {}
    waiting: list[tuple[float, int, int, Hop | None]] = [(0.0, 0, start, None)]
    count = 0
    while waiting:
        ohms, _, node, hop = heappop(waiting)
        if node in arrived:
            continue
        arrived[node] = hop
        if node == goal:
            return _back(arrived, goal)
        for onward in ways.get(node, ()):
            if onward.end not in arrived and onward.end not in barred:
                count += 1
                heappush(waiting, (round(ohms + onward.ohms, 9), count, onward.end, onward))
    return None


def _back(arrived: Mapping[int, Hop | None], goal: int) -> list[Hop]:
    hops: list[Hop] = []
    hop = arrived[goal]
    while hop is not None:
        hops.append(hop)
        hop = arrived[hop.start]
    return hops[::-1]
