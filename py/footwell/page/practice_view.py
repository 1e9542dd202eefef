"""Practice: a job without a vehicle. The core answers the readings, and at the end shows both roads."""

from __future__ import annotations

import math
from typing import Any

from footwell.checks.catalogue import working_setups
from footwell.checks.check import EVERY_TOOL, Check
from footwell.checks.minutes import ENDS_MINUTES, minutes
from footwell.circuit.circuit import Circuit, HalfId
from footwell.faults.miswiring import slip_named
from footwell.job.events import (
    Event,
    LoadSeen,
    PositionsTried,
    ReadingTaken,
    WireFollowed,
    WiringFound,
)
from footwell.job.replay import Replayed, circuits_of, replay
from footwell.job.stored import check_of, wiring_of
from footwell.messages import (
    NewEntry,
    PracticeAnswer,
    PracticeAsked,
    PracticeBegan,
    PracticeEnd,
    PracticeWanted,
    Road,
)
from footwell.page import words as say
from footwell.page.history_view import history_view
from footwell.page.typed import FACTORS
from footwell.practice.electrician import POSITION_MINUTES, WIRING_MINUTES, Run, work
from footwell.practice.hidden import hidden_vehicle, hide, worked_on
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import read_data


def begin(asked: PracticeWanted) -> PracticeBegan:
    """The first events of a practice job, something hidden in them. Raises SheetError, FootwellError."""
    read = read_data(asked.sheet)
    vehicle, rewired = hide(circuits_of(read), asked.seed)
    hidden: dict[str, Any] = {
        "faults": [{"element": f.element, "mode": f.mode, "size": f.size} for f in vehicle.faults],
        "wired": [
            {"connector": half[0], "half": half[1], "now": vehicle.wiring(half)}
            for half, _ in vehicle.arrangement
        ],
    }
    rows: list[tuple[str, dict[str, Any]]] = [
        ("job opened", {"title": f"Practice: {read.sheet.title}"[:120], "sheet": asked.sheet}),
        ("practice begun", hidden),
        ("tools stated", {"instruments": list(EVERY_TOOL), "helper": False}),
    ]
    if rewired:
        rows.append(("story told", {"words": "", "rewired": rewired}))
    states = [state.model_dump() for state in _states(vehicle)]
    rows.append(("positions tried", {"seen_by": "customer", "states": states}))
    return PracticeBegan(entries=[NewEntry(kind=kind, body=body) for kind, body in rows])


def answer(asked: PracticeAsked) -> PracticeAnswer:
    """What the vehicle that is not there answers. Raises FootwellError, NotOnSheet."""
    replayed = replay(asked.events)
    vehicle = worked_on(replayed)
    if asked.record is not None:
        return _reading(vehicle, check_of(vehicle.circuit, asked.record, replayed.case.engine))
    if asked.connector:
        half = (asked.connector, asked.half)
        wiring_of(vehicle.circuit, half, {})
        return PracticeAnswer(found=vehicle.wiring(half))
    return PracticeAnswer(states=_states(vehicle))


def _states(vehicle: Vehicle) -> list[LoadSeen]:
    circuit = vehicle.circuit
    return [
        LoadSeen(controls=dict(setup.controls), load=load, state=vehicle.does(setup, load))
        for setup in working_setups(circuit)
        for load in circuit.sheet.loads
    ]


def _reading(vehicle: Vehicle, check: Check) -> PracticeAnswer:
    value, word = vehicle.answer(check)
    if value is None:
        return PracticeAnswer(choice=word)
    if math.isinf(value):
        return PracticeAnswer(choice="over range")
    typed, unit = as_shown(value, check.unit)
    return PracticeAnswer(typed=typed, unit=unit)


def as_shown(value: float, unit: str) -> tuple[str, str]:
    """A value in V, A or Ω as a meter with ranges of its own shows it: four digits at most.

    >>> as_shown(12.3456, "V"), as_shown(-0.0123, "V"), as_shown(4700.0, "Ω")
    (('12.35', 'V'), ('-12.3', 'mV'), ('4.70', 'kΩ'))
    """
    ranges = {"V": ("V", "mV"), "A": ("A", "mA"), "Ω": ("MΩ", "kΩ", "Ω", "mΩ")}[unit]
    fits = (name for name in ranges if abs(value) >= 0.6 * FACTORS[name])
    name = next(fits, ranges[-1])
    shown = value / FACTORS[name]
    digits = 2 if abs(shown) < 40 and name != "mV" else 1
    text = f"{shown:.{digits}f}"
    return (text.removeprefix("-") if float(text) == 0.0 else text), name


def end(events: list[Event]) -> PracticeEnd:
    """What was hidden, and the person's road beside Footwell's from the same beginning."""
    replayed = replay(events)
    before, after = hidden_vehicle(replayed), worked_on(replayed)
    run = Run(events=list(_beginning(events)))
    work(run, before)
    return PracticeEnd(
        hidden=_hidden(before),
        left=_hidden(after),
        own=_road(replayed, events),
        footwells=_road(replay(run.events), run.events),
    )


def _beginning(events: list[Event]) -> list[Event]:
    """The events of a practice job up to the first positions told."""
    last = next((n for n, e in enumerate(events) if e.kind == "positions tried"), 0)
    return events[: last + 1]


def _hidden(vehicle: Vehicle) -> list[str]:
    drawn = vehicle.drawn
    wiring = [
        f"{say.place_named(drawn, half[0])}: {_slip(drawn, half, vehicle)}"
        for half, _ in vehicle.arrangement
    ]
    return [*wiring, *(say.fault_title(drawn, f) for f in vehicle.standing)]


def _slip(drawn: Circuit, half: HalfId, vehicle: Vehicle) -> str:
    return slip_named(drawn, half, vehicle.wiring(half)) or "wires not as drawn"


def _road(replayed: Replayed, events: list[Event]) -> Road:
    """The checks, looks and repairs of a job after its beginning."""
    begun = {(e.device, e.n) for e in _beginning(events)}
    rows = [
        row
        for row in history_view(replayed, events, replayed.case.now)
        if not row.withdrawn and (row.device, row.n) not in begun
    ]
    lines = [f"{row.title}: {row.value}" if row.value else row.title for row in rows]
    bodies = [t.body for t in replayed.told if (t.event.device, t.event.n) not in begun]
    return Road(
        lines=lines,
        checks=sum(isinstance(body, (ReadingTaken, WiringFound, WireFollowed)) for body in bodies),
        minutes=round(_minutes(replayed.case.now, bodies)),
    )


def _minutes(circuit: Circuit, bodies: list[Any]) -> float:
    """Minutes that these acts would take at a real vehicle; repairs are not counted."""
    spent = 0.0
    last: Check | None = None
    for body in bodies:
        if isinstance(body, ReadingTaken):
            check = check_of(circuit, body, "off")
            spent += minutes(circuit, check, last)
            last = check
        elif isinstance(body, WiringFound):
            spent += WIRING_MINUTES
        elif isinstance(body, WireFollowed):
            spent += ENDS_MINUTES
        elif isinstance(body, PositionsTried):
            spent += POSITION_MINUTES * len(body.states)
    return spent
