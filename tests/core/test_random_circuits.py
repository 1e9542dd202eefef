"""The random circuits of the other tests are what they are said to be."""

from __future__ import annotations

from collections import Counter
from random import Random

from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.parts import KINDS

from .random_circuits import random_circuit
from .random_parts import DRAWS

CIRCUITS = [random_circuit(Random(seed), 5 + seed % 56) for seed in range(112)]


def test_every_kind_of_part_has_an_entry_that_says_how_to_draw_its_values() -> None:
    assert set(DRAWS) == set(KINDS)


def test_every_kind_of_part_is_drawn() -> None:
    assert {e.kind.name for c in CIRCUITS for e in c.elements.values()} == set(KINDS)


def test_circuits_have_as_many_parts_as_asked_for() -> None:
    assert [len(c.sheet.parts) for c in CIRCUITS] == [5 + seed % 56 for seed in range(112)]


def test_same_seed_draws_the_same_circuit() -> None:
    one, same, other = (random_circuit(Random(seed), 20) for seed in (7, 7, 8))
    assert one.sheet == same.sheet and one.values == same.values
    assert one.sheet != other.sheet


def batteries(circuit: Circuit) -> int:
    return sum(e.kind.name == "battery" for e in circuit.elements.values())


def test_some_have_two_batteries_and_some_one() -> None:
    assert {1, 2} <= {batteries(circuit) for circuit in CIRCUITS}


def test_some_stretches_float_and_most_do_not() -> None:
    floats: Counter[bool] = Counter()
    for circuit in CIRCUITS:
        own = operate(circuit, set_up(circuit)).seen_resistance[0]
        floats.update(ohms > 1e8 for ohms in own[:-1])
    assert 0.03 < floats[True] / floats.total() < 0.5


def test_some_relays_pull_and_some_stay_at_rest() -> None:
    states = [
        operate(circuit, set_up(circuit)).states[e.id]
        for circuit in CIRCUITS
        for e in circuit.elements.values()
        if e.kind.name == "relay"
    ]
    assert min(states.count("pulled"), states.count("rest")) >= 10
