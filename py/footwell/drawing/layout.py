"""The current-path diagram of a circuit: supply above, earth below, loads in order side by side.

Pure arithmetic on the sheet: the same circuit gives the same picture everywhere.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from footwell.circuit.circuit import Circuit
from footwell.circuit.places import places
from footwell.drawing.columns import Columns, columns
from footwell.drawing.floors import Floors, floors
from footwell.drawing.folding import Asked
from footwell.drawing.footprints import APART, footprints
from footwell.drawing.frames import Frame, frame
from footwell.drawing.labels import WireLabel, wire_labels
from footwell.drawing.paths import Path, paths
from footwell.drawing.picture import Label, Layout, Line, Spot
from footwell.drawing.plan import Plan, plan
from footwell.drawing.symbols import LABEL_GAP, Drawn, drawn


def lay_out(circuit: Circuit, asked: Asked | None = None) -> Layout:
    """Positions of everything in the diagram, in grid units; of a large circuit what is asked about
    stays open and the rest is folded. Everything is open where nothing is said of that.

    First everything gets its height. A trial drawing with lanes far apart then tells what each
    symbol takes beside its lane, and with that the lanes are pushed together.
    """
    planned = plan(circuit, asked)
    frames = {i.id: frame(circuit, i, places(circuit)) for i in planned.items.values()}
    labels = wire_labels(circuit, planned)
    level = floors(planned, frames, labels)
    trial = _draw(circuit, planned, frames, level, _far_apart(planned))
    ways = paths(planned, level, {p: y for d in trial.values() for p, (_, y) in d.points.items()})
    across = columns(planned.lanes.count, footprints(planned, trial, ways, labels, level))
    made = _draw(circuit, planned, frames, level, lambda item, lane: across.x(lane))
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


XOf = Callable[[str, int], float]
"""The x of a lane, for an item."""


def _far_apart(planned: Plan) -> XOf:
    """Lanes of a trial drawing: an item's columns in their order, APART from each other."""
    return lambda item, lane: APART * planned.lanes_of(item).index(lane)


def _draw(
    circuit: Circuit, planned: Plan, frames: Mapping[str, Frame], level: Floors, x: XOf
) -> dict[str, Drawn]:
    """All items, with their lanes at `x`."""
    return {
        item.id: drawn(
            circuit,
            item,
            frames[item.id],
            [x(item.id, planned.lanes.of[item.id, n]) for n in range(len(item.columns))],
            level.top_of(planned.row[item.id], frames[item.id], item),
        )
        for item in planned.items.values()
    }


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
