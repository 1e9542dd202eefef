"""Answers to what a person asks for: a check at a chosen place, the table of expected readings."""

from __future__ import annotations

from footwell.checks.check import OHMS, VOLTS, Check
from footwell.checks.predict import Reading, expected
from footwell.checks.safety import refusal
from footwell.circuit.circuit import Circuit
from footwell.circuit.places import places
from footwell.circuit.setup import SetupState
from footwell.diagnosis.belief import believe
from footwell.diagnosis.case import Case
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.problems import troubles
from footwell.errors import FootwellError
from footwell.job.events import Setup
from footwell.job.replay import replay
from footwell.job.stored import fitting, setup_of
from footwell.messages import Check as CheckView
from footwell.messages import CheckAsked, ExpectedAsked, ExpectedRow, ExpectedTable
from footwell.page import words as say
from footwell.page.check_view import CENTRAL_95, check_view
from footwell.page.wiring_view import word
from footwell.parts.base import EARTH


class AskError(FootwellError):
    """A check that must not be done, or not in this set-up."""

    def __init__(self, sentence: str) -> None:
        super().__init__("check", sentence)


def chosen_check(request: CheckAsked) -> CheckView:
    """The check a person chose, with its band and meaning. Raises AskError, NotOnSheet."""
    case = replay(request.events).case
    check = _check(case, request)
    why_not = refusal(case.now, check)
    if why_not:
        raise AskError(why_not)
    return check_view(case, believe(case), check, "asked")


def _check(case: Case, request: CheckAsked) -> Check:
    setup = _setup(case, request)
    if request.instrument == OHMS and not setup.apart:
        raise AskError(
            "Ohms only with the part out of the circuit. Unplug it first, or measure volts."
        )
    return fitting(case.now, request.instrument, request.red, request.black, setup)


def _setup(case: Case, asked: CheckAsked | ExpectedAsked) -> SetupState:
    return setup_of(case.now, asked.controls, asked.apart, asked.stand_in, case.engine)


def expected_table(request: ExpectedAsked) -> ExpectedTable:
    """Every place's sound reading to earth in a set-up, and what the loads do."""
    case = replay(request.events).case
    setup = _setup(case, request)
    circuit = case.now
    point = operate(circuit, setup)
    return ExpectedTable(
        setup=Setup(
            controls=dict(setup.controls),
            apart=list(setup.apart),
            stand_in={p: f"{w:g} W" for p, w in setup.stand_in},
        ),
        title=say.condition(circuit, setup),
        instrument=VOLTS,
        rows=expected_rows(circuit, setup),
        seen=[
            f"{say.short_named(circuit, load)} {word(circuit, circuit, setup, load)}"
            for load in circuit.sheet.loads
        ],
        warnings=warnings_of(point),
    )


def expected_rows(circuit: Circuit, setup: SetupState) -> list[ExpectedRow]:
    """Sound readings to earth, by place."""
    rows: list[ExpectedRow] = []
    for place in places(circuit).values():
        if place.id != EARTH and (place.plugged or place.owner in setup.apart):
            reading = expected(circuit, Check(VOLTS, place.id, EARTH, setup), ())
            assert isinstance(reading, Reading)
            half = CENTRAL_95 * reading.sigma
            low, high = reading.mean - half, reading.mean + half
            rows.append(
                ExpectedRow(
                    place=place.id,
                    name=place.name,
                    value=reading.mean,
                    low=low,
                    high=high,
                    text=f"{say.volts(low)} to {say.volts(high)}",
                )
            )
    return rows


def warnings_of(point: OperatingPoint) -> list[str]:
    """What is odd about an operating point, in sentences."""
    return [trouble.sentence for trouble in troubles(point)]
