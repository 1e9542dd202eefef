"""Laws of nature that any circuit must obey, whatever its parts (Kirchhoff, Tellegen, Ohm)."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.circuit import Circuit, build
from footwell.electrics.operating_point import OperatingPoint
from footwell.parts.resistor import Resistor
from footwell.sheet.models import Sheet

from .electrics_random import CALMLY, LINEAR, networks, outputs_on
from .electrics_rig import Part, circuit_of, exact_volts, leak_watts, residual_amps, run


def built(parts: list[Part]) -> Circuit:
    return circuit_of(parts, outputs_on(parts))


def most_amps(point: OperatingPoint) -> float:
    return max(abs(slot.branch.law.at(point.across(slot))[0]) for slot in point.slots)


@CALMLY
@given(networks())
def test_currents_at_every_node_sum_to_nothing_and_the_iteration_settles(parts: list[Part]) -> None:
    point = run(built(parts))
    assert point.settled
    # Voltages have 16 digits; across a joint of 0.7 mΩ the last of them is some picoamperes.
    allowed = 1e-9 * (1.0 + most_amps(point))
    assert max(map(abs, residual_amps(point))) < allowed


@CALMLY
@given(networks())
def test_power_that_sources_give_is_taken_by_the_rest_and_the_leak(parts: list[Part]) -> None:
    point = run(built(parts))
    watts = [point.across(s) * s.branch.law.at(point.across(s))[0] for s in point.slots]
    given_off = -sum(w for w in watts if w < 0.0)
    assert given_off == pytest.approx(
        sum(w for w in watts if w > 0.0) + leak_watts(point), rel=1e-7, abs=1e-9
    )


@CALMLY
@given(networks(LINEAR))
def test_linear_circuits_agree_with_elimination_in_fractions(parts: list[Part]) -> None:
    point = run(built(parts))
    exact = exact_volts(point)
    # A battery sends up to 25 kA through 1 mΩ; where only the leak of 10 GΩ leads home, the
    # rounding of that current (4e-12 A) is a hundredth of a volt that no meter could hold.
    own = point.seen_resistance[0]
    for node, volts in enumerate(exact):
        assert point.volts[node] == pytest.approx(volts, rel=1e-9, abs=1e-9 + 1e-11 * own[node])


@CALMLY
@given(networks(), st.randoms(use_true_random=False))
def test_renaming_and_reordering_a_sheet_and_turning_its_wires_changes_nothing(
    parts: list[Part], chance: random.Random
) -> None:
    circuit = built(parts)
    new_id = {p.id: f"Q{n}" for n, p in enumerate(chance.sample(parts, len(parts)))}
    one, other = run(circuit), run(muddled(circuit, new_id, chance))
    assert one.blown == other.blown == () and other.settled
    own = one.seen_resistance[0]
    for point, node in one.circuit.node_of.items():
        part, _, terminal = point.partition(".")
        renamed = f"{new_id[part]}.{terminal}" if part in new_id else point
        allowed = 1e-7 + 1e-11 * own[node]
        assert one.volts[node] == pytest.approx(other.at(renamed), rel=1e-7, abs=allowed)


def muddled(circuit: Circuit, new_id: dict[str, str], chance: random.Random) -> Circuit:
    """The same circuit, written in another order with other names and some wires turned round."""
    sheet = circuit.sheet.model_dump()

    def rename(point: str) -> str:
        part, dot, terminal = point.partition(".")
        return new_id.get(part, part) + dot + terminal

    for wire in sheet["wires"]:
        ends = [rename(wire["start"]), rename(wire["end"])]
        chance.shuffle(ends)
        wire["start"], wire["end"] = ends
    for part in [*sheet["parts"], *sheet["controls"]]:
        key = "id" if "id" in part else "part"
        part[key] = new_id[part[key]]
    chance.shuffle(sheet["parts"])
    chance.shuffle(sheet["wires"])
    sheet["loads"] = [rename(load) for load in sheet["loads"]]
    return build(
        Sheet.model_validate(sheet), {new_id[name]: v for name, v in circuit.values.items()}
    )


@CALMLY
@given(networks(), st.integers(0, 99), st.integers(0, 99))
def test_swapping_the_probes_flips_the_sign(parts: list[Part], i: int, j: int) -> None:
    point = run(built(parts))
    a, b = i % (point.mesh.n + 1), j % (point.mesh.n + 1)
    assert point.loaded(a, b, 1e7) == -point.loaded(b, a, 1e7)


@CALMLY
@given(networks(LINEAR), st.integers(0, 99), st.integers(0, 99), st.floats(-3, 6))
def test_a_second_path_in_parallel_never_raises_a_resistance(
    parts: list[Part], i: int, j: int, power: float
) -> None:
    circuit = built(parts)
    path = {"1": _net(parts, i), "2": _net(parts, j)}
    before = run(circuit)
    bridged = run(built([*parts, Part("Q", "resistor", Resistor(10.0**power), path)]))
    for name in (*circuit.points[1:], "earth"):
        was, now = (_ohms(point, circuit.points[0], name) for point in (before, bridged))
        # On a stretch that only the leak holds, the 16th digit of 10 GΩ is a microhm.
        assert now <= was * (1.0 + 1e-9) + 1e-5


def _ohms(point: OperatingPoint, a: str, b: str) -> float:
    return point.resistance_between(point.circuit.node_of[a], point.circuit.node_of[b])


def _net(parts: list[Part], n: int) -> str:
    nets = sorted({net for p in parts for net in p.nets.values()})
    return nets[n % len(nets)]
