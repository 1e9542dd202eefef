"""Stretches that nothing but the leak of 10 GΩ holds, beside joints of a milliohm."""

from __future__ import annotations

import pytest

from footwell.circuit.fault import Fault
from footwell.electrics.operating_point import OperatingPoint
from footwell.parts.battery import Battery
from footwell.parts.resistor import Resistor
from footwell.parts.switch import Switch

from .electrics_rig import EARTH, Part, circuit_of, exact_volts, residual_amps, run
from .sample_circuits import MINIBUS, sample

OFF = {"S1": "0"}


def test_all_switches_open_leaves_the_far_side_at_nought_and_the_near_side_at_the_supply() -> None:
    point = run(sample(MINIBUS), OFF)
    near = ("G1.+", "F1.1", "F1.2", "X2.1.a", "S1.B")
    for name, node in point.circuit.node_of.items():
        expected = 25.0 if name in near or name == "X2.1.b" else 0.0
        assert point.volts[node] == pytest.approx(expected, abs=1e-6), name
    assert point.amps("M1") == 0.0


def island(depth: int) -> list[Part]:
    """Beside a 12 V circuit a chain of resistors of 1 mΩ, fed through 20 kΩ, that ends nowhere."""
    ends = ["far", *(f"i{n}" for n in range(depth))]
    chain = [
        Part(f"R{n}", "resistor", Resistor(0.001), {"1": ends[n], "2": ends[n + 1]})
        for n in range(depth)
    ]
    return [
        Part("G1", "battery", Battery(12.0, 0.005), {"+": "plus", "-": EARTH}),
        Part("R90", "resistor", Resistor(0.02), {"1": "plus", "2": EARTH}),
        Part("R91", "resistor", Resistor(20_000.0), {"1": "plus", "2": "far"}),
        *chain,
    ]


def test_chain_of_milliohms_that_hangs_on_the_leak_is_exact_to_ten_digits() -> None:
    point = run(circuit_of(island(30)))
    for volts, exact in zip(point.volts[:-1], exact_volts(point), strict=True):
        assert volts == pytest.approx(exact, rel=1e-10)


def test_drop_along_a_floating_chain_is_that_of_its_own_leak() -> None:
    # Thirty joints, three leaking ends each: the picoamperes and femtovolts are in the last digits
    # of 9.6 V, so only their sum at the feeding end can be told.
    point = run(circuit_of(island(30)))
    node = point.circuit.node_of["R91.2"]
    feed = point.amps("R91")
    below = [v for n, v in enumerate(point.volts[:-1]) if v > 9.0 and n != node]
    assert feed == pytest.approx(1e-10 * 61 * point.volts[node], rel=0.05), len(below)


@pytest.mark.parametrize("element", ["E0", "W0"])
@pytest.mark.parametrize("position", ["0", "1", "2", "3"])
def test_supply_without_its_earth_floats_where_fractions_say(element: str, position: str) -> None:
    # A motor without current is its armature alone, so the circuit is linear.
    point = run(sample(MINIBUS), {"S1": position}, Fault(element, "open"))
    assert abs(point.amps("M1")) < 1e-6
    for volts, exact in zip(point.volts[:-1], exact_volts(point), strict=True):
        # The last digit of the 2.5 kA in the battery's law would be a millivolt on 10 GΩ.
        assert volts == pytest.approx(exact, abs=1e-9)


def test_supply_without_its_earth_reads_nothing_on_a_meter_of_10_megohms() -> None:
    point = run(sample(MINIBUS), OFF, Fault("E0", "open"))
    plus = point.circuit.node_of["F1.1"]
    assert point.loaded(plus, point.circuit.earth, 1e7) == pytest.approx(0.0, abs=0.2)
    assert point.loaded(plus, point.circuit.node_of["G1.-"], 1e7) == pytest.approx(25.0, abs=0.01)


def test_switch_whose_positions_are_all_open_is_solved() -> None:
    values = Switch(("1", "2"), {"off": (), "on": (("1", "2"),)})
    parts = [
        Part("G1", "battery", Battery(12.0, 0.005), {"+": "plus", "-": EARTH}),
        Part("S1", "switch", values, {"1": "plus", "2": "out"}),
        Part("R1", "resistor", Resistor(10.0), {"1": "out", "2": EARTH}),
    ]
    point = run(circuit_of(parts, {"S1": ["off", "on"]}), {"S1": "off"})
    assert point.settled and point.amps("R1") == 0.0


def batteries(second: float) -> OperatingPoint:
    parts = [
        Part("G1", "battery", Battery(12.6, 0.01), {"+": "plus", "-": EARTH}),
        Part("G2", "battery", Battery(second, 0.05), {"+": "plus", "-": EARTH}),
    ]
    return run(circuit_of(parts, joint_metres=1e-6, joint_mm2=120.0))


def test_good_battery_charges_the_flat_one_beside_it() -> None:
    # (12.6 - 11.1) V over 60 mΩ.
    point = batteries(11.1)
    assert point.amps("G2") == pytest.approx(25.0, rel=1e-4)
    assert point.at("G1.+") == pytest.approx(12.35, rel=1e-5)
    assert max(map(abs, residual_amps(point))) < 1e-4


def test_two_equal_batteries_send_nothing_to_each_other() -> None:
    assert batteries(12.6).amps("G2") == pytest.approx(0.0, abs=1e-6)


def ring(*joined: tuple[str, str]) -> list[Part]:
    """Three closed switches in a ring, and resistors of 6 Ω that join some of its nets elsewhere."""
    closed = Switch(("1", "2"), {"on": (("1", "2"),)})
    nets = ("a", "b", "c", "a")
    switches = [Part(f"S{n}", "switch", closed, {"1": nets[n], "2": nets[n + 1]}) for n in range(3)]
    rest = [
        Part(f"R{n}", "resistor", Resistor(6.0), {"1": here, "2": there})
        for n, (here, there) in enumerate(joined)
    ]
    return [
        Part("G1", "battery", Battery(12.0, 0.005), {"+": "plus", "-": EARTH}),
        *switches,
        *rest,
    ]


def test_loop_of_contacts_that_nothing_feeds_carries_nothing() -> None:
    point = run(circuit_of(ring()))
    assert point.settled
    assert [point.amps(f"S{n}", "1-2") for n in range(3)] == [0.0, 0.0, 0.0]


def test_current_through_a_loop_of_contacts_goes_both_ways_round() -> None:
    # From net a to net b one contact is one third of the ring, the other two are two thirds.
    point = run(circuit_of(ring(("plus", "a"), ("b", EARTH)), joint_metres=1e-6, joint_mm2=120.0))
    straight, *round_about = (point.amps(f"S{n}", "1-2") for n in range(3))
    assert straight == pytest.approx(12.0 / 12.025 * 2 / 3, rel=1e-2)
    assert round_about == pytest.approx([-straight / 2] * 2, rel=1e-2)
