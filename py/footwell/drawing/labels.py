"""Where the words of a wire stand: beside a stretch that belongs to this wire alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from footwell.circuit.circuit import Circuit
from footwell.drawing.grid import Piece, Tip
from footwell.drawing.plan import Plan
from footwell.drawing.words import wire_lines

Edge = tuple[int, bool]
"""(channel, upper edge): the strip of a channel where words beside its pins stand."""


@dataclass(frozen=True, slots=True)
class WireLabel:
    """Words beside a tip, `place` blocks away from it; in `row` where the wire passes one."""

    lines: tuple[str, ...]
    tip: Tip
    edge: Edge
    place: int = 0
    row: int | None = None


def wire_labels(circuit: Circuit, plan: Plan) -> dict[str, WireLabel]:
    """Label by wire: at its lower end, else its upper, where it passes a row, at a shared pin."""
    by_wire: dict[str, list[Piece]] = {}
    for piece in plan.cut:
        by_wire.setdefault(piece.wire, []).append(piece)
    shared = Counter(tip for found in by_wire.values() for tip, _ in _ends(found))
    stacked: Counter[Tip] = Counter()
    labels: dict[str, WireLabel] = {}
    for wire in (wire for wire in circuit.sheet.wires if wire.id in by_wire):
        lines = () if wire.id in plan.bundles else wire_lines(wire)
        found = by_wire[wire.id]
        alone = [(tip, edge) for tip, edge in _ends(found) if shared[tip] == 1]
        passing = found[0].end if len(found) > 1 else None
        tip, edge = (alone or _ends(found))[0]
        if alone or passing is None:
            labels[wire.id] = WireLabel(lines, tip, edge, stacked[tip])
            stacked[tip] += 1
        else:
            labels[wire.id] = WireLabel(lines, passing, edge, row=passing.node[1])
    return labels


def _ends(found: list[Piece]) -> list[tuple[Tip, Edge]]:
    """Both ends of a wire, the lower first."""
    last, first = found[-1], found[0]
    return [
        (last.end, (last.channel, last.end.above)),
        (first.start, (first.channel, first.start.above)),
    ]


def blocks(labels: Mapping[str, WireLabel]) -> dict[Edge, int]:
    """How many blocks of words stand one above the other along each edge."""
    most: dict[Edge, int] = {}
    for label in labels.values():
        if label.lines and label.row is None:
            most[label.edge] = max(most.get(label.edge, 0), label.place + 1)
    return most
