"""The plumb line: the current's path from supply to earth, with what is known at each point."""

from __future__ import annotations

from footwell.circuit.circuit import Circuit
from footwell.circuit.places import places
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.complaint import load_in_question
from footwell.diagnosis.conclude import Conclusion
from footwell.drawing.path import current_path
from footwell.messages import PathPoint
from footwell.page.diagram_view import SUSPECT_FROM, element_shares


def path_view(case: Case, conclusion: Conclusion) -> list[PathPoint]:
    """Points of the complaint's path in order; a stretch is suspect while a cause can still lie in it."""
    circuit = case.now
    order = current_path(circuit, load_in_question(case))
    measured = {
        p for e in case.evidence if isinstance(e, Taken) for p in (e.check.red, e.check.black)
    }
    choice = conclusion.step.choice
    now = {choice.check.red, choice.check.black} if choice and choice.check else set()
    open_after = _open_stretches(
        circuit,
        order,
        {e for e, share in element_shares(conclusion.belief).items() if share >= SUSPECT_FROM},
    )
    known = places(circuit)
    return [
        PathPoint(
            place=place,
            name=known[place].name if place in known else place,
            state="now"
            if place in now
            else "measured"
            if place in measured
            else "open"
            if is_open
            else "clear",
            suspect_after=is_open,
        )
        for place, is_open in zip(order, open_after, strict=True)
    ]


def _open_stretches(circuit: Circuit, order: list[str], suspected: set[str]) -> list[bool]:
    """For each point, whether a suspected element has an end between it and the next."""
    nodes = [circuit.node_of.get(p, circuit.earth) for p in order]
    touched = [
        {n for t, n in circuit.elements[e].nodes.items() if t not in ("earth", "supply")}
        for e in sorted(suspected)
        if e in circuit.elements
    ]
    open_after = [
        any(nodes[k] in ends or nodes[k + 1] in ends for ends in touched)
        for k in range(len(nodes) - 1)
    ]
    return [*open_after, False] if order else []
