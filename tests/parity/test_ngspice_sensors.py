"""Sensors, electronics and motors of several terminals against ngspice: every position, every fault."""

from __future__ import annotations

from random import Random
from typing import Any

import pytest
from core.sensor_rig import plugged_sheet
from core.sensor_sheets import BUS, BUS_WIRES, SHARED, SHARED_WIRES, WIPER, WIPER_WIRES

from footwell.circuit.circuit import Circuit

from .cases import faulty_cases, healthy_cases
from .ngspice_rig import compare
from .seed import commit
from .simulator import by_currents

SHEETS: dict[str, tuple[list[dict[str, Any]], list[tuple[str, str]]]] = {
    "sensors": (SHARED, SHARED_WIRES),
    "wiper": (WIPER, WIPER_WIRES),
    "bus": (BUS, BUS_WIRES),
}
FAULTY_CASES = 150


@pytest.mark.parametrize("name", SHEETS)
def test_voltages_agree_in_every_position_and_under_a_sample_of_the_faults(name: str) -> None:
    circuit: Circuit = plugged_sheet(*SHEETS[name])
    faulty = list(faulty_cases(circuit))
    drawn = Random(f"{name} {commit()}").sample(faulty, min(FAULTY_CASES, len(faulty)))
    cases = [*healthy_cases(circuit), *drawn]
    try:
        differences = list(compare(circuit, cases))
    except RuntimeError:  # a circuit that the simulator only solves with currents as unknowns
        differences = list(compare(circuit, cases, by_currents))
    worst = max((d for d in differences if not d.floats), key=lambda d: d.volts)
    print(f"{name}: {len(differences)} differences, at most {worst.volts * 1e3:.6f} mV")
    assert all(d.within_floor for d in differences if not d.floats), worst
