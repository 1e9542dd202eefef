"""A suspect is an update of the sound network, and comes out as if everything were solved anew."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.laying import Clip
from footwell.electrics.mesh import Mesh, plan
from footwell.electrics.network import Network
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.laws import Filament, Resistance

from .electrics_random import CALMLY, LINEAR, networks, outputs_on
from .electrics_rig import Part, circuit_of, exact_volts, run

METER, TEST_LAMP = Resistance(1e7), Filament.rated(13.5, 4.0)


def anew(point: OperatingPoint) -> Network:
    """The same branches in a network that knows nothing of the sound one."""
    return Network(point.mesh, {**point.network.groups, **point.changes})


def some_faults(circuit: Circuit, chance: random.Random) -> list[Fault]:
    """One to three faults of the circuit, of any kind and size."""
    elements = chance.sample(
        list(circuit.elements.values()), chance.randint(1, min(3, len(circuit.elements)))
    )
    found = []
    for element in elements:
        mode = chance.choice(list(element.modes.values()))
        size = (
            10.0 ** chance.uniform(-2, 4) if mode.sized else chance.choice(mode.factors or (0.0,))
        )
        found.append(Fault(element.id, mode.name, size))
    return found


@CALMLY
@given(networks(LINEAR), st.randoms(use_true_random=False))
def test_update_of_a_linear_network_is_bit_for_bit_the_full_solution(
    parts: list[Part], chance: random.Random
) -> None:
    circuit = circuit_of(parts)
    point = run(circuit, None, *some_faults(circuit, chance))
    whole = anew(point).solution
    assert point.volts == whole.volts
    assert point.factor == whole.factor


@CALMLY
@given(networks(LINEAR), st.randoms(use_true_random=False))
def test_update_agrees_with_elimination_in_fractions(
    parts: list[Part], chance: random.Random
) -> None:
    circuit = circuit_of(parts)
    point = run(circuit, None, *some_faults(circuit, chance))
    own = point.seen_resistance[0]
    for node, volts in enumerate(exact_volts(point)):
        # A battery sends up to 25 kA; on a stretch that only 10 GΩ hold, the last digit of that shows.
        assert point.volts[node] == pytest.approx(volts, rel=1e-9, abs=1e-9 + 1e-11 * own[node])


@CALMLY
@given(networks(), st.randoms(use_true_random=False))
def test_update_under_laws_that_bend_settles_where_the_full_solution_does(
    parts: list[Part], chance: random.Random
) -> None:
    circuit = circuit_of(parts, outputs_on(parts))
    point = run(circuit, outputs_rest(parts), *some_faults(circuit, chance))
    whole = anew(point).solution
    assert point.settled == whole.settled
    own = point.seen_resistance[0]
    for node, volts in enumerate(whole.volts):
        assert point.volts[node] == pytest.approx(volts, rel=1e-6, abs=1e-6 + 1e-11 * own[node])


def outputs_rest(parts: list[Part]) -> dict[str, str]:
    return {p: on[0] for p, on in outputs_on(parts).items()}


@CALMLY
@given(networks(), st.randoms(use_true_random=False), st.sampled_from([METER, TEST_LAMP]))
def test_instrument_at_any_two_points_is_an_update_that_turns_with_its_probes(
    parts: list[Part], chance: random.Random, law: Resistance | Filament
) -> None:
    circuit = circuit_of(parts, outputs_on(parts))
    setup = set_up(circuit, outputs_rest(parts))
    faults = tuple(some_faults(circuit, chance))
    a, b = chance.sample(range(circuit.earth + 1), 2)
    one = operate(circuit, setup, faults, (Clip(a, b, law),))
    other = operate(circuit, setup, faults, (Clip(b, a, law),))
    own = one.seen_resistance[0]
    whole = anew(one).solution
    for node, volts in enumerate(one.volts):
        allowed = 1e-6 + 1e-11 * own[node]
        assert other.volts[node] == pytest.approx(volts, rel=1e-6, abs=allowed)
        assert whole.volts[node] == pytest.approx(volts, rel=1e-6, abs=allowed)


@CALMLY
@given(networks(), st.randoms(use_true_random=False))
def test_what_was_asked_before_does_not_show_in_a_suspect(
    parts: list[Part], chance: random.Random
) -> None:
    first, second = circuit_of(parts), circuit_of(parts)
    faults = [some_faults(first, chance) for _ in range(3)]
    asked = [run(first, None, *each).volts for each in faults]
    turned = [run(second, None, *each).volts for each in reversed(faults)]
    assert asked == turned[::-1]


def test_order_of_a_chain_takes_it_apart_in_halves() -> None:
    chain = plan(64, [(n, n + 1) for n in range(63)])
    assert longest_way(chain) <= 2 * 6 + 1


def longest_way(mesh: Mesh) -> int:
    return max(len(above) for above in mesh.above)


@CALMLY
@given(st.integers(1, 12), st.randoms(use_true_random=False))
def test_order_does_not_depend_on_the_order_of_the_pairs(n: int, chance: random.Random) -> None:
    pairs = [(chance.randrange(n), chance.randrange(n + 1)) for _ in range(2 * n)]
    one, other = plan(n, pairs), plan(n, [(b, a) for a, b in reversed(pairs)])
    assert [step.node for step in one.steps] == [step.node for step in other.steps]
