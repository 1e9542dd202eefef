"""The current-path diagram with what is known: suspects, cleared parts, measured places."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from footwell.circuit.circuit import Circuit
from footwell.circuit.places import places
from footwell.diagnosis.belief import Belief
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.complaint import load_in_question, seen_well
from footwell.diagnosis.conclude import Next
from footwell.drawing import picture
from footwell.drawing.folding import Asked
from footwell.drawing.layout import lay_out
from footwell.drawing.path import trace
from footwell.messages import Diagram, DiagramAsked, Glyph, Label, Line, PlaceView, Symbol
from footwell.page import words as say
from footwell.page.concluded import concluded
from footwell.page.suspect_view import cleared_elements
from footwell.parts.base import EARTH


def diagram_view(case: Case, belief: Belief, step: Next, opened: Iterable[str] = ()) -> Diagram:
    """The sheet's circuit as drawn, whatever the wiring: people look for what should be there."""
    circuit = case.drawn
    shares = element_shares(belief)
    return pictured(
        circuit,
        shares,
        cleared_elements(case, belief),
        measured_at(case),
        Asked(
            frozenset([*_asked_about(case, circuit, shares, step), *opened]),
            seen_well(case),
        ),
    )


def diagram_of(request: DiagramAsked) -> Diagram:
    """The diagram of a job, with what was opened of its folds."""
    replayed, conclusion = concluded(request.events)
    return diagram_view(replayed.case, conclusion.belief, conclusion.step, request.opened)


SUSPECT_FROM = 0.01


def _asked_about(
    case: Case, circuit: Circuit, shares: Mapping[str, float], step: Next
) -> Iterator[str]:
    """What is never folded away: the way through the load in question, suspects, and where to probe."""
    for between in trace(circuit, load_in_question(case)).between:
        yield from between
    if case.evidence:
        yield from (element for element, share in shares.items() if share >= SUSPECT_FROM)
    check = step.choice.check if step.choice else None
    for point in (check.red, check.black) if check else ():
        yield from _elements_at(circuit, point)


def _elements_at(circuit: Circuit, point: str) -> Iterator[str]:
    """The contact or part that a place belongs to."""
    yield from (one for one in (point, point.rpartition(".")[0]) if one in circuit.elements)


def pictured(
    circuit: Circuit,
    share: Mapping[str, float],
    cleared: set[str],
    measured: Mapping[str, str],
    asked: Asked | None = None,
) -> Diagram:
    """A circuit's diagram, with the share of each suspect and the readings by place."""
    layout = layout_of(circuit, asked)
    return Diagram(
        width=layout.width,
        height=layout.height,
        symbols=[
            _symbol(s, share.get(s.element, 0.0), s.element in cleared) for s in layout.symbols
        ],
        lines=[
            Line(
                element=line.element,
                label=_label(line.label),
                points=list(line.points),
                suspect=share.get(line.element, 0.0),
            )
            for line in layout.lines
        ],
        dots=list(layout.dots),
        places=list(_places(circuit, layout, measured)),
    )


def layout_of(circuit: Circuit, asked: Asked | None = None) -> picture.Layout:
    """The drawing's own form, made once."""
    key = ("layout", asked)
    if key not in circuit.cache:
        circuit.cache[key] = lay_out(circuit, asked)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _places(
    circuit: Circuit, layout: picture.Layout, measured: Mapping[str, str]
) -> Iterator[PlaceView]:
    """Every place in the order of the sheet, also those inside a fold."""
    at = {spot.id: (spot.x, spot.y) for spot in layout.places}
    hidden = any(symbol.folded for symbol in layout.symbols)
    own = {f"{c.id}.{way}.b" for c in circuit.sheet.connectors for way in c.part_ways}
    for place in places(circuit).values():
        if place.id in at or (hidden and place.id not in own and place.id != EARTH):
            x, y = at.get(place.id, (0.0, 0.0))
            yield PlaceView(
                id=place.id,
                name=place.name,
                x=x,
                y=y,
                measured=measured.get(place.id, ""),
                minutes=place.minutes,
                drawn=place.id in at,
            )


def element_shares(belief: Belief) -> dict[str, float]:
    """Share of each element among what is still to be mended."""
    share: dict[str, float] = {}
    for w in belief.suspects:
        for element, _ in w.left:
            share[element] = min(share.get(element, 0.0) + w.share, 0.99)
    return share


def measured_at(case: Case) -> dict[str, str]:
    """The last reading at each place, in words."""
    found: dict[str, str] = {}
    for item in case.evidence:
        if isinstance(item, Taken):
            value = item.word if item.value is None else say.measured(item.value, item.check.unit)
            found[item.check.red] = value
    return found


def _symbol(one: picture.Symbol, suspect: float, cleared: bool) -> Symbol:
    return Symbol(
        element=one.element,
        kind=one.kind,
        name=one.name,
        label=_label(one.label),
        x=one.x,
        y=one.y,
        width=one.width,
        height=one.height,
        glyphs=[_glyph(g) for g in one.glyphs],
        suspect=suspect,
        cleared=cleared,
        folded=list(one.folded),
    )


def _glyph(one: picture.Glyph) -> Glyph:
    return Glyph(
        kind=one.kind,
        x1=one.x1,
        y1=one.y1,
        x2=one.x2,
        y2=one.y2,
        branch=one.branch,
        label=_label(one.label) if one.label else None,
    )


def _label(one: picture.Label) -> Label:
    return Label(lines=list(one.lines), x=one.x, y=one.y)
