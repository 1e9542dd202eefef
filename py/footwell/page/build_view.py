"""What the page shows of a sheet that is being built from a wiring diagram."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from footwell.circuit.circuit import Circuit, build
from footwell.messages import (
    BuildBranch,
    BuildEnd,
    Building,
    BuildPoint,
    BuildProblem,
    BuildView,
    BuildWire,
)
from footwell.page.diagram_view import layout_of, pictured
from footwell.sheet.building.closing import Closing
from footwell.sheet.building.loom import PLUS, Loom
from footwell.sheet.building.problems import problems
from footwell.sheet.building.replay import built
from footwell.sheet.draft import draft_of
from footwell.sheet.errors import SheetError
from footwell.sheet.models import Sheet
from footwell.sheet.reading import read_data

ENDS_APART = 0.6
"""Grid units between open ends of one part."""


def view(asked: Building) -> BuildView:
    """Replay the steps, and show what stands."""
    so_far = built(asked.steps, asked.volts)
    loom, title = so_far.loom, asked.title.strip() or _title(so_far.loom)
    drawn = Closing(loom, finished=False)
    vehicle = f"Vehicle, {asked.volts} V"
    told = [
        BuildProblem(element=p.element, sentence=p.sentence, stops=p.stops)
        for p in problems(loom, drawn)
    ]
    circuit = _circuit(drawn.sheet(title, vehicle))
    diagram = pictured(circuit, {}, set(), {})
    sheet = None
    if not any(p.stops for p in told):
        sheet = Closing(loom, finished=True).sheet(title, vehicle)
        told += _unread(sheet)
    open_now = [end.point for end in loom.ends]
    return BuildView(
        at=_point(loom, loom.at, open_now),
        together=len(loom.group()),
        refused=next(reversed(so_far.refused.values()), ""),
        points=[_point(loom, p, open_now) for p in _going_on(loom, open_now)],
        inlets=[_point(loom, p, open_now) for p in _inlets(loom)],
        wires=[
            BuildWire(
                id=w.id,
                name=f"{w.id}: {loom.place(w.start)} to {loom.place(w.end)}",
                colour=w.colour or "",
            )
            for w in loom.wires.values()
        ],
        plugs=[
            BuildBranch(id=p.id, name=f"plug {p.id}, {len(p.pins)} ways")
            for p in loom.plugs.values()
            if not p.part and len(p.entered) < len(p.pins)
        ],
        branches=[
            BuildBranch(id=p.id, name=f"{p.name} {p.id}") for p in loom.pieces.values() if p.load
        ],
        problems=told,
        diagram=diagram,
        ends=list(_ends(loom, drawn, circuit)),
        title=title,
        sheet=None if any(p.stops for p in told) else sheet,
    )


def _unread(sheet: dict[str, Any]) -> list[BuildProblem]:
    try:
        read_data(sheet)
    except SheetError as error:
        return [
            BuildProblem(element="", sentence=f"{p.sentence} {p.remedy}", stops=True)
            for p in error.problems
        ]
    return []


def _circuit(data: dict[str, Any]) -> Circuit:
    """What stands, to be drawn, also before there is a load, which a sheet must have."""
    sheet = Sheet.model_validate(data | {"loads": data["loads"] or ["G1"]})
    draft, _ = draft_of(data, sheet)
    return build(sheet.model_copy(update={"loads": data["loads"]}), draft.values)


def _ends(loom: Loom, drawn: Closing, circuit: Circuit) -> Iterator[BuildEnd]:
    """Where the drawing shows the open ends: at their terminals, or side by side below the part of which
    no terminal is drawn there yet."""
    symbols = layout_of(circuit).symbols
    at = {t.point: (t.x, t.y) for s in symbols for t in s.terminals}
    below = {s.element: (s.x, s.y + s.height / 2) for s in symbols}
    beside: Counter[str] = Counter()
    for end in loom.ends:
        spot = at.get(drawn.outside(end.point), at.get(end.point))
        if spot is None:
            owner = loom.owner(end.point)
            way = end.point.rpartition(".")[0]
            x, y = below.get(owner) or below.get(way) or (0.0, 0.0)
            spot = (x + ENDS_APART * beside[owner], y)
            beside[owner] += 1
        yield BuildEnd(point=end.point, x=spot[0], y=spot[1], now=end.point == loom.at)


def _point(loom: Loom, point: str, open_now: list[str]) -> BuildPoint:
    return BuildPoint(point=point, name=loom.place(point), open=point in open_now)


def _going_on(loom: Loom, open_now: list[str]) -> list[str]:
    """Open ends first, then the battery, then where a wire could split off."""
    leaving = [
        piece.point(t)
        for piece in loom.pieces.values()
        if piece.kind not in ("battery", "earth_point", "splice")
        for _, leave in piece.ways
        for t in leave
        if loom.at_point(piece.point(t))
    ]
    return list(dict.fromkeys([*open_now, PLUS, *leaving]))


def _inlets(loom: Loom) -> list[str]:
    """Where a wire can end: what is not fed yet first, then what has a wire, and earth points."""
    other_ends = [end.point for end in loom.ends if end.point != loom.at]
    points = [
        piece.point(t)
        for piece in loom.pieces.values()
        if piece.what is not None
        for come, leave in piece.ways
        for t in (*come, *(leave if piece.load else ()))
    ]
    fed = [p for p in points if loom.at_point(p)]
    return list(dict.fromkeys([*(p for p in points if p not in fed), *other_ends, *fed]))


def _title(loom: Loom) -> str:
    names = [f"{p.name} {p.id}" for p in loom.pieces.values() if p.load]
    said = ", ".join(names)[:70] or "circuit"
    return f"{said[:1].upper()}{said[1:]}"
