"""Node voltages of random circuits against ngspice: a few cases of some circuits, drawn with every commit.

The whole is computed by tests/bench/ngspice_bench.py.
"""

from __future__ import annotations

import pytest
from core.electrics_rig import EARTH, Part, circuit_of, exact_volts
from core.electrics_rig import run as operated

from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.electrics.spice import netlist
from footwell.parts.battery import Battery
from footwell.parts.resistor import Resistor

from .cases import INSTRUMENT, ONE_FAULT, SOUND, TWO_FAULTS, load
from .ngspice_rig import Tried, table, try_random
from .referee import ours_holds, true_volts
from .seed import commit
from .simulator import by_currents, run, started

CIRCUITS, CASES = 40, 8


def test_voltages_of_random_circuits_agree_to_the_goal() -> None:
    tried = Tried()
    for n in range(CIRCUITS):
        try_random(f"{commit()}-{n}", tried, CASES)
    print(f"{tried.cases} cases, {tried.retried} of them told where to begin")
    print(*table(tried.differences), sep="\n")
    kinds = {d.case.kind for d in tried.differences}
    assert kinds == {SOUND, ONE_FAULT, TWO_FAULTS, INSTRUMENT}
    assert not tried.unsolved, (commit(), tried.unsolved)
    assert all(d.within_floor for d in tried.differences), commit()
    beyond = [(d, point) for d, point in tried.found if not d.within_goal]
    assert all(ours_holds(d, point) for d, point in beyond), (commit(), [d for d, _ in beyond])


def test_told_to_begin_at_a_wrong_voltage_the_simulator_still_finds_the_right_one() -> None:
    circuit = load("minibus-saloon-fan")
    point = operate(circuit, set_up(circuit, {"S1": "1"}))
    deck = by_currents(netlist(point))
    plain, misled = run([deck, started(deck, {"R1_link": 3.0, "F1_1": 1.0})])
    assert misled == pytest.approx(plain, abs=1e-6)


def test_resistances_with_their_currents_as_unknowns_are_the_same_circuit() -> None:
    circuit = load("minibus-saloon-fan")
    deck = netlist(operate(circuit, set_up(circuit, {"S1": "1"})))
    plain, rewritten = run([deck, by_currents(deck)])
    assert "\nRW1 " in deck and "\nRW1 " not in by_currents(deck)
    for node in (name for name in plain if "#" not in name and not name.endswith("_emf")):
        assert rewritten[node] == pytest.approx(plain[node], abs=1e-6)


def test_the_rewritten_circuit_shows_a_resistance_that_differs_by_a_hundredth() -> None:
    circuit = load("minibus-saloon-fan")
    deck = by_currents(netlist(operate(circuit, set_up(circuit, {"S1": "1"}))))
    wrong = deck.replace(" 1.8\n", " 1.818\n")
    assert wrong != deck
    right, other = run([deck, wrong])
    assert max(abs(right[name] - other[name]) for name in right) > 0.01


def test_the_referee_in_sixty_digits_says_what_fractions_say() -> None:
    parts = [
        Part("G1", "battery", Battery(12.0, 0.003), {"+": "plus", "-": "minus"}),
        Part("R1", "resistor", Resistor(2.0), {"1": "plus", "2": "minus"}),
        Part("R2", "resistor", Resistor(1e6), {"1": "minus", "2": EARTH}),
    ]
    point = operated(circuit_of(parts))
    for referee, exact in zip(true_volts(point), exact_volts(point), strict=False):
        assert referee == pytest.approx(exact, rel=1e-15, abs=1e-18)


def test_the_referee_does_not_believe_a_voltage_that_is_off() -> None:
    circuit = load("tractor-work-lamps")
    point = operate(circuit, set_up(circuit, {"S2": "on"}))
    right = true_volts(point)
    for node in range(point.mesh.n):
        point.volts[node] += 0.001
    assert true_volts(point) == pytest.approx(right, abs=1e-9)
