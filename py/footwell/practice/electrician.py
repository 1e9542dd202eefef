"""The electrician: does what Footwell proposes, one step after another, and keeps count."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from footwell.checks.catalogue import working_setups
from footwell.checks.check import Check
from footwell.checks.minutes import ENDS_MINUTES, minutes
from footwell.checks.works import engines
from footwell.circuit.circuit import ENDS
from footwell.circuit.setup import SetupState
from footwell.diagnosis.case import Case, started
from footwell.diagnosis.choose import Choice
from footwell.diagnosis.complaint import engine_for, to_look_at_again
from footwell.diagnosis.conclude import Conclusion, Next, conclude
from footwell.faults.miswiring import as_drawn
from footwell.job.events import EVENT_FORMAT, Event, ReadingTaken, Setup
from footwell.job.replay import Replayed, replay
from footwell.practice.hidden import complains
from footwell.practice.orders import Order
from footwell.practice.vehicle import Vehicle
from footwell.sheet.models import Sheet, SheetWire
from footwell.sheet.points import way_point

MOST_STEPS = 40
WIRING_MINUTES = 3.0
"""For a look into a connector (common practice, no source)."""
POSITION_MINUTES = 0.2
"""For each load looked at in each position (common practice, no source)."""


@dataclass
class Run:
    """A job done to its end: what was replaced, how many readings and minutes it took."""

    events: list[Event] = field(default_factory=list)
    steps: list[str] = field(default_factory=list)
    readings: int = 0
    minutes: float = 0.0
    replaced: list[str] = field(default_factory=list)
    good_parts: list[str] = field(default_factory=list)
    """Parts replaced that were sound at that moment."""
    solved: bool = False

    def add(self, kind: str, **body: Any) -> None:
        """Append an event of the electrician's own device."""
        n = len(self.events) + 1
        text = json.dumps(body, ensure_ascii=False)
        self.events.append(
            Event(device="practice", n=n, job="practice", kind=kind, format=EVENT_FORMAT, body=text)
        )


def begin(sheet: Sheet, vehicle: Vehicle, tools: Sequence[str], **story: Any) -> Run:
    """Open a job: the sheet, the tools, the story, and what the customer saw in every position."""
    run = opened(sheet, tools, **story)
    try_positions(run, vehicle)
    return run


def opened(sheet: Sheet, tools: Sequence[str], **story: Any) -> Run:
    """A job of which nothing is known but the sheet, the tools and the story."""
    run = Run()
    run.add(
        "job opened", title=sheet.title, sheet=sheet.model_dump(mode="json", exclude_unset=True)
    )
    run.add("tools stated", instruments=list(tools), helper=False)
    if story:
        run.add("story told", **story)
    return run


def work(
    run: Run, vehicle: Vehicle, most_readings: int = 25, order: Order | None = None
) -> Vehicle:
    """Do the steps that Footwell proposes until it is finished; the vehicle as it stands then.

    An `order` chooses the narrowing checks in Footwell's place.
    """
    for _ in range(MOST_STEPS):
        replayed = replay(run.events)
        conclusion = conclude(replayed.case)
        step = conclusion.step
        if step.kind == "finished" or run.readings >= most_readings:
            run.solved = step.kind == "finished" and step.solved
            return vehicle
        if order is not None:
            conclusion = reordered(replayed.case, conclusion, order)
        vehicle = do(run, replayed, conclusion, vehicle)
    return vehicle


def reordered(case: Case, conclusion: Conclusion, order: Order) -> Conclusion:
    """The conclusion with the order's check where Footwell proposes one to narrow the suspects."""
    check = order(case, conclusion) if conclusion.step.purpose == "narrow" else None
    if check is None:
        return conclusion
    chosen = Choice(check, None, 0.0, minutes(case.now, check, case.last_check))
    return replace(conclusion, step=replace(conclusion.step, choice=chosen))


def do(run: Run, replayed: Replayed, conclusion: Conclusion, vehicle: Vehicle) -> Vehicle:
    """One step: a check, a look into a connector, a repair, or every position again."""
    step = conclusion.step
    if step.kind == "check" and step.choice and step.choice.check:
        check = step.choice.check
        engine = started(replayed.case, check)
        take(run, vehicle, check, step.choice.minutes, step.purpose, engine)
    elif step.kind == "wiring" and step.half:
        return _wiring(run, replayed.case, step, vehicle)
    elif step.kind == "ends":
        return _ends(run, replayed.case, step, vehicle)
    elif step.kind == "repair" and step.proven:
        fault = step.proven.fault
        run.steps.append(f"repair {fault.element} {fault.mode}")
        run.replaced.append(fault.element)
        if fault.element not in {f.element for f in vehicle.standing}:
            run.good_parts.append(fault.element)
        run.add("repair done", element=fault.element, mode=fault.mode, what="renewed")
        return vehicle.mended(fault.element)
    elif step.purpose == "look again":
        _look_again(run, replayed.case, vehicle)
    elif step.kind == "positions":
        try_positions(run, vehicle)
    return vehicle


def take(
    run: Run,
    vehicle: Vehicle,
    check: Check,
    spent: float,
    purpose: str,
    engine: Literal["on"] | None = None,
) -> None:
    """Take one reading and write it down, with the engine "on" where it was started for it alone."""
    complaint = vehicle.complaint()
    value, word = vehicle.answer(check)
    run.readings += 1
    run.minutes += spent
    shown = word if value is None else f"{value:.4g}"
    run.steps.append(f"{purpose} {check.id} -> {shown}")
    if value == float("inf"):
        value, word = None, "over range"
    body = ReadingTaken(
        check=check.id,
        instrument=check.instrument,
        red=check.red,
        black=check.black,
        setup=Setup(
            controls=dict(check.setup.controls),
            apart=list(check.setup.apart),
            stand_in={plug: f"{watts:g} W" for plug, watts in check.setup.stand_in},
            engine=engine,
        ),
        value=value,
        choice=word,
        complaint=complaint,
    )
    run.add("reading taken", **body.model_dump(exclude_none=True))


def _ends(run: Run, case: Case, step: Next, vehicle: Vehicle) -> Vehicle:
    """Find both ends of a wire, and follow what sits there otherwise than on the sheet; or put it back."""
    name = step.wire
    wire = next(w for w in case.now.sheet.wires if w.id == name)
    if step.purpose == "put back":
        run.steps.append(f"put back {name}")
        run.add("wire put back", wire=name)
        return vehicle.put_right((name, ENDS))
    run.steps.append(f"ends of {name}")
    run.minutes += ENDS_MINUTES
    strange = _strange(case, vehicle, [wire.start, wire.end])
    _follow(run, strange)
    own = vehicle.run_of(wire)
    if name not in {w.id for w in strange}:
        run.add("wire followed", wire=name, start=own.start, end=own.end)
    return vehicle


def _strange(case: Case, vehicle: Vehicle, points: Sequence[str]) -> list[SheetWire]:
    """Wires at some points that run otherwise than on the sheet, and that nobody has followed."""
    return [w for w in vehicle.elsewhere(points) if w.id not in case.followed]


def _follow(run: Run, wires: Sequence[SheetWire]) -> None:
    for wire in wires:
        run.steps.append(f"{wire.id} runs from {wire.start} to {wire.end}")
        run.minutes += ENDS_MINUTES
        run.add("wire followed", wire=wire.id, start=wire.start, end=wire.end)


def _wiring(run: Run, case: Case, step: Next, vehicle: Vehicle) -> Vehicle:
    assert step.half is not None
    connector, side = step.half
    if step.purpose == "put right":
        ways = vehicle.wiring(step.half)
        strange = _strange(case, vehicle, [way_point(connector, way, side) for way in ways])
        if strange:
            _follow(run, strange)
            return vehicle
        run.steps.append(f"put right {connector}")
        vehicle = vehicle.put_right(step.half)
        drawn = as_drawn(vehicle.circuit, step.half)
        run.add("wiring corrected", connector=connector, half=side, now=drawn)
        return vehicle
    run.steps.append(f"look into {connector}")
    run.minutes += WIRING_MINUTES
    run.add("wiring found", connector=connector, half=side, found=vehicle.wiring(step.half))
    return vehicle


def try_positions(run: Run, vehicle: Vehicle) -> None:
    """Try every position and write down what each load does, last with the engine as it is when something
    is wrong."""
    tried = engines(vehicle.circuit)
    if len(tried) == 1:
        _try_positions(run, vehicle, tried[0])
        return
    for engine in sorted(tried, key=lambda engine: complains(vehicle, engine)):
        run.add("sitting begun", engine=engine)
        _try_positions(run, vehicle, engine)


def _look_again(run: Run, case: Case, vehicle: Vehicle) -> None:
    """Look once more at what did not fit."""
    odd = to_look_at_again(case)
    _tell(run, vehicle, [(e.setup, e.load) for e in odd], engine_for(case, odd))


def _try_positions(run: Run, vehicle: Vehicle, engine: str) -> None:
    circuit = vehicle.circuit
    setups = working_setups(circuit, engine)
    _tell(run, vehicle, [(setup, load) for setup in setups for load in circuit.sheet.loads])


def _tell(
    run: Run,
    vehicle: Vehicle,
    looks: Sequence[tuple[SetupState, str]],
    engine: Literal["off", "on"] | None = None,
) -> None:
    states = [
        {"controls": dict(setup.controls), "load": load, "state": vehicle.does(setup, load)}
        for setup, load in looks
    ]
    run.steps.append("positions " + " ".join(str(s["state"]) for s in states))
    run.minutes += POSITION_MINUTES * len(states)
    other = {"engine": engine} if engine else {}
    run.add("positions tried", seen_by="me", states=states, **other)
