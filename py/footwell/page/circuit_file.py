"""The circuit of a job as a file for other programs."""

from __future__ import annotations

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.electrics.operating_point import operate
from footwell.electrics.problems import troubles
from footwell.electrics.spice import netlist
from footwell.job.replay import replay
from footwell.job.stored import setup_of
from footwell.messages import FileAsked, FileMade
from footwell.sheet.wiring_list import wiring_list
from footwell.sheet.writing import write_sheet


def circuit_file(asked: FileAsked) -> FileMade:
    """The sheet as it stands after all that was found, its wires, or one set-up as a netlist."""
    replayed = replay(asked.events)
    if asked.form == "sheet":
        return FileMade(text=write_sheet(replayed.read.sheet))
    if asked.form == "wiring list":
        return FileMade(text=wiring_list(replayed.read.sheet))
    case = replayed.case
    setup = setup_of(case.now, asked.controls, (), {}, case.engine)
    return FileMade(text=netlist(operate(case.now, setup)), warnings=oddities(case.now, setup))


def oddities(circuit: Circuit, setup: SetupState, faults: tuple[Fault, ...] = ()) -> list[str]:
    """What is odd about an operating point, in sentences."""
    return [trouble.sentence for trouble in troubles(operate(circuit, setup, faults))]
