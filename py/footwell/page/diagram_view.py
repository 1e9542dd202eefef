"""The current-path diagram with what is known: suspects, cleared parts, measured places."""

from __future__ import annotations

from collections.abc import Mapping

from footwell.circuit.circuit import AS_DRAWN, Circuit
from footwell.circuit.places import places
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.conclude import Conclusion
from footwell.drawing import picture
from footwell.drawing.layout import lay_out
from footwell.messages import Diagram, Glyph, Label, Line, PlaceView, Symbol
from footwell.page import words as say


def diagram_view(case: Case, conclusion: Conclusion, cleared: set[str]) -> Diagram:
    """The sheet's circuit as drawn, whatever the wiring: people look for what should be there."""
    circuit = case.circuit_for(AS_DRAWN)
    return pictured(circuit, element_shares(conclusion), cleared, measured_at(case))


def pictured(
    circuit: Circuit, share: Mapping[str, float], cleared: set[str], measured: Mapping[str, str]
) -> Diagram:
    """A circuit's diagram, with the share of each suspect and the readings by place."""
    layout = _layout(circuit)
    known = places(circuit)
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
        places=[
            PlaceView(
                id=spot.id,
                name=known[spot.id].name,
                x=spot.x,
                y=spot.y,
                measured=measured.get(spot.id, ""),
                minutes=known[spot.id].minutes,
            )
            for spot in layout.places
            if spot.id in known
        ],
    )


def _layout(circuit: Circuit) -> picture.Layout:
    if "layout" not in circuit.cache:
        circuit.cache["layout"] = lay_out(circuit)
    return circuit.cache["layout"]  # type: ignore[no-any-return]


def element_shares(conclusion: Conclusion) -> dict[str, float]:
    """Share of each element among what is still to be mended."""
    share: dict[str, float] = {}
    for w in conclusion.belief.suspects:
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
