"""Laws of nature in circuits of every kind of part, sound and faulty, in any position of their controls."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from parity.cases import SOUND, random_cases

from footwell.circuit.circuit import Circuit, build
from footwell.circuit.setup import SetupState
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.sheet.models import Sheet

from .electrics_random import CALMLY
from .electrics_rig import leak_watts, residual_amps
from .random_circuits import random_circuit

SEEDS = st.integers(0, 10**9)
SIZES = st.integers(2, 30)


def drawn(seed: int, size: int, sound: bool = False) -> OperatingPoint:
    """A random circuit in a random position, perhaps with faults or an instrument laid in."""
    chance = Random(seed)
    circuit = random_circuit(chance, size)
    cases = [c for c in random_cases(circuit, chance) if not sound or c.kind == SOUND]
    case = chance.choice(cases)
    return operate(circuit, case.setup, case.faults, case.clips)


def slot_amps(point: OperatingPoint) -> list[float]:
    return [slot.branch.law.at(point.across(slot))[0] for slot in point.slots]


@CALMLY
@given(SEEDS, SIZES)
def test_currents_at_every_node_sum_to_nothing_and_the_iteration_settles(
    seed: int, size: int
) -> None:
    point = drawn(seed, size)
    assert point.settled
    # Voltages have 16 digits; across a joint of 0.1 mΩ the last of them is some picoamperes.
    allowed = 1e-8 * (1.0 + max(map(abs, slot_amps(point)), default=0.0))
    assert max(map(abs, residual_amps(point))) < allowed


@CALMLY
@given(SEEDS, SIZES)
@example(7701866, 10)
def test_power_that_is_given_is_taken_by_the_rest_and_the_leak(seed: int, size: int) -> None:
    point = drawn(seed, size)
    amps = slot_amps(point)
    watts = [point.across(slot) * i for slot, i in zip(point.slots, amps, strict=True)]
    turned_over = sum(map(abs, watts))
    # The current law above holds to so many amperes, and voltages multiply them.
    amps_off = 1e-8 * (1.0 + max(map(abs, amps), default=0.0))
    allowed = 1e-7 * turned_over + amps_off * max(map(abs, point.volts), default=0.0)
    assert sum(watts) + leak_watts(point) == pytest.approx(0.0, abs=allowed)


@CALMLY
@given(SEEDS, SIZES, st.integers(0, 999), st.integers(0, 999))
def test_swapping_the_probes_flips_the_sign(seed: int, size: int, i: int, j: int) -> None:
    point = drawn(seed, size)
    a, b = i % (point.mesh.n + 1), j % (point.mesh.n + 1)
    assert point.loaded(a, b, 1e7) == -point.loaded(b, a, 1e7)


@CALMLY
@given(SEEDS, SIZES)
def test_renaming_the_points_and_reordering_the_wires_changes_nothing(seed: int, size: int) -> None:
    point = drawn(seed, size, sound=True)
    other = renamed(point.circuit, Random(seed))
    moved = operate(other, with_names(point.setup))
    if point.chatters or moved.chatters:
        return  # a relay that chatters is shown in one of its states, whichever came last
    own = point.seen_resistance[0]
    for name, node in point.circuit.node_of.items():
        allowed = 1e-6 + 1e-11 * own[node]
        assert moved.at(new_name(name)) == pytest.approx(point.volts[node], rel=1e-6, abs=allowed)


def new_name(point: str) -> str:
    owner, dot, rest = point.partition(".")
    return point if point == "earth" else f"{owner[0]}9{owner[1:]}{dot}{rest}"


def with_names(setup: SetupState) -> SetupState:
    return setup._replace(controls=tuple(sorted((new_name(p), s) for p, s in setup.controls)))


def renamed(circuit: Circuit, chance: Random) -> Circuit:
    """The same circuit with other names for its parts, connectors and wires, in another order."""
    sheet = circuit.sheet.model_dump()
    for row in [*sheet["parts"], *sheet["connectors"], *sheet["wires"]]:
        row["id"] = new_name(row["id"])
    for wire in sheet["wires"]:
        ends = [new_name(wire["start"]), new_name(wire["end"])]
        chance.shuffle(ends)
        wire["start"], wire["end"] = ends
    for connector in sheet["connectors"]:
        connector["part_ways"] = {w: new_name(p) for w, p in connector["part_ways"].items()}
    for control in sheet["controls"]:
        control["part"] = new_name(control["part"])
    sheet["loads"] = [new_name(load) for load in sheet["loads"]]
    chance.shuffle(sheet["wires"])
    chance.shuffle(sheet["connectors"])
    return build(
        Sheet.model_validate(sheet), {new_name(name): v for name, v in circuit.values.items()}
    )
