"""The commands: each takes what was written on the command line and gives an answer with its text."""

from __future__ import annotations

from argparse import Namespace

from footwell import messages as m
from footwell import service
from footwell.checks.check import CLAMP
from footwell.checks.clipped import clipped
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.spice import netlist, node_names
from footwell.job.events import Event
from footwell.job.replay import replay
from footwell.job.stored import fitting, setup_of
from footwell.page.circuit_file import oddities
from footwell.page.expected import fault_of, setups_for
from footwell.sheet.list_reading import take_list
from footwell.sheet.reading import read_data
from footwell.sheet.wiring_list import wiring_list
from footwell.sheet.writing import write_sheet
from footwell.terminal import texts
from footwell.terminal.csv_text import readings
from footwell.terminal.files import TerminalError, opened_on, put_whole, sheet_of, text_of
from footwell.terminal.options import fault, lamps, pairs, said
from footwell.terminal.shapes import Expectations, Netlist, WiresAnswer

Answer = tuple[m.Message, str]
"""What is printed with --json, and without."""


def sheet(asked: Namespace) -> Answer:
    """Check a sheet."""
    answer = sheet_of(asked.file)
    return answer, texts.sheet(answer)


def expect(asked: Namespace) -> Answer:
    """Every reading to expect, in every set-up or in the given one; or why one of them is so."""
    sheet = sheet_of(asked.file)
    opened = opened_on(sheet)
    if asked.explain:
        return _explain(opened, asked)
    circuit = replay(opened).case.now
    request = _request(opened, asked)
    answer = Expectations(
        sheet=sheet.id,
        faults=said(circuit, [fault_of(circuit, named) for named in request.faults]),
        tables=[service.expected(each) for each in _every(circuit, request)],
    )
    return answer, readings(answer.tables) if asked.csv else texts.expectations(answer)


def _explain(opened: list[Event], asked: Namespace) -> Answer:
    if asked.csv:
        raise TerminalError("An explanation is no table: leave out --csv, or use --json.")
    request = _request(opened, asked).model_dump() | {"red": asked.explain, "black": asked.black}
    answer = service.explain(m.ExplainAsked.model_validate(request))
    return answer, texts.explanation(answer)


def _request(events: list[Event], asked: Namespace) -> m.ExpectedAsked:
    return m.ExpectedAsked(
        events=events,
        controls=pairs(asked.control, "--control", "S1=3"),
        apart=list(asked.apart),
        stand_in=lamps(asked.lamp),
        instrument=asked.instrument,
        engine=asked.engine,
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
        for setup in setups_for(circuit, request.instrument, request.engine or "off")
    ]


def wires(asked: Namespace) -> Answer:
    """The wires of a sheet as a wiring list, or the sheet with a list taken over."""
    sheet = read_data(sheet_of(asked.file).sheet).sheet
    if asked.take is None:
        answer = WiresAnswer(text=wiring_list(sheet), new=[], changed=[], notices=[])
    else:
        taken = take_list(text_of(asked.take), sheet)
        answer = WiresAnswer(
            text=write_sheet(taken.sheet),
            new=list(taken.new),
            changed=list(taken.changed),
            notices=list(taken.notices),
        )
    if asked.into is None:
        return answer, answer.text
    put_whole(asked.into, answer.text)
    return answer, texts.wires_put(asked.into, answer)


def network(asked: Namespace) -> Answer:
    """The circuit of a set-up in SPICE's language, with the instrument in it where it has a place."""
    request = _request(opened_on(sheet_of(asked.file)), asked)
    circuit = replay(request.events).case.now
    engine = request.engine or "off"
    setup = setup_of(circuit, request.controls, request.apart, request.stand_in, engine)
    faults = tuple(sorted(fault_of(circuit, named) for named in request.faults))
    point, notes = _clipped_in(circuit, asked, setup, faults)
    warnings = oddities(circuit, setup, faults)
    answer = Netlist(netlist=netlist(point, notes), warnings=warnings)
    return answer, answer.netlist


def _clipped_in(
    circuit: Circuit, asked: Namespace, setup: SetupState, faults: tuple[Fault, ...]
) -> tuple[OperatingPoint, list[str]]:
    """The operating point with the instrument in it, and notes that say where it is."""
    if asked.red is None:
        return operate(circuit, setup, faults), []
    check = fitting(circuit, asked.instrument, asked.red, asked.black, setup)
    names = node_names(circuit)
    if check.black:
        red, black = (names[circuit.node_of[place]] for place in (check.red, check.black))
        where = f"from node {red} to node {black}"
    else:
        where = f"current through R{check.red}" if check.instrument == CLAMP else f"at {check.red}"
    return clipped(circuit, check, faults), [f"instrument: {check.instrument}, {where}"]
