"""Node voltages against ngspice: every position of every sheet, sound and under every single fault, and
240 random circuits, sound, faulty and with instruments laid in."""

from __future__ import annotations

import sys
import time
from collections.abc import Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from parity.cases import faulty_cases, healthy_cases, load, sample_sheets
from parity.ngspice_rig import (
    FEWEST_PARTS,
    MOST_PARTS,
    Difference,
    Form,
    Tried,
    as_exported,
    compare,
    table,
    try_random,
)
from parity.referee import off, true_volts
from parity.simulator import by_currents

from footwell.electrics.operating_point import OperatingPoint
from footwell.electrics.spice import node_names
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
    begun, tried = time.perf_counter(), Tried()
    for seed in range(RANDOM_CIRCUITS):
        try_random(str(seed), tried)
    print(
        f"\n{RANDOM_CIRCUITS} random circuits of {FEWEST_PARTS} to {MOST_PARTS} parts, {FORMS[1][0]}:"
    )
    print(
        f"{tried.cases} cases, {tried.retried} of which ngspice solves only when told where to begin, "
        f"{len(tried.unsolved)} not even then; {time.perf_counter() - begun:.0f} s"
    )
    print(*table(tried.differences), sep="\n")
    _tell_modes(tried)
    beyond = [off(point, d.node) for d, point in tried.found if not d.within_goal]
    print(
        f"{len(beyond)} beyond the goal, ours off by {max(beyond, default=0.0) * 1e3:.3g} mV at most"
    )
    _judge(sorted(tried.found, key=lambda row: -row[0].volts)[:5])
    return not tried.unsolved and all(d.within_floor for d in tried.differences)


def _tell_modes(tried: Tried) -> None:
    modes = {
        (point.circuit.elements[fault.element].kind.name, fault.mode.split(":")[0])
        for difference, point in tried.found
        for fault in difference.case.faults
    }
    print(f"{len(modes)} ways to fail, of {len({kind for kind, _ in modes})} of {len(KINDS)} kinds")


def _judge(found: Sequence[tuple[Difference, OperatingPoint]]) -> None:
    print("The largest, judged in sixty digits (mV off): node, ours, ngspice's, case")
    for difference, point in found:
        right = true_volts(point)[node_names(point.circuit).index(difference.node)]
        ours, theirs = (1e3 * (v - right) for v in (difference.ours, difference.theirs))
        faults = ", ".join(f"{f.element} {f.mode}" for f in difference.case.faults)
        print(f"{difference.node:12} {ours:12.3g} {theirs:12.3g}  {difference.case.kind} {faults}")


if __name__ == "__main__":
    sys.exit(main())
