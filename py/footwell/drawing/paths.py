"""The course of each wire: down from its upper pin, along tracks, past rows, to its lower pin."""

from __future__ import annotations

from collections.abc import Mapping

from footwell.drawing.floors import Floors
from footwell.drawing.plan import Plan
from footwell.drawing.tracks import tip_at

Path = list[tuple[float, float]]
"""Corners of a wire as (lane, y)."""


def paths(plan: Plan, level: Floors, pin_y: Mapping[str, float]) -> dict[str, Path]:
    """Corners of every wire, upper end first; `pin_y` is the y of each point."""
    found: dict[str, Path] = {wire: [] for wire in plan.ends}
    for piece in plan.cut:
        start, end = tip_at(piece.start, plan.lanes.of), tip_at(piece.end, plan.lanes.of)
        corners = plan.channels[piece.channel].corners(start, end)
        ys = level.tracks[piece.channel]
        found[piece.wire] += [(start[0], -1.0), *((n, ys[t]) for n, t in corners), (end[0], -1.0)]
    return {wire: _with_pins(plan, wire, path, pin_y) for wire, path in found.items()}


def _with_pins(plan: Plan, wire: str, path: Path, pin_y: Mapping[str, float]) -> Path:
    """The path between its pins, without the corners that are none."""
    one, other = plan.ends[wire]
    first = next(piece for piece in plan.cut if piece.wire == wire).start
    seat = plan.seats[one]
    if (seat.item, seat.column) != first.node or seat.top == first.above:
        one, other = other, one
    inner = [corner for corner in path if corner[1] >= 0]
    whole = [(path[0][0], pin_y[one]), *inner, (path[-1][0], pin_y[other])]
    return [c for n, c in enumerate(whole) if not 0 < n < len(whole) - 1 or _turns(whole, n)]


def _turns(path: Path, n: int) -> bool:
    (a, _), (b, _), (c, _) = path[n - 1 : n + 2]
    return not a == b == c
