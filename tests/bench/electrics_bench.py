"""The electrics: an update beside a full solution and a rival, fault tables, growth, a simulator.

E2 is the largest difference (V) between a suspect as an update of the sound network and the same branches
solved anew. E3 and E4 are fault tables of 60 parts in three modes and 40 nets, one set-up: all voltages
under each of the 180 faults, the sound network's own elimination included; E4 has 6 lamps, 2 motors and
4 diodes. The yardstick is an elimination of 40 full equations in plain lists on the same machine. All times
are of the processor, not of the clock on the wall.
"""

from __future__ import annotations

import math
import random
import sys
import time
from collections.abc import Iterator
from functools import partial
from itertools import combinations
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import electrics_work as work
from branching import BENT, LARGE, MIDDLE, SMALL, Shape, circuit_of, faults_of, grown
from clocks import children_time, here, milliseconds, worker_time
from core.electrics_rig import exact_volts
from core.sample_circuits import VAN, sample
from dense_rival import Dense
from in_browser import BrowserPython, browser_python
from table import print_table

from footwell.checks.catalogue import working_setups
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.electrics.network import Network
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.spice import netlist

HERE = Path(__file__).parent
SEEDS = (1, 2, 3)
MOST_PAIRS = 400
FLOORS = {"E3": (200, 40), "E4": (600, 150)}
RUNS = 8
TWINS = {
    "E3: table, linear": ("table", "linear"),
    "E4: table, lamps, motors, diodes": ("table", "bent"),
    "readings, linear": ("readings", "linear", False),
    "readings, linear, metered": ("readings", "linear", True),
    "readings, lamps, motors, diodes": ("readings", "bent", False),
    "the same, metered": ("readings", "bent", True),
}
GROWTH = (10, 20, 40, 80, 150, 300)


def main() -> None:
    begun = time.monotonic()
    print(f"Circuits drawn by seeds {SEEDS}; tables on seed {SEEDS[0]}.")
    exactness()
    rivals()
    simulator()
    speeds()
    print(f"\n{time.monotonic() - begun:.0f} s in all")


def suspects(circuit: Circuit, seed: int) -> Iterator[tuple[Fault, ...]]:
    """Every single fault and pairs of them on two parts, all or a draw."""
    singles = list(faults_of(circuit))
    yield from ((fault,) for fault in singles)
    pairs = [(a, b) for a, b in combinations(singles, 2) if a.element != b.element]
    yield from random.Random(seed).sample(pairs, min(MOST_PAIRS, len(pairs)))


def anew(point: OperatingPoint) -> list[float]:
    """Voltages (V) of the same branches in a network that knows nothing of the sound one."""
    return Network(point.mesh, {**point.network.groups, **point.changes}).solution.volts


def exactness() -> None:
    """E2, over all shapes and seeds."""
    rows = []
    for name, shape in (("11", SMALL), ("23", MIDDLE), ("60", LARGE), ("60, bent", BENT)):
        count, worst, same = 0, 0.0, 0
        for seed in SEEDS:
            circuit = circuit_of(shape, seed)
            setup = work.all_on(circuit)
            for faults in suspects(circuit, seed):
                point = operate(circuit, setup, faults)
                whole = anew(point)
                count += 1
                same += whole == point.volts
                worst = max([worst, *(abs(a - b) for a, b in zip(point.volts, whole, strict=True))])
        rows.append([name, count, same, f"{worst * 1e6:.3g}"])
    head = ["parts", "suspects", "bit for bit", "largest, uV"]
    print_table("E2: update against full solution (floor 1 mV, goal 10 uV)", head, rows)


def rivals() -> None:
    """The dense update of low rank beside ours, against elimination in fractions."""
    rows = []
    for name, circuit, setup in linear_circuits():
        sound = operate(circuit, setup)
        dense = Dense(circuit.earth, sound.slots)
        drawn = random.Random(1).sample(list(suspects(circuit, 1)), 40)
        points = [operate(circuit, setup, faults) for faults in drawn]
        # A fuse that opens is another fault more, which the rival does not know of.
        points = [p for p in points if not p.blown]
        exact = [exact_volts(p) for p in points]
        theirs = [dense.suspect(*changed(sound, p)) for p in points]
        ours = [p.volts[:-1] for p in points]
        rows.append([name, len(points), *spread(ours, exact), *spread(theirs, exact)])
    head = ["circuit", "suspects", "ours: median uV", "worst uV", "dense: median uV", "worst uV"]
    print_table("Difference to exact fractions", head, rows)
    print(f"Dense, 60 parts, one set-up: {dense_table(LARGE):.1f} ms in CPython")


def linear_circuits() -> Iterator[tuple[str, Circuit, SetupState]]:
    for name, shape in (("23 parts", MIDDLE), ("60 parts", LARGE)):
        circuit = circuit_of(shape, SEEDS[0])
        yield name, circuit, work.all_on(circuit)
    # Here the battery has an earth strap that can open: the whole circuit floats.
    circuit = sample(VAN)
    yield VAN, circuit, working_setups(circuit)[0]


def changed(sound: OperatingPoint, point: OperatingPoint) -> tuple[list, list]:
    old = [s for element in point.changes for s in sound.own_slots(element)]
    return old, [s for slots in point.changes.values() for s in slots]


def spread(found: list[list[float]], exact: list[list[float]]) -> list[str]:
    worst = sorted(
        max(abs(a - b) for a, b in zip(one, other, strict=True))
        for one, other in zip(found, exact, strict=True)
    )
    return [f"{worst[len(worst) // 2] * 1e6:.2g}", f"{worst[-1] * 1e6:.2g}"]


def dense_table(shape: Shape) -> float:
    circuit = circuit_of(shape, SEEDS[0])
    setup = work.all_on(circuit)
    sound = operate(circuit, setup)
    pairs = [changed(sound, operate(circuit, setup, (f,))) for f in faults_of(circuit)]

    def run() -> None:
        dense = Dense(circuit.earth, sound.slots)
        for old, new in pairs:
            dense.suspect(old, new)

    return here(run)


def simulator() -> None:
    """The same fault tables by ngspice, as one batch in one process; without the battery's faults, which
    leave it no source to solve for."""
    from parity.ngspice_rig import run

    rows = []
    for name, shape in (("linear", LARGE), ("lamps, motors, diodes", BENT)):
        circuit = circuit_of(shape, SEEDS[0])
        setup = work.all_on(circuit)
        faults = [f for f in faults_of(circuit) if f.element != circuit.supply_element.id]
        decks = [netlist(operate(circuit, setup, (fault,))) for fault in faults]
        theirs = milliseconds(children_time, partial(run, decks))
        ours = worked(Here(), "table", "linear" if shape is LARGE else "bent")
        rows.append([name, f"{theirs:.0f}", f"{ours:.1f}", f"{theirs / ours:.0f}"])
    head = ["", "ngspice, 177 faults, ms", "CPython, 180 faults, ms", "ratio"]
    print_table("The same table by ngspice, one process", head, rows)


class Here:
    """Ordinary Python."""

    def prepare(self, runs: int, call: tuple[object, ...]) -> None:
        work.prepare(runs, *call)  # type: ignore[arg-type]

    def run(self) -> float:
        return here(work.run)


class There:
    """The browser's Python, with the circuits and the work in it as modules."""

    def __init__(self, python: BrowserPython) -> None:
        self._python = python
        for name in ("branching", "electrics_work"):
            text = (HERE / f"{name}.py").read_text("utf-8")
            python.run(
                f"import sys, types\nm = sys.modules[{name!r}] = types.ModuleType({name!r})\n"
                f"exec(compile({text!r}, {name!r}, 'exec', dont_inherit=True), m.__dict__)\nNone"
            )

    def prepare(self, runs: int, call: tuple[object, ...]) -> None:
        listed = ", ".join(map(repr, (runs, *call)))
        self._python.run(f"import electrics_work\nelectrics_work.prepare({listed})")

    def run(self) -> float:
        return milliseconds(worker_time, lambda: self._python.run("electrics_work.run()"))


def worked(where: Here | There, *call: object) -> float:
    """Milliseconds of a piece of work, the mean of some runs."""
    runs = 2 if call[0] == "readings" else RUNS
    where.prepare(runs, call)
    return where.run() / runs


def speeds() -> None:
    with browser_python() as python:
        places = (Here(), There(python))
        rules = [worked(where, "yardstick") for where in places]
        rows = []
        for name, call in TWINS.items():
            took = [worked(where, *call) for where in places]
            cells = [(f"{t:.1f}", f"{t / r:.0f}") for t, r in zip(took, rules, strict=True)]
            rows.append([name, *cells[0], *cells[1], aim(name)])
        sizes = [grown(parts) for parts in GROWTH]
        growth = [
            [(s.parts, worked(where, "grown", s.parts) / (3 * s.parts)) for s in sizes]
            for where in places
        ]
    rows.append(["yardstick", f"{rules[0]:.2f}", "1", f"{rules[1]:.2f}", "1", ""])
    head = ["60 parts, 180 faults", "CPython, ms", "ratio", "browser, ms", "ratio", "floor; goal"]
    print_table("Speed (readings: 12 set-ups, 40 places)", head, rows)
    rows = [
        [parts, f"{a * 1e3:.0f}", f"{b * 1e3:.0f}"]
        for (parts, a), (_, b) in zip(*growth, strict=True)
    ]
    print_table("A suspect by size of circuit, us", ["parts", "CPython", "browser"], rows)
    slopes = " and ".join(f"{exponent(rows):.2f}" for rows in growth)
    print(f"Exponents, by least squares on logarithms: {slopes}")


def aim(name: str) -> str:
    floor, goal = FLOORS.get(name[:2], ("", ""))
    return f"{floor}; {goal}" if floor else ""


def exponent(rows: list[tuple[int, float]]) -> float:
    """Slope of the logarithm of the cost over that of the size."""
    xs, ys = [math.log(x) for x, _ in rows], [math.log(y) for _, y in rows]
    mx, my = sum(xs) / len(xs), sum(ys) / len(ys)
    over = sum((x - mx) * (y - my) for x, y in zip(xs, ys, strict=True))
    return over / sum((x - mx) ** 2 for x in xs)


if __name__ == "__main__":
    main()
