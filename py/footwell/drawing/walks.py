"""Walks along what hangs below what, or stands right of what; no recursion, sheets may be deep."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeVar

T = TypeVar("T")

Below = Mapping[T, Iterable[T]]


def all_below(below: Below[T], start: T) -> dict[T, None]:
    """Everything that can be reached from a start; the start itself only if a circle leads back."""
    seen: dict[T, None] = {}
    waiting = [start]
    while waiting:
        for lower in below.get(waiting.pop(), ()):
            if lower not in seen:
                seen[lower] = None
                waiting.append(lower)
    return seen


def as_met(starts: Iterable[T], below: Below[T]) -> list[T]:
    """Everything as a walk meets it, one branch to its end after the other."""
    return [node for node, first in _walk(starts, below) if first]


def downwards(starts: Iterable[T], below: Below[T]) -> list[T]:
    """Everything so ordered that links lead onwards; in a circle the link met last leads back."""
    return [node for node, first in _walk(starts, below) if not first][::-1]


def _walk(starts: Iterable[T], below: Below[T]) -> Iterator[tuple[T, bool]]:
    """Each node twice: when it is met (True) and when all below it is done (False)."""
    met: set[T] = set()
    for start in starts:
        if start in met:
            continue
        met.add(start)
        yield start, True
        trail = [(start, iter(below.get(start, ())))]
        while trail:
            node, rest = trail[-1]
            lower = next((n for n in rest if n not in met), None)
            if lower is None:
                trail.pop()
                yield node, False
            else:
                met.add(lower)
                yield lower, True
                trail.append((lower, iter(below.get(lower, ()))))
