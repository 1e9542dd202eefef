"""How far down each row and each track lies."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from footwell.drawing.frames import TOUCH, Frame
from footwell.drawing.items import Item
from footwell.drawing.labels import WireLabel, blocks
from footwell.drawing.plan import Plan

MARGIN = 0.6
"""Space above the first row and below the last."""

TRACK = 0.4
"""Height of one track."""

WORDS = 0.95
"""Height of two lines of words beside a wire, with space around them."""

FREE = 0.25
"""Distance of a track from a row where no words stand between them."""


@dataclass(frozen=True)
class Floors:
    """Upper and lower edge of each row, and the y of each track by channel."""

    tops: list[float]
    bottoms: list[float]
    tracks: list[list[float]]

    def top_of(self, row: int, frame: Frame, item: Item) -> float:
        """Where an item's upper edge lies: hung from its row, or stood on it with no pin above."""
        hung = any(column.top for column in item.columns)
        return self.tops[row] if hung else self.bottoms[row] - frame.height

    def label_y(self, label: WireLabel) -> float:
        """The middle of a wire's words."""
        if label.row is not None:
            return (self.tops[label.row] + self.bottoms[label.row]) / 2
        channel, above = label.edge
        away = WORDS * (label.place + 0.55)
        return self.bottoms[channel - 1] + away if above else self.tops[channel] - away

    @property
    def height(self) -> float:
        return self.bottoms[-1] + MARGIN


def floors(plan: Plan, frames: Mapping[str, Frame], labels: Mapping[str, WireLabel]) -> Floors:
    """Stack channels and rows from the top down."""
    words = blocks(labels)
    tops: list[float] = []
    bottoms: list[float] = []
    tracks: list[list[float]] = []
    y = MARGIN
    for n, channel in enumerate(plan.channels):
        count = channel.count()
        upper, lower = (_strip(words.get((n, edge), 0), count) for edge in (True, False))
        tracks.append([y + upper + TRACK * (t + 0.5) for t in range(count)])
        inner = 0 < n < len(plan.grid)
        y += max(upper + TRACK * count + lower, TOUCH if inner else 0.0)
        if n < len(plan.grid):
            tops.append(y)
            y += max(frames[group[0][0]].height for group in plan.grid[n] if group[0][0] in frames)
            bottoms.append(y)
    return Floors(tops, bottoms, tracks)


def _strip(words: int, tracks: int) -> float:
    return WORDS * words or (FREE if tracks else 0.0)
