"""How far to the right each lane lies: as near as symbols, words and thumbs allow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from footwell.drawing.footprints import Footprint
from footwell.drawing.frames import TOUCH

MARGIN = 0.25
"""Space left and right of the picture."""

GAP = 0.15
"""Space between neighbours."""


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
