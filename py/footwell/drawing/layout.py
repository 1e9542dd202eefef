"""The current-path diagram of a circuit: supply above, earth below, loads in order from left to right.

Pure arithmetic on the sheet: the same circuit gives the same picture everywhere.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from footwell.circuit.circuit import Circuit
from footwell.circuit.places import places
from footwell.drawing.columns import (
    APART,
    Columns,
    Footprint,
    columns,
    of_path,
    of_symbol,
    of_words,
)
from footwell.drawing.floors import Floors, floors
from footwell.drawing.frames import frame
from footwell.drawing.items import Item
from footwell.drawing.labels import WireLabel, wire_labels
from footwell.drawing.paths import Path, paths
from footwell.drawing.picture import Label, Layout, Line, Spot
from footwell.drawing.plan import Plan, plan
from footwell.drawing.symbols import LABEL_GAP, Drawn, drawn

XOf = Callable[[Item, int], float]
"""The x of an item's column."""


def lay_out(circuit: Circuit) -> Layout:
    """Positions of everything in the diagram, in grid units."""
    planned = plan(circuit)
    frames = {i.id: frame(circuit, i, places(circuit)) for i in planned.items.values()}
    labels = wire_labels(circuit, planned)
    level = floors(planned, frames, labels)

    def draw(x: XOf) -> dict[str, Drawn]:
        """All items with their columns at `x`."""
        return {
            item.id: drawn(
                circuit,
                item,
                frames[item.id],
                [x(item, n) for n in range(len(item.columns))],
                level.top_of(planned.row[item.id], frames[item.id], item),
            )
            for item in planned.items.values()
        }

    trial = draw(
        lambda item, n: APART * _lanes_of(planned, item).index(planned.lanes.of[item.id, n])
    )
    ways = paths(planned, level, {p: y for d in trial.values() for p, (_, y) in d.points.items()})
    across = columns(planned.lanes.count, _footprints(planned, trial, ways, labels, level))
    made = draw(lambda item, n: across.x(planned.lanes.of[item.id, n]))
    return Layout(
        across.width,
        level.height,
        tuple(symbol for item in made.values() for symbol in item.symbols),
        tuple(
            _line(wire, path, labels[wire], planned, level, across) for wire, path in ways.items()
        ),
        _dots(planned, level, across),
        _spots(circuit, made),
    )


def _lanes_of(planned: Plan, item: Item) -> list[int]:
    """The lanes of an item's columns from left to right."""
    return sorted(planned.lanes.of[item.id, n] for n in range(len(item.columns)))


def _footprints(
    planned: Plan,
    trial: Mapping[str, Drawn],
    ways: Mapping[str, Path],
    labels: Mapping[str, WireLabel],
    level: Floors,
) -> list[Footprint]:
    """What every symbol, wire and word takes beside its lane."""
    prints = [print_ for path in ways.values() for print_ in of_path(path)]
    for item in planned.items.values():
        for symbol in trial[item.id].symbols:
            prints += of_symbol(symbol, _lanes_of(planned, item))
    for label in labels.values():
        lane = planned.lanes.of[label.tip.node]
        prints.append(of_words(lane, label.lines, LABEL_GAP, level.label_y(label)))
    return prints


def _line(
    wire: str, path: Path, label: WireLabel, planned: Plan, level: Floors, across: Columns
) -> Line:
    x = across.x(planned.lanes.of[label.tip.node]) + LABEL_GAP
    words = Label(label.lines, x, level.label_y(label))
    return Line(wire, words, tuple((across.x(lane), y) for lane, y in path))


def _dots(planned: Plan, level: Floors, across: Columns) -> tuple[tuple[float, float], ...]:
    return tuple(
        (across.x(lane), level.tracks[n][track])
        for n, channel in enumerate(planned.channels)
        for lane, track in channel.dots()
    )


def _spots(circuit: Circuit, made: Mapping[str, Drawn]) -> tuple[Spot, ...]:
    """The places that have a point of their own in the picture, in the order of the sheet.

    The half of a plug that belongs to the part itself is the part's terminal: it has no spot unless
    that terminal is bare.
    """
    points = {point: spot for item in made.values() for point, spot in item.points.items()}
    return tuple(Spot(place, *points[place]) for place in places(circuit) if place in points)
