"""How far to the right each lane lies: as near as symbols, words and thumbs allow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from footwell.drawing.frames import TOUCH
from footwell.drawing.picture import Glyph, Label, Symbol
from footwell.drawing.words import LINE, width

MARGIN = 0.25
"""Space left and right of the picture."""

GAP = 0.15
"""Space between neighbours."""

WIRE = 0.05
"""Half the width of a wire."""

SIGN = 0.2
"""Half the width of a sign inside a symbol."""

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


@dataclass(frozen=True)
class Columns:
    """The x of each lane; a side-step lies between its neighbours."""

    xs: Sequence[float]
    width: float

    def x(self, lane: float) -> float:
        whole = int(lane // 1)
        here = self.xs[whole] if whole >= 0 else self.xs[0] - TOUCH
        after = self.xs[whole + 1] if whole + 1 < len(self.xs) else here + TOUCH
        return here + (after - here) * (lane - whole)


def columns(lanes: int, prints: Sequence[Footprint]) -> Columns:
    """Lanes pushed left until something stands in the way."""
    needs: dict[tuple[int, int], float] = {(n, n + 1): TOUCH for n in range(lanes - 1)}
    for one in prints:
        for other in prints:
            if one.lane < other.lane and one.top < other.bottom and other.top < one.bottom:
                pair = one.lane, other.lane
                needs[pair] = max(needs.get(pair, 0.0), one.right + other.left + GAP)
    xs = [MARGIN + max((p.left for p in prints if p.lane == 0), default=0.0)]
    for lane in range(1, lanes):
        xs.append(max(xs[low] + need for (low, high), need in needs.items() if high == lane))
    right = max((xs[p.lane] + p.right for p in prints), default=0.0)
    return Columns(xs, right + MARGIN)


def of_symbol(symbol: Symbol, lanes: Sequence[int]) -> list[Footprint]:
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


def of_path(path: Sequence[tuple[float, float]]) -> list[Footprint]:
    """Footprints of the upright stretches of a wire, given as (lane, y)."""
    return [
        Footprint(int(a), WIRE, WIRE, min(y, end), max(y, end))
        for (a, y), (b, end) in pairwise(path)
        if a == b and a == int(a)
    ]


def of_words(lane: int, lines: tuple[str, ...], away: float, y: float) -> Footprint:
    """Footprint of a wire's words."""
    half = len(lines) * LINE / 2
    return Footprint(lane, 0.0, away + width(lines), y - half, y + half)
