"""Brushed motors by published examples, and what they do as bearings and brushes wear."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.parts.base import Context
from footwell.parts.battery import Battery
from footwell.parts.laws import Armature
from footwell.parts.motor import Motor, running

from .electrics_random import CALMLY
from .electrics_rig import EARTH, Part, circuit_of, run

CONTEXT = Context(12, 5.0)

# OpenStax College Physics, Back Emf: supply V, armature ohms, amps running; back-EMF V, amps at
# standstill. The last two rows are its problems.
BACK_EMF = [
    (48.0, 0.4, 20.0, 40.0, 120.0),
    (120.0, 12.0, 20.0 / 12.0, 100.0, 10.0),
    (120.0, 6.0, 8.0, 72.0, 20.0),
]


def circuit(values: Motor, volts: float) -> Circuit:
    supply = Part("G1", "battery", Battery(volts, 1e-6), {"+": "plus", "-": EARTH})
    motor = Part("M1", "motor", values, {"+": "plus", "-": EARTH})
    return circuit_of([supply, motor], joint_metres=1e-6, joint_mm2=120.0)


@pytest.mark.parametrize(("volts", "ohms", "amps", "back_emf", "standing"), BACK_EMF)
def test_back_emf_running_and_standing_current_are_those_of_the_textbook(
    volts: float, ohms: float, amps: float, back_emf: float, standing: float
) -> None:
    values = Motor(amps, volts, ohms)
    assert running(values, CONTEXT).emf_volts == pytest.approx(back_emf, rel=1e-9)
    sound = circuit(values, volts)
    assert run(sound).amps("M1") == pytest.approx(amps, rel=1e-4)
    seized = run(sound, None, Fault("M1", "seized"))
    assert seized.amps("M1") == pytest.approx(standing, rel=1e-4)


def test_heat_in_the_armature_is_that_of_the_textbook() -> None:
    # OpenStax College Physics, Back Emf: 5.76 kW at standstill, 160 W running.
    volts, ohms, amps, _, standing = BACK_EMF[0]
    assert standing**2 * ohms == pytest.approx(5760) and amps**2 * ohms == pytest.approx(160)
    point = run(circuit(Motor(amps, volts, ohms), volts))
    assert point.amps("M1") ** 2 * ohms == pytest.approx(160, rel=1e-3)


# Common practice, no source.
def test_stiffer_bearing_draws_more_and_turns_slower() -> None:
    values = Motor(8.0, 27.0, 0.6)
    amps = [run(circuit(values, 25.0)).amps("M1")]
    amps += [
        run(circuit(values, 25.0), None, Fault("M1", "stiff", f)).amps("M1") for f in (0.3, 0.6)
    ]
    assert amps == sorted(amps) and amps[-1] > 1.3 * amps[0]
    speeds = [running(values, CONTEXT, friction).speed(25.0) for friction in (0.06, 0.3, 0.6)]
    assert speeds == sorted(speeds, reverse=True)


# Common practice, no source.
def test_worn_brushes_draw_less_and_a_seized_motor_the_most() -> None:
    sound = circuit(Motor(8.0, 27.0, 0.6), 25.0)
    worn = run(sound, None, Fault("M1", "worn_brushes", 4.0)).amps("M1")
    seized = run(sound, None, Fault("M1", "seized")).amps("M1")
    assert worn < run(sound).amps("M1") < seized == pytest.approx(25.0 / 0.6, rel=1e-3)


MOTORS = st.builds(
    Armature, st.floats(0.01, 5.0), st.floats(1.0, 30.0), st.floats(0.0, 50.0), st.floats(0.01, 5.0)
)


@CALMLY
@given(MOTORS, st.floats(0.0, 40.0))
def test_volts_are_the_drop_in_the_armature_and_the_back_emf_at_every_speed(
    law: Armature, volts: float
) -> None:
    amps, speed = law.at(volts)[0], law.speed(volts)
    assert law.ohms * amps + law.emf_volts * speed == pytest.approx(volts, rel=1e-9, abs=1e-12)
    if speed > 0.0:
        torque = law.friction_amps + law.load_amps * speed**2
        assert amps == pytest.approx(torque, rel=1e-9)


@CALMLY
@given(MOTORS, st.floats(0.0, 40.0))
def test_reversed_polarity_turns_the_current_and_more_volts_never_lower_it(
    law: Armature, volts: float
) -> None:
    assert law.at(-volts)[0] == -law.at(volts)[0]
    assert law.at(volts + 0.1)[0] >= law.at(volts)[0]
