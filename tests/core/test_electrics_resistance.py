"""What a probe sees: resistances, answers to a small current, and the load that a meter is."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from footwell.circuit.setup import set_up
from footwell.electrics.laying import Clip
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.battery import Battery
from footwell.parts.laws import Resistance, Source
from footwell.parts.resistor import Resistor

from .electrics_random import CALMLY, networks, outputs_on
from .electrics_rig import EARTH, Part, circuit_of, run

METER_OHMS = 1e7
PROBES = st.integers(0, 99)


def solved(parts: list[Part], *clips: Clip) -> OperatingPoint:
    circuit = circuit_of(parts, outputs_on(parts))
    return operate(circuit, set_up(circuit), (), clips)


def unit_ohms(point: OperatingPoint, a: int, b: int) -> float:
    """Resistance by a current of 1 A sent through, without the selected inversion."""
    answer = point.response(a, b)
    return answer[a] - answer[b]


def off_by(point: OperatingPoint, a: int, b: int) -> float:
    """Ω that rounding may take from a resistance whose two ends hang on the leak."""
    own = point.seen_resistance[0]
    return 1e-6 + 1e-13 * (own[a] + own[b])


@CALMLY
@given(networks())
def test_seen_resistances_are_those_of_a_current_sent_through(parts: list[Part]) -> None:
    point = solved(parts)
    own, mutual = point.seen_resistance
    earth = point.mesh.n
    for node in range(earth):
        assert own[node] == pytest.approx(unit_ohms(point, node, earth), rel=1e-9)
    for (a, b), edge in point.mesh.edge_of.items():
        seen = own[a] + own[b] - 2.0 * mutual[edge]
        assert seen == pytest.approx(unit_ohms(point, a, b), rel=1e-6, abs=off_by(point, a, b))


@CALMLY
@given(networks(), PROBES, PROBES)
def test_resistance_between_any_two_points_is_that_of_a_current_sent_through(
    parts: list[Part], i: int, j: int
) -> None:
    point = solved(parts)
    a, b = i % (point.mesh.n + 1), j % (point.mesh.n + 1)
    expected = unit_ohms(point, a, b)
    found = point.resistance_between(a, b)
    assert found == pytest.approx(expected, rel=1e-6, abs=off_by(point, a, b))
    assert found == pytest.approx(point.resistance_between(b, a), rel=1e-6, abs=off_by(point, a, b))


@CALMLY
@given(networks(("battery", "resistor")), PROBES, PROBES)
def test_response_is_the_change_that_a_small_current_makes(
    parts: list[Part], i: int, j: int
) -> None:
    point = solved(parts)
    a, b = i % (point.mesh.n + 1), j % (point.mesh.n + 1)
    assume(a != b)
    # 1 mA out of a source of 1 TV behind 1 PΩ: next to a leak of 10 GΩ it takes nothing away.
    pushed = solved(parts, Clip(a, b, Source(1e12, 1e15)))
    own = point.seen_resistance[0]
    for node, volts in enumerate(point.response(a, b)):
        change = (pushed.volts[node] - point.volts[node]) / 1e-3
        assert change == pytest.approx(volts, rel=1e-4, abs=1e-6 + 1e-4 * own[node])


@CALMLY
@given(networks(), PROBES, PROBES)
def test_meter_reads_what_a_resistor_of_its_ohms_would_show(
    parts: list[Part], i: int, j: int
) -> None:
    point = solved(parts)
    a, b = i % (point.mesh.n + 1), j % (point.mesh.n + 1)
    assume(a != b)
    # A meter moves a bent law a little; where that is no small change the tangent says too little.
    free = point.volts[a] - point.volts[b]
    assume(abs(free) / METER_OHMS * point.resistance_between(a, b) < 1e-3)
    clipped = solved(parts, Clip(a, b, Resistance(METER_OHMS)))
    shown = clipped.volts[a] - clipped.volts[b]
    assert point.loaded(a, b, METER_OHMS) == pytest.approx(shown, rel=1e-4, abs=1e-4)


def divider(*ohms: float) -> list[Part]:
    ends = ["plus", *(f"n{n}" for n in range(1, len(ohms))), EARTH]
    rows = [
        Part(f"R{n}", "resistor", Resistor(value), {"1": ends[n], "2": ends[n + 1]})
        for n, value in enumerate(ohms)
    ]
    return [Part("G1", "battery", Battery(12.0, 1e-6), {"+": "plus", "-": EARTH}), *rows]


def test_ohmmeter_sees_both_sides_of_a_divider_in_parallel() -> None:
    point = run(circuit_of(divider(100.0, 300.0)))
    middle = point.circuit.node_of["R1.1"]
    assert point.resistance_between(middle, point.circuit.earth) == pytest.approx(75.0, rel=1e-4)


def test_meter_of_10_megohms_lowers_a_point_between_two_resistors_of_its_size() -> None:
    # Two of 10 MΩ: 6 V, and 4 V with a third one, the meter, beside the lower.
    point = run(circuit_of(divider(1e7, 1e7)))
    middle = point.circuit.node_of["R1.1"]
    assert point.loaded(middle, point.circuit.earth, 1e7) == pytest.approx(4.0, rel=1e-3)


def test_resistance_from_a_point_to_itself_is_nothing() -> None:
    point = run(circuit_of(divider(100.0, 300.0)))
    assert point.resistance_between(2, 2) == 0.0


def test_elements_own_resistance_is_seen_on_an_island_beside_10_gigohms() -> None:
    parts = [*divider(1.0), Part("R9", "resistor", Resistor(0.05), {"1": "x", "2": "y"})]
    point = run(circuit_of(parts))
    a, b = (point.circuit.node_of[name] for name in ("R9.1", "R9.2"))
    assert point.resistance_between(a, b) == pytest.approx(0.05, abs=1e-5)
    assert point.resistance_between(a, point.circuit.earth) == pytest.approx(5e9, rel=1e-6)
