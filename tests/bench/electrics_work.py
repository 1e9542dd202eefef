"""Work for the benchmark of the electrics, the same in ordinary Python and in the browser's.

`prepare` makes ready some runs of a piece of work, each on a circuit that nobody has asked before; `run`
does them. The benchmark keeps the time.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from functools import partial

from branching import BENT, LARGE, Shape, circuit_of, faults_of, grown

from footwell.checks.catalogue import working_setups
from footwell.checks.outlook import outlook
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import SetupState, set_up
from footwell.electrics.operating_point import operate

SEED = 1
SHAPES = {"linear": LARGE, "bent": BENT}

Work = Callable[[], object]
_ready: list[Work] = []


def prepare(runs: int, name: str, *given: object) -> None:
    _ready[:] = [WORKS[name](*given) for _ in range(runs)]


def run() -> None:
    for work in _ready:
        work()


def all_on(circuit: Circuit) -> SetupState:
    return set_up(circuit, {control.part: "on" for control in circuit.sheet.controls})


def _yardstick(n: int = 40) -> Work:
    """Elimination of n equations with a full matrix, in plain lists."""
    chance = random.Random(SEED)
    rows = [[chance.random() + n * (i == j) for j in range(n + 1)] for i in range(n)]
    return partial(_eliminated, rows)


def _eliminated(rows: list[list[float]]) -> list[float]:
    n = len(rows)
    for k in range(n):
        pivot = rows[k]
        for row in rows[k + 1 :]:
            factor = row[k] / pivot[k]
            for j in range(k, n + 1):
                row[j] -= factor * pivot[j]
    values = [0.0] * n
    for k in reversed(range(n)):
        row = rows[k]
        values[k] = (row[n] - sum(row[j] * values[j] for j in range(k + 1, n))) / row[k]
    return values


def _table(shape: str) -> Work:
    """All voltages under every fault in one set-up: 60 parts in three modes each."""
    return _table_of(SHAPES[shape])


def _grown(parts: int) -> Work:
    """The same for a circuit of about so many parts."""
    return _table_of(grown(parts))


def _table_of(shape: Shape) -> Work:
    circuit = circuit_of(shape, SEED)
    setup, faults = all_on(circuit), list(faults_of(circuit))
    return lambda: [operate(circuit, setup, (fault,)).volts for fault in faults]


def _readings(shape: str, metered: bool) -> Work:
    """Every place against earth under every fault in twelve set-ups; `metered` with the resistance behind
    each, by which a meter's own makes it read less."""
    circuit = circuit_of(SHAPES[shape], SEED)
    return partial(_read, circuit, metered)


def _read(circuit: Circuit, metered: bool) -> int:
    count, faults = 0, list(faults_of(circuit))
    for setup in working_setups(circuit):
        for fault in faults:
            seen = outlook(circuit, setup, (fault,))
            places = range(circuit.earth)
            count += len([(seen.volts[n], seen.own_ohms[n] if metered else 0.0) for n in places])
    return count


WORKS: dict[str, Callable[..., Work]] = {
    "yardstick": _yardstick,
    "table": _table,
    "grown": _grown,
    "readings": _readings,
}
