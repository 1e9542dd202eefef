"""Moves that put the wires of a connector's half right."""

from __future__ import annotations

from collections.abc import Mapping

from footwell.faults.miswiring import Wiring
from footwell.sheet.points import pieces


def moves(
    drawn: Wiring, found: Mapping[str, str | None]
) -> list[tuple[str, str | None, str | None]]:
    """Shortest list of moves (wires, from way, to way) that puts a half right; None is outside.

    Every wire in a wrong way moves once; wires of one way that belong together move together. A move into a
    way follows the move out of it, and a ring of wires is opened by its first wire waiting outside. Only
    wires that belong in no way are taken out for good.
    """
    home = {wire: way for way, wires in drawn.items() for wire in pieces(wires)}
    place: dict[str, str | None] = {}
    goal: dict[str, str | None] = {}
    for way, wires in found.items():
        for wire, end in _together(pieces(wires), home):
            place[wire], goal[wire] = way, end
    seated = {wire for wires in found.values() for wire in pieces(wires)}
    for wire, end in _together([w for w in home if w not in seated], home):
        place[wire], goal[wire] = None, end
    steps: list[tuple[str, str | None, str | None]] = []
    for wire in [w for w in place if goal[w] is None]:
        steps.append((wire, place.pop(wire), None))
    wrong = [w for w in _in_order(place, home) if place[w] != goal[w]]
    while wrong:
        kept = {way for w, way in place.items() if way != goal[w]}
        free = next((w for w in wrong if goal[w] not in kept), None)
        if free is None:
            free = wrong[0]
            steps.append((free, place[free], None))
            place[free] = None
            continue
        steps.append((free, place[free], goal[free]))
        place[free] = goal[free]
        wrong.remove(free)
    return steps


def _together(wires: list[str], home: Mapping[str, str]) -> list[tuple[str, str | None]]:
    """Wires that belong in one way as one, each with that way; None for what belongs nowhere."""
    groups: dict[str | None, list[str]] = {}
    for wire in wires:
        groups.setdefault(home.get(wire), []).append(wire)
    return [("+".join(group), way) for way, group in groups.items()]


def _in_order(place: Mapping[str, str | None], home: Mapping[str, str]) -> list[str]:
    """Wires in the order of the ways they belong in."""
    order = {wire: n for n, wire in enumerate(home)}
    return sorted(place, key=lambda w: order[w.split("+")[0]])
