"""Node voltages against ngspice: every position of every sheet, sound and under every single fault, and
240 random circuits, sound, faulty and with instruments laid in."""

from __future__ import annotations

import sys
import time
from collections.abc import Sequence
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))

from core.random_circuits import random_circuit
from parity.cases import faulty_cases, healthy_cases, load, random_cases, sample_sheets
from parity.ngspice_rig import (
    FEWEST_PARTS,
    MOST_PARTS,
    Difference,
    Form,
    as_exported,
    compare,
    differences,
    table,
)
from parity.referee import true_volts
from parity.simulator import DECKS_A_PROCESS, attempt, by_currents

from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.spice import netlist, node_names
from footwell.parts import KINDS

RANDOM_CIRCUITS = 240
FORMS: tuple[tuple[str, Form], ...] = (
    ("as exported", as_exported),
    ("with the currents of resistances as unknowns", by_currents),
)


def main() -> int:
    kept = [sheet(name) for name in sample_sheets()]
    kept.append(random_circuits())
    return 0 if all(kept) else 1


def sheet(name: str) -> bool:
    """Compare one sheet in both forms; say whether the floor is kept."""
    circuit, kept = load(name), True
    cases = [*healthy_cases(circuit), *faulty_cases(circuit)]
    for words, form in FORMS:
        begun = time.perf_counter()
        found = list(compare(circuit, cases, form))
        print(f"\n{name}, {words}: {len(cases)} cases, {time.perf_counter() - begun:.1f} s")
        print(*table(found), sep="\n")
        kept = kept and all(d.within_floor for d in found)
    return kept


def random_circuits() -> bool:
    """Compare the random circuits, and let sixty digits judge the largest differences."""
    begun = time.perf_counter()
    found: list[tuple[Difference, OperatingPoint]] = []
    cases = unsolved = 0
    modes: set[tuple[str, str]] = set()
    for seed in range(RANDOM_CIRCUITS):
        points = _points(seed)
        answers = _answers(points)
        for (case, point), theirs in zip(points, answers, strict=True):
            cases += 1
            modes.update((point.circuit.elements[f.element].kind.name, f.mode) for f in case.faults)
            if theirs is None:
                unsolved += 1
                print(f"circuit {seed}: ngspice finds no rest: {case}")
                continue
            found += [(d, point) for d in differences(case, point, theirs)]
    print(
        f"\n{RANDOM_CIRCUITS} random circuits of {FEWEST_PARTS} to {MOST_PARTS} parts, {FORMS[1][0]}:"
    )
    print(f"{cases} cases, {unsolved} that ngspice does not solve, {len(modes)} modes of")
    print(
        f"{len({kind for kind, _ in modes})} of {len(KINDS)} kinds, {time.perf_counter() - begun:.0f} s"
    )
    rows = [d for d, _ in found]
    print(*table(rows), sep="\n")
    _judge(sorted(found, key=lambda row: -row[0].volts)[:5])
    return all(d.within_floor for d in rows)


def _points(seed: int) -> list[tuple[object, OperatingPoint]]:
    chance = Random(seed)
    circuit = random_circuit(chance, chance.randint(FEWEST_PARTS, MOST_PARTS))
    return [
        (case, operate(circuit, case.setup, case.faults, case.clips))
        for case in random_cases(circuit, chance)
    ]


def _answers(points: Sequence[tuple[object, OperatingPoint]]) -> list[dict[str, float] | None]:
    decks = [by_currents(netlist(point)) for _, point in points]
    return [
        answer
        for begin in range(0, len(decks), DECKS_A_PROCESS)
        for answer in attempt(decks[begin : begin + DECKS_A_PROCESS])[0]
    ]


def _judge(found: Sequence[tuple[Difference, OperatingPoint]]) -> None:
    print("The largest, judged in sixty digits (mV off): node, ours, ngspice's, case")
    for difference, point in found:
        right = true_volts(point)[node_names(point.circuit).index(difference.node)]
        ours, theirs = (1e3 * (v - right) for v in (difference.ours, difference.theirs))
        faults = ", ".join(f"{f.element} {f.mode}" for f in difference.case.faults)
        print(f"{difference.node:12} {ours:12.3g} {theirs:12.3g}  {difference.case.kind} {faults}")


if __name__ == "__main__":
    sys.exit(main())
