"""What every place reads in a set-up: in a sound circuit, or under faults that somebody names."""

from __future__ import annotations

import math

from footwell.checks.catalogue import catalogue, working_setups
from footwell.checks.check import EVERY_TOOL, LAMP, VOLTS, Check
from footwell.checks.hands import Tools
from footwell.checks.predict import Prediction, expected
from footwell.checks.safety import refusal
from footwell.checks.works import word
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.places import places
from footwell.circuit.setup import SetupState, set_up
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.problems import troubles
from footwell.job.events import Setup
from footwell.job.replay import replay
from footwell.job.stored import NotOnSheet, setup_of
from footwell.messages import ExpectedAsked, ExpectedRow, ExpectedTable, FaultNamed
from footwell.page import words as say
from footwell.page.bands import Span, others, spans, told
from footwell.parts.base import EARTH, Mode

EVERYTHING = Tools(EVERY_TOOL, helper=True)
LARGEST_SIZE = 1e9


def expected_table(request: ExpectedAsked) -> ExpectedTable:
    """Every reading of an instrument in a set-up, and what the loads do. Raises NotOnSheet."""
    case = replay(request.events).case
    circuit, sound = case.now, case.drawn
    opened = request.apart or request.stand_in
    engine = request.engine or ("off" if opened else case.engine)
    setup = setup_of(circuit, request.controls, request.apart, request.stand_in, engine)
    faults = tuple(sorted(fault_of(circuit, named) for named in request.faults))
    point = operate(circuit, setup, faults)
    return ExpectedTable(
        setup=Setup(
            controls=dict(setup.controls),
            apart=list(setup.apart),
            stand_in={p: f"{w:g} W" for p, w in setup.stand_in},
        ),
        title=say.condition(circuit, setup),
        instrument=request.instrument,
        rows=[row_of(circuit, c, faults) for c in checks_in(circuit, request.instrument, setup)],
        seen=[
            f"{say.short_named(circuit, load)} {word(sound, circuit, setup, load, faults)}"
            for load in circuit.sheet.loads
        ]
        + _taken(point),
        warnings=[trouble.sentence for trouble in troubles(point)],
    )


def _taken(point: OperatingPoint) -> list[str]:
    """What each electronic input takes its line's voltage for."""
    return [
        f"{say.short_named(point.circuit, e.id)} takes its line for "
        + e.kind.taken_for(e.values, point.felt(e.id), point.circuit.context)
        for e in point.circuit.elements.values()
        if e.kind.taken_for is not None
    ]


def setups_for(circuit: Circuit, instrument: str, engine: str = "off") -> list[SetupState]:
    """The set-ups in which an instrument is of use: at rest and in every position, or those of its
    own, with something unplugged or a lamp in place of a load."""
    if instrument in (VOLTS, LAMP):
        return [set_up(circuit, engine=engine), *working_setups(circuit, engine)]
    found = (c.setup for c in catalogue(circuit, EVERYTHING, engine) if c.instrument == instrument)
    return list(dict.fromkeys(found))


def checks_in(circuit: Circuit, instrument: str, setup: SetupState) -> list[Check]:
    """An instrument's checks in a set-up: to earth at every place within reach, then all others."""
    to_earth = _to_earth(circuit, instrument, setup) if instrument in (VOLTS, LAMP) else []
    others = [
        c
        for c in catalogue(circuit, EVERYTHING, setup.engine)
        if c.instrument == instrument and c.setup == setup
    ]
    return list(dict.fromkeys([*to_earth, *others]))


def _to_earth(circuit: Circuit, instrument: str, setup: SetupState) -> list[Check]:
    found = (
        Check(instrument, place.id, EARTH, setup)
        for place in places(circuit).values()
        if place.id != EARTH and (place.plugged or place.owner in setup.apart)
    )
    return [check for check in found if not refusal(circuit, check)]


def row_of(circuit: Circuit, check: Check, faults: tuple[Fault, ...]) -> ExpectedRow:
    """What a check reads under the faults, as a row of the table."""
    reading = expected(circuit, check, faults)
    found = spans(circuit, reading, check.unit)
    usual = found[0] if found else None
    name = say.place_named(circuit, check.red)
    if check.black not in ("", EARTH):
        name += f" to {say.place_named(circuit, check.black)}"
    return ExpectedRow(
        place=check.red,
        black=check.black,
        name=name,
        value=usual.value if usual else None,
        low=usual.low if usual else None,
        high=usual.high if usual else None,
        unit=check.unit,
        text=_text(circuit, reading, found, check.unit),
        others=others(circuit, found),
    )


def _text(circuit: Circuit, predicted: Prediction, found: list[Span], unit: str) -> str:
    def from_to(low: float, high: float) -> str:
        one = say.measured(low, unit)
        return one if one == say.measured(high, unit) else say.band(low, high, unit)

    if found:
        return told(circuit, found, from_to)
    if not isinstance(predicted, dict):
        return say.measured(math.inf, unit)
    likeliest = max(predicted, key=lambda w: predicted[w])
    return f"{likeliest} ({say.percent(predicted[likeliest])})"


def fault_of(circuit: Circuit, named: FaultNamed) -> Fault:
    """The fault of a circuit that somebody named. Raises NotOnSheet with what there is instead."""
    element = circuit.elements.get(named.element)
    if element is None:
        raise NotOnSheet(f"{named.element[:40]} is no part, wire or contact of this sheet.")
    mode = element.modes.get(named.mode)
    if mode is None:
        known = ", ".join(element.modes)
        raise NotOnSheet(f"{element.id} does not fail as {named.mode[:40]!r}. It knows: {known}.")
    return Fault(element.id, mode.name, _size(element.id, mode, named.size))


def _size(element: str, mode: Mode, size: float | None) -> float:
    if not mode.sized and not mode.factors:
        if size is not None:
            raise NotOnSheet(f"{mode.name!r} of {element} has no size.")
        return 0.0
    if size is None or not 0.0 < size <= LARGEST_SIZE:
        usual = "0.2 (Ω)" if mode.sized else " or ".join(f"{f:g}" for f in mode.factors)
        raise NotOnSheet(f"{mode.name!r} of {element} needs a size above 0, such as {usual}.")
    return size
