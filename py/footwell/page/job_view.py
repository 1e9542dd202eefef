"""The whole view of a job."""

from __future__ import annotations

from collections.abc import Sequence

from footwell import RELEASE
from footwell.checks.catalogue import working_setups
from footwell.circuit.circuit import Circuit, HalfId
from footwell.circuit.places import element_named
from footwell.diagnosis.case import Case, Sighting
from footwell.diagnosis.complaint import odd_at_first
from footwell.faults.miswiring import as_drawn
from footwell.job.events import Event
from footwell.job.replay import Replayed
from footwell.messages import (
    ComplaintView,
    ConnectorView,
    ControlView,
    JobView,
    LoadView,
    Position,
    SeenState,
    StoryItem,
)
from footwell.page import words as say
from footwell.page.causes import causes_view
from footwell.page.check_view import check_view
from footwell.page.concluded import concluded
from footwell.page.diagram_view import diagram_view
from footwell.page.history_view import history_view
from footwell.page.path_view import path_view
from footwell.page.report import report_view
from footwell.page.step_view import hidden_now, step_view
from footwell.page.suspect_view import suspects_view
from footwell.page.wiring_view import connector_view
from footwell.reference.sight_words import DEAD, WORDS
from footwell.sheet.models import SheetComplaint


def job_view(events: list[Event]) -> JobView:
    """Everything the page shows, from the job's events alone. Raises JobError, SheetError."""
    replayed, conclusion = concluded(events)
    case = replayed.case
    hidden = hidden_now(case, conclusion)
    suspects = suspects_view(case, conclusion, hidden)
    causes = causes_view(case, conclusion)
    history = history_view(replayed, events, case.now)
    complaint = complaint_words(case)
    sheet = replayed.read.sheet
    return JobView(
        title=replayed.title,
        vehicle=sheet.vehicle,
        system_volts=sheet.system_volts,
        sheet_id=sheet.id,
        release=RELEASE,
        complaint=complaint,
        controls=controls_view(case.now),
        loads=loads_view(case.now),
        asked_positions=[dict(s.controls) for s in working_setups(case.now)],
        complaints=complaints_view(case.now),
        items=items_view(case.now),
        instruments=list(case.tools.names),
        helper=case.tools.helper,
        tools_known=replayed.tools_known,
        story_known=replayed.story is not None,
        connectors=connectors_view(case, replayed),
        step=step_view(case, conclusion, causes, hidden),
        others=[
            check_view(case, conclusion.belief, c.check, "asked")
            for c in conclusion.step.others
            if c.check is not None
        ],
        along=[
            check_view(case, conclusion.belief, c.check, "along")
            for c in conclusion.step.along
            if c.check is not None
        ],
        suspects=suspects,
        path=path_view(case, conclusion),
        history=history,
        diagram=diagram_view(case, conclusion.belief, conclusion.step),
        causes=causes,
        report=report_view(
            replayed, conclusion, suspects, causes, history, (complaint, works_words(case))
        ),
        assumed=replayed.read.assumed,
        odd=replayed.read.odd,
        sheet=replayed.read.sheet.model_dump(mode="json", exclude_unset=True),
        problems=list(replayed.problems),
        practice=replayed.practice,
    )


def controls_view(circuit: Circuit) -> list[ControlView]:
    """Controls with their positions, the one of rest first."""
    return [
        ControlView(
            id=c.part,
            name=c.name,
            positions=[
                Position(id=p.id, name=p.name)
                for p in sorted(c.positions, key=lambda p: p.id != c.off)
            ],
        )
        for c in circuit.sheet.controls
    ]


def loads_view(circuit: Circuit) -> list[LoadView]:
    """Loads that people notice, with the words for what they do."""
    return [
        LoadView(
            id=load,
            name=say.short_named(circuit, load),
            kind=circuit.elements[load].kind.name,
            states=list(WORDS[circuit.elements[load].kind.seen_as]),
            dead=DEAD[circuit.elements[load].kind.seen_as][0],
            dead_words=DEAD[circuit.elements[load].kind.seen_as][1],
        )
        for load in circuit.sheet.loads
    ]


def complaints_view(circuit: Circuit) -> list[ComplaintView]:
    """The usual complaints of the sheet, told once for every position that is asked."""
    return [
        ComplaintView(words=c.words, engine=c.engine, states=_told(circuit, c))
        for c in circuit.sheet.complaints
    ]


def _told(circuit: Circuit, complaint: SheetComplaint) -> list[SeenState]:
    asked = [dict(s.controls) for s in working_setups(circuit, complaint.engine)]
    rows = [
        (controls, load, seen.state)
        for controls in asked
        for load in circuit.sheet.loads
        for seen in complaint.states
        if seen.load == load and seen.controls.items() <= controls.items()
    ]
    first = {(str(controls), load): (controls, load, state) for controls, load, state in rows[::-1]}
    return [SeenState(controls=c, load=e, state=s) for c, e, s in reversed(first.values())]


def items_view(circuit: Circuit) -> list[StoryItem]:
    """What the story may name."""
    parts = [
        StoryItem(id=p.id, name=say.short_named(circuit, p.id), kind="part")
        for p in circuit.sheet.parts
    ]
    connectors = [
        StoryItem(id=c.id, name=c.name, kind="connector") for c in circuit.sheet.connectors
    ]
    wires = [
        StoryItem(id=w.id, name=element_named(circuit, w.id), kind="wire")
        for w in circuit.sheet.wires
    ]
    return [*parts, *connectors, *wires]


def complaint_words(case: Case) -> str:
    """The complaint from what was told first: "fan motor M1 still (fan switch at 1, fan switch at 2)". What
    is as it should be is left out, unless all is."""
    told = [e for e in case.evidence if isinstance(e, Sighting) and e.epoch == 0]
    return _seen_words(case, odd_at_first(case) or told)


def works_words(case: Case) -> str:
    """What worked as it should when the complaint was told; loads that have nothing to do are left out."""
    odd = odd_at_first(case)
    told = [e for e in case.evidence if isinstance(e, Sighting) and e.epoch == 0 and e not in odd]
    busy = [e for e in told if e.word != DEAD[case.now.elements[e.load].kind.seen_as][0]]
    return _seen_words(case, busy) if odd else ""


MOST_TOLD = 900
"""Characters of a complaint: a sheet may have many loads and positions."""


def _seen_words(case: Case, told: Sequence[Sighting]) -> str:
    if not told:
        return ""
    rows: dict[str, dict[str, list[str]]] = {}
    for e in told:
        name = say.short_named(case.now, e.load)
        rows.setdefault(name, {}).setdefault(e.word, []).append(
            say.controls_words(case.now, e.setup)
        )
    lines = [
        f"{name} {word} ({', '.join(dict.fromkeys(where))})"
        for name, words in rows.items()
        for word, where in words.items()
    ]
    text = "; ".join(lines)
    return f"{text}." if len(text) <= MOST_TOLD else f"{text[:MOST_TOLD].rpartition(', ')[0]} …"


def connectors_view(case: Case, replayed: Replayed) -> list[ConnectorView]:
    """Every half with wires: as found where somebody looked, doubtful ones first."""
    drawn = case.drawn
    rows: list[ConnectorView] = []
    for connector in drawn.sheet.connectors:
        for side in ("a", "b"):
            half: HalfId = (connector.id, side)
            if any(as_drawn(drawn, half).values()):
                found, old = replayed.wired.get(half), replayed.old_plugs.get(half)
                rows.append(connector_view(case, half, found, half in case.doubtful, old))
    return sorted(rows, key=lambda c: not c.doubtful)
