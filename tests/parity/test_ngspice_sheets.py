"""Node voltages of the sheets against ngspice: a sample of all positions, faults and instruments.

The sample is drawn anew with every commit and can be drawn again from its hash; the whole is
computed by tests/bench/ngspice_bench.py.
"""

from __future__ import annotations

import dataclasses
import random
from collections.abc import Iterable

import pytest

from footwell.checks.behind_plug import behind_plug, into_plugs
from footwell.checks.check import nodes
from footwell.checks.clipped import OHMMETER
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.laying import Clip
from footwell.electrics.operating_point import operate
from footwell.electrics.spice import netlist, node_names

from .cases import OHMS, Case, faulty_cases, healthy_cases, load, sample_sheets
from .ngspice_rig import FLOATS_FROM_OHMS, Difference, compare, table
from .referee import ours_holds
from .seed import commit
from .simulator import by_currents, run

SHEETS = sample_sheets()
CASES = 1500 // len(SHEETS)
"""A sheet's share of what a test run has time for; half of it sound where there are so many."""


def sampled(sheet: str) -> list[Case]:
    circuit, chance = load(sheet), random.Random(commit())
    sound, faulty = list(healthy_cases(circuit)), list(faulty_cases(circuit))
    few = chance.sample(sound, min(len(sound), CASES // 2))
    return few + chance.sample(faulty, min(len(faulty), CASES - len(few)))


@pytest.mark.parametrize("sheet", SHEETS)
def test_voltages_of_a_sheet_agree_with_its_netlist_as_exported(sheet: str) -> None:
    circuit = load(sheet)
    differences = list(compare(circuit, sampled(sheet)))
    print(sheet, *table(differences), sep="\n")
    beyond = [d for d in differences if not d.within_floor]
    assert all(d.floats for d in beyond), (commit(), beyond)
    # What hangs on the leak alone is lost among the simulator's digits in this form (see by_currents),
    # so each such case is asked again in the form that keeps them.
    again = list(compare(circuit, [d.case for d in beyond], by_currents))
    assert not _missed(circuit, again), (commit(), _missed(circuit, again))


@pytest.mark.parametrize("sheet", SHEETS)
def test_voltages_of_a_sheet_agree_to_the_goal_with_currents_as_unknowns(sheet: str) -> None:
    circuit = load(sheet)
    missed = _missed(circuit, compare(circuit, sampled(sheet)[::4], by_currents))
    assert not missed, (commit(), missed)


@pytest.mark.parametrize("sheet", SHEETS)
def test_ohms_into_a_plug_agree_sound_and_with_a_fault_at_each_of_what_hangs_on_it(
    sheet: str,
) -> None:
    circuit, chance = load(sheet), random.Random(commit())
    cases: list[Case] = []
    for check in into_plugs(circuit):
        clip = Clip(*nodes(circuit, check), OHMMETER)
        inside = behind_plug(circuit, check)
        found = [c.faults for c in faulty_cases(circuit) if {f.element for f in c.faults} <= inside]
        for faults in [(), *chance.sample(found, min(len(found), 2))]:
            cases.append(Case(check.setup, faults, (clip,), OHMS))
    missed = _missed(circuit, compare(circuit, cases, by_currents))
    assert not missed, (commit(), missed)


def _missed(circuit: Circuit, differences: Iterable[Difference]) -> list[Difference]:
    """Those beyond the goal that are not the simulator's alone."""
    return [
        d
        for d in differences
        if not d.within_goal
        and not ours_holds(d, operate(circuit, d.case.setup, d.case.faults, d.case.clips))
    ]


def test_all_circuits_are_compared() -> None:
    assert len(SHEETS) >= 7


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


def test_a_voltage_of_ours_that_is_off_is_not_laid_to_the_simulator() -> None:
    """A floating place a millivolt and more from the true one counts as missed, whoever else is wrong."""
    circuit = load("camper-split-charge")
    case = Case(set_up(circuit, {"S0": "on", "S2": "off"}), (Fault("W8", "open"),))
    point = operate(circuit, case.setup, case.faults)
    node = next(n for n, ohms in enumerate(point.seen_resistance[0]) if ohms > FLOATS_FROM_OHMS)
    told = Difference(case, node_names(circuit)[node], point.volts[node], 9.0, floats=True)
    assert ours_holds(told, point)
    point.volts[node] += 0.002
    assert not ours_holds(told, point)
    assert not ours_holds(dataclasses.replace(told, floats=False), operate(circuit, case.setup))
