"""ngspice, a general-purpose circuit simulator that shares no code with us: node voltages of netlists.

Many netlists run in one process, one after the other: a process for each would take ten times as long.
To read each netlist anew costs less than the solving, so nothing is gained by altering one netlist's
values from case to case (a circuit of 231 nodes: 8.9 ms read anew, 8.3 ms altered).
"""

from __future__ import annotations

import re
import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

DECKS_A_PROCESS = 500
"""ngspice keeps a little of every netlist it has read."""

PRINTED = re.compile(r"^(\S+) = ([^\s,]+)$", re.MULTILINE)
SOURCE_CURRENT = "#branch"
"""Every circuit has a battery, so an answer without a source's current is none: what ngspice prints
after a failure is its list of constants."""

RESISTANCE = re.compile(r"^R(?!leak)(\S+) (\S+) (\S+) (\S+)$", re.MULTILINE)
LAW_OF_OHM = r"V\1_i \2 \1_i 0\nH\1 \1_i \3 V\1_i \4"

SETTINGS = ("set numdgt=12", "optran 1 1 1 0 0 0")
"""All digits; and where iteration fails, no try to reach rest through time, which takes minutes."""

Volts = dict[str, float]


def by_currents(netlist: str) -> str:
    """The same circuit with every resistance written as U = R·I: a voltage that its current controls.

    A simulator puts a resistor into its equations as a conductance, and beside the 1,000 S of a joint
    the 0.1 nS of the leak are gone in the fourth of their digits: what hangs on the leak alone is then
    wrong by millivolts. With the currents as unknowns of their own the leak is never added to a joint.
    """
    return RESISTANCE.sub(LAW_OF_OHM, netlist)


def started(netlist: str, volts: Mapping[str, float]) -> str:
    """The same netlist with voltages (V) to begin the search at. The simulator holds them for its first
    rounds only and then finds its own; what is no solution it leaves."""
    lines = "\n".join(f".nodeset V({node})={v:.15g}" for node, v in volts.items())
    return netlist.replace("\n.op\n", f"\n{lines}\n.op\n")


def run(decks: Sequence[str]) -> list[Volts]:
    """Node voltages (V) of each netlist by name in small letters.

    Raises RuntimeError with the simulator's words where it does not solve all of them.
    """
    found: list[Volts] = []
    for begin in range(0, len(decks), DECKS_A_PROCESS):
        answers, words = attempt(decks[begin : begin + DECKS_A_PROCESS])
        unsolved = [begin + n for n, answer in enumerate(answers) if answer is None]
        if unsolved:
            raise RuntimeError(
                f"ngspice solved {len(answers) - len(unsolved)} of {len(answers)}, "
                f"not {unsolved[:9]}: {words[-2000:]}"
            )
        found += [answer for answer in answers if answer is not None]
    return found


def attempt(decks: Sequence[str]) -> tuple[list[Volts | None], str]:
    """The same from one process, with None for each netlist not solved; and what was said to it.

    Each result is destroyed once printed, or it would stand again as the next one's answer.
    """
    with tempfile.TemporaryDirectory() as folder:
        for n, deck in enumerate(decks):
            Path(folder, f"{n}.cir").write_text(deck)
        steps = (
            f"source {n}.cir\nop\necho case {n}\nprint all\ndestroy all\nremcirc"
            for n in range(len(decks))
        )
        script = "\n".join(("* all cases", ".control", *SETTINGS, *steps, "quit", ".endc"))
        Path(folder, "all.cir").write_text(f"{script}\n.end\n")
        done = subprocess.run(
            ["ngspice", "-b", "all.cir"], cwd=folder, capture_output=True, text=True, check=False
        )
    answers = re.split(r"^case \d+$", done.stdout, flags=re.MULTILINE)[1:]
    found = [{name: float(volts) for name, volts in PRINTED.findall(a)} for a in answers]
    solved = [each if any(n.endswith(SOURCE_CURRENT) for n in each) else None for each in found]
    return [*solved, *[None] * (len(decks) - len(solved))], done.stderr
