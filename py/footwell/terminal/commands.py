"""The commands: each takes what was written on the command line and gives an answer with its text."""

from __future__ import annotations

from argparse import Namespace

from footwell import messages as m
from footwell import service
from footwell.circuit.circuit import Circuit
from footwell.electrics.operating_point import operate
from footwell.electrics.problems import troubles
from footwell.electrics.spice import netlist
from footwell.job.events import Event
from footwell.job.replay import replay
from footwell.job.stored import setup_of
from footwell.page.expected import fault_of, setups_for
from footwell.terminal import texts
from footwell.terminal.files import opened_on, sheet_of
from footwell.terminal.options import fault, lamps, pairs, said
from footwell.terminal.shapes import Expectations, Netlist

Answer = tuple[m.Message, str]
"""What is printed with --json, and without."""


def sheet(asked: Namespace) -> Answer:
    """Check a sheet."""
    answer = sheet_of(asked.file)
    return answer, texts.sheet(answer)


def expect(asked: Namespace) -> Answer:
    """Every reading to expect, in every set-up or in the given one."""
    sheet = sheet_of(asked.file)
    opened = opened_on(sheet)
    circuit = replay(opened).case.now
    request = _request(opened, asked)
    answer = Expectations(
        sheet=sheet.id,
        faults=said(circuit, [fault_of(circuit, named) for named in request.faults]),
        tables=[service.expected(each) for each in _every(circuit, request)],
    )
    return answer, texts.expectations(answer)


def _request(events: list[Event], asked: Namespace) -> m.ExpectedAsked:
    return m.ExpectedAsked(
        events=events,
        controls=pairs(asked.control, "--control", "S1=3"),
        apart=list(asked.apart),
        stand_in=lamps(asked.lamp),
        instrument=asked.instrument,
        faults=[fault(text) for text in asked.fault],
    )


def _every(circuit: Circuit, request: m.ExpectedAsked) -> list[m.ExpectedAsked]:
    """The request itself where it names a set-up, or one for each set-up."""
    if request.controls or request.apart or request.stand_in:
        return [request]
    return [
        request.model_copy(
            update={
                "controls": dict(setup.controls),
                "apart": list(setup.apart),
                "stand_in": {plug: f"{watts:g} W" for plug, watts in setup.stand_in},
            }
        )
        for setup in setups_for(circuit, request.instrument)
    ]


def network(asked: Namespace) -> Answer:
    """The circuit of a set-up in SPICE's language."""
    request = _request(opened_on(sheet_of(asked.file)), asked)
    circuit = replay(request.events).case.now
    setup = setup_of(circuit, request.controls, request.apart, request.stand_in, "off")
    faults = tuple(sorted(fault_of(circuit, named) for named in request.faults))
    point = operate(circuit, setup, faults)
    answer = Netlist(netlist=netlist(point), warnings=[t.sentence for t in troubles(point)])
    return answer, answer.netlist
