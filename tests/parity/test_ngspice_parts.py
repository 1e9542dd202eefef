"""Every kind of part on a battery, both ways round, in every state and under every fault: ngspice agrees."""

from __future__ import annotations

import re
from collections.abc import Iterator
from random import Random
from typing import Any

import pytest
from core.electrics_rig import EARTH, Part, circuit_of
from core.random_parts import DRAWS, drawn

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.spice import netlist, node_names
from footwell.parts import KINDS
from footwell.parts.base import Context
from footwell.parts.battery import Battery
from footwell.parts.resistor import Resistor

from .simulator import attempt, by_currents

SEEDS = 3
SIZES = (0.1, 20.0)
KINDS_HERE = sorted(set(DRAWS) - {"wire", "contact", "battery"})
LEAST_SOLVED = 0.9
"""ngspice finds no answer for some points of a regulator at its limit."""
CLOSE_VOLTS, CLOSE_SHARE = 1e-5, 1e-6


def bench(kind: str, values: Any, chance: Random) -> Circuit:
    """The part with each terminal behind a few ohms to the supply, to earth, or to a divider."""
    nets: dict[str, str] = {}
    parts = [
        Part(
            "G1",
            "battery",
            Battery(chance.choice((9.0, 12.5, 30.0)), 0.01),
            {"+": "plus", "-": EARTH},
        )
    ]
    for n, terminal in enumerate(KINDS[kind].terminals(values)):
        ohms = chance.choice((0.2, 5.0, 2000.0))
        nets[terminal] = f"t{n}"
        end = "plus" if (n + chance.randint(0, 1)) % 2 == 0 else EARTH
        parts.append(Part(f"R{n}", "resistor", Resistor(ohms), {"1": f"t{n}", "2": end}))
    return circuit_of([*parts, Part("P", kind, values, nets)])


def faults_of(kind: str, values: Any) -> Iterator[tuple[Fault, ...]]:
    yield ()
    for mode in KINDS[kind].modes(values):
        for size in SIZES if mode.sized else mode.factors or (0.0,):
            yield (Fault("P", mode.name, size),)


@pytest.mark.parametrize("kind", KINDS_HERE)
def test_voltages_agree_in_every_state_and_under_every_fault(kind: str) -> None:
    points = []
    for seed in range(SEEDS):
        chance = Random(f"{kind} {seed}")
        values = drawn(kind, chance, Context(12, 5.0))
        circuit = bench(kind, values, chance)
        for state in KINDS[kind].states(values):
            for faults in faults_of(kind, values):
                points.append(operate(circuit, set_up(circuit), faults, held={"P": state}))
    answers, words = attempt([by_currents(netlist(point)) for point in points])
    solved = [(p, a) for p, a in zip(points, answers, strict=True) if a is not None]
    assert len(solved) >= LEAST_SOLVED * len(points), words
    apart = [largest(point, theirs) for point, theirs in solved]
    told = f"{kind}: {len(solved)} of {len(points)} points solved"
    print(f"{told}, at most {max(off for off, _ in apart) * 1e6:.3f} uV apart")


def largest(point: OperatingPoint, theirs: dict[str, float]) -> tuple[float, str]:
    """The node where both differ most, in volts. Raises AssertionError where they do not agree."""
    rows = []
    for n, name in enumerate(node_names(point.circuit)[:-1]):
        ours, other = point.volts[n], theirs[name.lower()]
        told = (point.states["P"], point.faults, name, ours, other)
        assert abs(ours - other) <= CLOSE_VOLTS + CLOSE_SHARE * abs(ours), told
        rows.append((abs(ours - other), name))
    return max(rows)


def test_a_simulator_with_another_battery_is_found_out() -> None:
    circuit = bench("heater", drawn("heater", Random(1), Context(12, 5.0)), Random(1))
    point = operate(circuit, set_up(circuit))
    deck = by_currents(netlist(point))
    [(line, volts)] = re.findall(r"^(VG1 \S+ \S+ )(\S+)$", deck, re.MULTILINE)
    decks = [deck, deck.replace(line + volts, f"{line}{float(volts) * 1.001:.12g}")]
    (right, wrong), _ = attempt(decks)
    assert right is not None and wrong is not None
    assert largest(point, right)[0] < CLOSE_VOLTS
    with pytest.raises(AssertionError):
        largest(point, wrong)
