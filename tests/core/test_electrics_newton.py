"""Iteration on bent laws: it settles from anywhere, and on the same voltages."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.mesh import Kept, Step
from footwell.electrics.network import Network
from footwell.electrics.operating_point import operate
from footwell.parts.battery import Battery
from footwell.parts.diode import Diode
from footwell.parts.laws import THERMAL_VOLTS, Armature, Filament, Junction, LimitedOutput
from footwell.parts.output import Output

from .electrics_random import CALMLY, networks, outputs_on
from .electrics_rig import EARTH, Part, circuit_of, run
from .sample_circuits import TRACTOR, sample

LAWS = st.one_of(
    st.builds(Filament.rated, st.floats(6.0, 28.0), st.floats(1.0, 100.0)),
    st.builds(
        Armature,
        st.floats(0.01, 5.0),
        st.floats(1.0, 30.0),
        st.floats(0.0, 50.0),
        st.floats(0.01, 5.0),
    ),
    st.builds(LimitedOutput, st.floats(0.01, 1.0), st.floats(0.1, 30.0)),
    st.just(Junction(1e-8, 1.7)),
)


@CALMLY
@given(networks(), st.integers(0, 10**6), st.randoms(use_true_random=False))
def test_start_from_the_sound_circuit_or_from_nothing_ends_at_the_same_voltages(
    parts: list[Part], n: int, chance: random.Random
) -> None:
    circuit = circuit_of(parts, outputs_on(parts))
    element = circuit.elements[parts[n % len(parts)].id]
    mode = chance.choice(list(element.modes.values()))
    fault = Fault(element.id, mode.name, chance.choice(mode.factors or (0.5,)))
    near = run(circuit, None, fault)
    far = Network(near.mesh, {**near.network.groups, **near.changes}).solution
    assert near.settled and far.settled
    own = near.seen_resistance[0]
    for node, volts in enumerate(near.volts):
        # Flat laws beside the leak: there a reverse current of 10 nA decides about volts.
        assert volts == pytest.approx(far.volts[node], rel=1e-6, abs=1e-6 + 1e-11 * own[node])


@CALMLY
@given(LAWS, st.floats(-30.0, 30.0))
def test_current_of_every_law_rises_with_its_voltage(law: Filament, volts: float) -> None:
    assert law.at(volts + 1e-3)[0] >= law.at(volts)[0]


@CALMLY
@given(LAWS, st.floats(-30.0, 30.0))
def test_slope_of_every_law_is_that_of_its_current(law: Filament, volts: float) -> None:
    step = 1e-6
    (before, low), (after, high) = law.at(volts - step), law.at(volts + step)
    found = (after - before) / (2.0 * step)
    # On a knee the slope is that of one side or the other; flat laws are given a least slope.
    least, most = min(low, high), max(low, high)
    noise = 1e-9 + 1e-9 * abs(after)
    assert least * (1.0 - 1e-3) - noise <= found <= most * (1.0 + 1e-3) + noise


@CALMLY
@given(LAWS)
def test_no_voltage_drives_no_current(law: Filament) -> None:
    assert law.at(0.0)[0] == 0.0


def straight_across(first: Part) -> float:
    supply = Part("G1", "battery", Battery(24.0, 0.005), {"+": "plus", "-": EARTH})
    point = run(circuit_of([supply, first], {"A1": ["on"]} if first.id == "A1" else None))
    assert point.settled
    return point.amps(first.id)


def test_diode_straight_across_a_battery_settles_beyond_its_exponential() -> None:
    diode = Part("D1", "diode", Diode(), {"+": "plus", "-": EARTH})
    amps = straight_across(diode)
    # 23 V over the battery's 5 mΩ, two joints of 0.7 mΩ and the diode's bulk of 2 mΩ.
    assert 2000 < amps < 3500


def test_diode_the_other_way_round_lets_its_saturation_current_pass() -> None:
    diode = Part("D1", "diode", Diode(), {"-": "plus", "+": EARTH})
    assert straight_across(diode) == pytest.approx(-1e-8, rel=0.01)


def test_output_straight_across_a_battery_gives_its_limit() -> None:
    output = Part("A1", "output", Output(3.0, 0.1), {"supply": "plus", "out": EARTH})
    assert straight_across(output) == pytest.approx(3.0, rel=1e-3)


def test_diode_drops_shockleys_voltage_at_an_amp() -> None:
    # Shockley: n Vt ln(I/Is + 1), n = 1.7, Is = 10 nA, Vt = 25.9 mV at 27 °C.
    volts = 1.7 * THERMAL_VOLTS * math.log(1.0 / 1e-8 + 1.0)
    assert Junction(1e-8, 1.7).at(volts)[0] == pytest.approx(1.0)
    assert volts == pytest.approx(0.81, abs=0.005)


def rounds_with(after: Callable[[Kept, Iterable[int]], list[Step]]) -> list[float]:
    """Voltages of a sheet with lamps, a relay and an earth strap that has gone poor, found with steps
    chosen so from the second round on."""
    circuit = sample(TRACTOR)
    setup = set_up(circuit, {"A1": "on", "S2": "on"})
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Kept, "after", after)
        return operate(circuit, setup, (Fault("E1", "high_resistance", 2.0),)).volts


def test_steps_that_are_not_run_again_would_come_out_bit_for_bit_the_same() -> None:
    some = rounds_with(Kept.after)
    assert some == rounds_with(lambda kept, _: list(kept.steps))
    assert some != rounds_with(lambda *_: [])
