"""What symbols, words and wires take beside their lanes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from footwell.drawing.floors import Floors
from footwell.drawing.labels import WireLabel
from footwell.drawing.paths import Path
from footwell.drawing.picture import Glyph, Label, Symbol
from footwell.drawing.plan import Plan
from footwell.drawing.symbols import LABEL_GAP, SIGN, Drawn
from footwell.drawing.words import LINE, width

WIRE = 0.05
"""Half the width of a wire."""

APART = 100.0
"""Distance of columns in a trial drawing, so far that nothing of one reaches the next."""


@dataclass(frozen=True, slots=True)
class Footprint:
    """What a thing takes beside its lane between two heights."""

    lane: int
    left: float
    right: float
    top: float
    bottom: float


def footprints(
    plan: Plan,
    trial: Mapping[str, Drawn],
    ways: Mapping[str, Path],
    labels: Mapping[str, WireLabel],
    level: Floors,
) -> list[Footprint]:
    """Footprints of everything, from a trial drawing whose column n stands at x = n * APART."""
    prints = [print_ for path in ways.values() for print_ in _of_path(path)]
    for item, drawn in trial.items():
        for symbol in drawn.symbols:
            prints += _of_symbol(symbol, plan.lanes_of(item))
    for label in labels.values():
        lane = plan.lanes.of[label.tip.node]
        prints.append(_of_words(lane, label.lines, LABEL_GAP, level.label_y(label)))
    return prints


def _of_symbol(symbol: Symbol, lanes: Sequence[int]) -> list[Footprint]:
    """Footprints of a symbol in a trial drawing, whose column n stands at x = n * APART."""
    top, bottom = symbol.y - symbol.height / 2, symbol.y + symbol.height / 2
    low, high = symbol.x - symbol.width / 2, symbol.x + symbol.width / 2
    first, last = round(low / APART), round(high / APART)
    box = [
        Footprint(lanes[first], first * APART - low, 0.0, top, bottom),
        Footprint(lanes[last], 0.0, high - last * APART, top, bottom),
    ]
    words = [glyph.label for glyph in symbol.glyphs if glyph.label]
    signs = [_sign(glyph, lanes) for glyph in symbol.glyphs]
    return [*box, *signs, *(_of_label(label, lanes) for label in [symbol.label, *words])]


def _sign(glyph: Glyph, lanes: Sequence[int]) -> Footprint:
    """Footprint of a sign, which may stand off its column as a coil's diode does."""
    column = round(glyph.x1 / APART)
    off = glyph.x1 - column * APART
    low, high = sorted((glyph.y1, glyph.y2))
    return Footprint(lanes[column], SIGN - off, SIGN + off, low, high)


def _of_label(label: Label, lanes: Sequence[int]) -> Footprint:
    column = round(label.x / APART)
    reach = label.x - column * APART + width(label.lines)
    half = len(label.lines) * LINE / 2
    return Footprint(lanes[column], 0.0, reach, label.y - half, label.y + half)


def _of_path(path: Sequence[tuple[float, float]]) -> list[Footprint]:
    """Footprints of the upright stretches of a wire, given as (lane, y)."""
    return [
        Footprint(int(a), WIRE, WIRE, min(y, end), max(y, end))
        for (a, y), (b, end) in pairwise(path)
        if a == b and a == int(a)
    ]


def _of_words(lane: int, lines: tuple[str, ...], away: float, y: float) -> Footprint:
    """Footprint of a wire's words."""
    half = len(lines) * LINE / 2
    return Footprint(lane, 0.0, away + width(lines), y - half, y + half)
