"""The same circuits in ngspice, a general-purpose circuit simulator that shares no code with us.

A case is a set-up with its faults. Its netlist is written by the export that users get. Many
netlists run in one process, one after the other, so that thousands of cases take seconds.
"""

from __future__ import annotations

import re
import subprocess
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from pathlib import Path

from footwell.circuit.circuit import Circuit, Element, build
from footwell.circuit.fault import Fault, sizes
from footwell.circuit.setup import SetupState, set_up
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.spice import netlist, node_names
from footwell.sheet.reading import read_sheet

CIRCUITS = Path(__file__).parents[2] / "fixtures" / "circuits"
FLOOR_VOLTS = 0.005
FLOOR_SHARE = 0.001
"""A reading agrees within 5 mV or 0.1 %, whichever is more."""

DECKS_A_PROCESS = 500
"""ngspice keeps a little of every netlist it has read."""

PRINTED = re.compile(r"^(\S+) = ([^\s,]+)$", re.MULTILINE)
SOURCE_CURRENT = "#branch"
"""Every circuit has a battery, so an answer without a source's current is none: what ngspice prints
after a failure is its list of constants."""


@dataclass(frozen=True)
class Case:
    setup: SetupState
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True)
class Difference:
    """The node of a case where the two differ most: volts, and share of the simulator's volts."""

    case: Case
    node: str
    ours: float
    theirs: float
    """Voltage in V by ngspice."""

    @property
    def volts(self) -> float:
        return abs(self.ours - self.theirs)

    @property
    def share(self) -> float:
        return self.volts / max(abs(self.theirs), 1e-12)

    @property
    def within_floor(self) -> bool:
        return self.volts <= max(FLOOR_VOLTS, FLOOR_SHARE * abs(self.theirs))


def sample_sheets() -> list[str]:
    return sorted(
        path.stem for path in CIRCUITS.glob("*.json") if '"system_volts"' in path.read_text()
    )


def load(name: str) -> Circuit:
    read = read_sheet((CIRCUITS / f"{name}.json").read_text())
    return build(read.sheet, read.values)


def positions(circuit: Circuit) -> list[dict[str, str]]:
    """Every combination of the positions of the controls."""
    controls = circuit.sheet.controls
    every = product(*([position.id for position in control.positions] for control in controls))
    return [
        {c.part: position for c, position in zip(controls, chosen, strict=True)} for chosen in every
    ]


def single_faults(circuit: Circuit) -> Iterator[Fault]:
    """All modes of all elements, in all their sizes and factors."""
    ohms = sizes(circuit.context.system_volts, circuit.context.default_amps)
    for element in circuit.elements.values():
        yield from _faults_of(element, ohms)


def _faults_of(element: Element, ohms: Sequence[float]) -> Iterator[Fault]:
    for mode in element.modes.values():
        for size in ohms if mode.sized else mode.factors or (0.0,):
            yield Fault(element.id, mode.name, size)


def healthy_cases(circuit: Circuit) -> Iterator[Case]:
    """All positions without a fault: whole, engine on, each thing apart, a lamp for each load."""
    parts = [e.id for e in circuit.elements.values() if e.kind.pulls_out]
    plugs = [c.id for c in circuit.sheet.connectors if c.unplugs]
    for controls in positions(circuit):
        yield Case(set_up(circuit, controls))
        yield Case(set_up(circuit, controls, engine="on"))
        yield from (Case(set_up(circuit, controls, (apart,))) for apart in [*parts, *plugs])
        for plug in (p for p in plugs if len(circuit.connectors[p].part_ways) == 2):
            yield Case(set_up(circuit, controls, stand_in={plug: 21.0}))


def faulty_cases(circuit: Circuit) -> Iterator[Case]:
    """All positions under every single fault."""
    faults = list(single_faults(circuit))
    for controls in positions(circuit):
        setup = set_up(circuit, controls)
        yield from (Case(setup, (fault,)) for fault in faults)


def compare(circuit: Circuit, cases: Iterable[Case]) -> Iterator[Difference]:
    """The largest difference of each case."""
    ours = [(case, operate(circuit, case.setup, case.faults)) for case in cases]
    names = node_names(circuit)
    for begin in range(0, len(ours), DECKS_A_PROCESS):
        batch = ours[begin : begin + DECKS_A_PROCESS]
        found = run([netlist(point) for _, point in batch])
        for (case, point), theirs in zip(batch, found, strict=True):
            yield _largest(case, point, names, theirs)


def _largest(
    case: Case, point: OperatingPoint, names: Sequence[str], theirs: dict[str, float]
) -> Difference:
    every = [
        Difference(case, name, volts, theirs[name.lower()])
        for name, volts in zip(names[:-1], point.volts[:-1], strict=True)
    ]
    return max(every, key=lambda d: (d.volts, d.node))


def run(decks: Sequence[str]) -> list[dict[str, float]]:
    """Node voltages (V) of each netlist by name in small letters, from one process.

    Raises RuntimeError with the simulator's words where it does not solve all of them; each result
    is destroyed once printed, or it would stand again as the answer to the next netlist.
    """
    with tempfile.TemporaryDirectory() as folder:
        for n, deck in enumerate(decks):
            Path(folder, f"{n}.cir").write_text(deck)
        steps = (
            f"source {n}.cir\nop\necho case {n}\nprint all\ndestroy all\nremcirc"
            for n in range(len(decks))
        )
        script = "\n".join(("* all cases", ".control", "set numdgt=12", *steps, "quit", ".endc"))
        Path(folder, "all.cir").write_text(f"{script}\n.end\n")
        done = subprocess.run(
            ["ngspice", "-b", "all.cir"], cwd=folder, capture_output=True, text=True, check=False
        )
    answers = re.split(r"^case \d+$", done.stdout, flags=re.MULTILINE)[1:]
    found = [{name: float(volts) for name, volts in PRINTED.findall(a)} for a in answers]
    solved = [any(name.endswith(SOURCE_CURRENT) for name in each) for each in found]
    if len(found) != len(decks) or not all(solved):
        raise RuntimeError(f"ngspice solved {sum(solved)} of {len(decks)}: {done.stderr[-2000:]}")
    return found
