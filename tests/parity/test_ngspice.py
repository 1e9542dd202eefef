"""Node voltages of the sample sheets against ngspice: every position, and a sample of the faults.

The sample is drawn anew with every commit and can be drawn again from its hash; the whole is
computed by tests/bench/ngspice_bench.py.
"""

from __future__ import annotations

import dataclasses
import random
import subprocess

import pytest

from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.electrics.spice import netlist, node_names

from .ngspice_rig import (
    Case,
    Difference,
    compare,
    faulty_cases,
    healthy_cases,
    load,
    run,
    sample_sheets,
)

FAULTY_CASES = 1000


def commit() -> str:
    """Hash of the commit; empty outside a repository, which is a seed as good as any."""
    asked = ["git", "rev-parse", "HEAD"]
    return subprocess.run(asked, capture_output=True, text=True, check=False).stdout.strip()


def worst(differences: list[Difference]) -> Difference:
    return max(differences, key=lambda d: d.volts)


@pytest.mark.parametrize("sheet", sample_sheets())
def test_voltages_of_sound_circuits_agree_in_every_position(sheet: str) -> None:
    circuit = load(sheet)
    differences = list(compare(circuit, healthy_cases(circuit)))
    print(
        f"{sheet}: {len(differences)} cases, at most {worst(differences).volts * 1e3:.6f} mV apart"
    )
    assert all(d.within_floor for d in differences), worst(differences)


@pytest.mark.parametrize("sheet", sample_sheets())
def test_voltages_under_single_faults_agree(sheet: str) -> None:
    circuit, seed = load(sheet), commit()
    cases = random.Random(seed).sample(list(faulty_cases(circuit)), FAULTY_CASES)
    differences = list(compare(circuit, cases))
    print(
        f"{sheet}: {len(differences)} cases, at most {worst(differences).volts * 1e3:.6f} mV apart"
    )
    assert all(d.within_floor for d in differences), (seed, worst(differences))


def test_all_three_circuits_are_compared() -> None:
    assert len(sample_sheets()) >= 3


def test_the_comparison_sees_a_resistance_that_differs_by_a_hundredth() -> None:
    circuit = load("minibus-saloon-fan")
    case = Case(set_up(circuit, {"S1": "1"}))
    point = operate(circuit, case.setup)
    wrong = netlist(point).replace(" 1.8\n", " 1.818\n")
    theirs = run([wrong])[0]
    names = node_names(circuit)
    differences = [
        Difference(case, name, volts, theirs[name.lower()])
        for name, volts in zip(names[:-1], point.volts[:-1], strict=True)
    ]
    assert not all(d.within_floor for d in differences)


@pytest.mark.parametrize("damage", [("RW1 ", "Q1 "), (".end", "V9 F1_1 0 1\nV8 F1_1 0 2\n.end")])
def test_a_netlist_the_simulator_cannot_solve_is_an_error_and_no_agreement(
    damage: tuple[str, str],
) -> None:
    circuit = load("minibus-saloon-fan")
    good = netlist(operate(circuit, set_up(circuit, {"S1": "1"})))
    with pytest.raises(RuntimeError, match="solved 1 of 2"):
        run([good, good.replace(*damage)])


def test_a_difference_just_beyond_the_floor_is_told() -> None:
    case = Case(set_up(load("minibus-saloon-fan")))
    here = Difference(case, "a", 10.0, 10.0099)
    assert here.within_floor
    assert not dataclasses.replace(here, ours=9.999).within_floor
    assert not Difference(case, "a", 0.0051, 0.0).within_floor


def test_relays_and_fuses_found_by_the_solver_are_told_in_comments() -> None:
    circuit = load("tractor-work-lamps")
    text = netlist(operate(circuit, set_up(circuit, {"S2": "on"}), (Fault("W2", "open"),)))
    assert "* K1: " in text and "* F1: whole" in text and "* W2: open" in text
