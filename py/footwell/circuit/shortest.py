"""Least resistance from node to node."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from heapq import heappop, heappush
from typing import Protocol, TypeVar


class Step(Protocol):
    """From one node to another; `ohms` is what a search keeps low, resistance or another cost."""

    @property
    def start(self) -> int: ...
    @property
    def end(self) -> int: ...
    @property
    def ohms(self) -> float: ...


S = TypeVar("S", bound=Step)


def shortest(
    ways: Mapping[int, Sequence[S]], start: int, goals: Collection[int], barred: Collection[int]
) -> list[S] | None:
    """Steps of least resistance from start to the nearest goal past the barred nodes; None where
    there is no way, and no steps where start is a goal. `ways` has the steps by their start.

    Of equal ways the one found first in the order of the sheet is taken.

    >>> from types import SimpleNamespace as Hop
    >>> direct = Hop(start=0, end=2, ohms=3.0)
    >>> first, second = Hop(start=0, end=1, ohms=1.0), Hop(start=1, end=2, ohms=1.0)
    >>> shortest({0: [direct, first], 1: [second]}, 0, {2}, ()) == [first, second]
    True
    >>> shortest({0: [direct, first], 1: [second]}, 0, {2}, {1}) == [direct]
    True
    """
    arrived: dict[int, S | None] = {}
    waiting: list[tuple[float, int, int, S | None]] = [(0.0, 0, start, None)]
    count = 0
    while waiting:
        ohms, _, node, step = heappop(waiting)
        if node in arrived:
            continue
        arrived[node] = step
        if node in goals:
            return _back(arrived, node)
        for onward in ways.get(node, ()):
            if onward.end not in arrived and onward.end not in barred:
                count += 1
                heappush(waiting, (round(ohms + onward.ohms, 9), count, onward.end, onward))
    return None


def _back(arrived: Mapping[int, S | None], goal: int) -> list[S]:
    steps: list[S] = []
    step = arrived[goal]
    while step is not None:
        steps.append(step)
        step = arrived[step.start]
    return steps[::-1]
