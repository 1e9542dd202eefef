"""A resistance in series with any law: what it reads, and that every kind can have a bad joint."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.fault import Fault
from footwell.parts.battery import Battery
from footwell.parts.lamp import Lamp
from footwell.parts.laws import (
    Armature,
    Filament,
    Junction,
    Law,
    LimitedOutput,
    Open,
    Resistance,
    Source,
)
from footwell.parts.series import InSeries, add_ohms, inner_volts

from .electrics_rig import EARTH, Part, circuit_of, run

BENT: tuple[Law, ...] = (
    Filament.rated(12.0, 21.0),
    Filament.rated(13.5, 5.0),
    Junction(1e-8, 1.7),
    Junction(1e-12, 1.0),
    LimitedOutput(0.1, 5.0),
    Armature(0.27, 11.3, 8.0, 0.5),
)
laws = st.sampled_from(BENT)
volts = st.floats(-60.0, 60.0)
ohms = st.floats(-4.0, 6.0).map(lambda decade: 10.0**decade)


@given(laws, ohms, volts)
def test_the_two_voltages_add_up(law: Law, size: float, across: float) -> None:
    whole = InSeries(law, size)
    inside, amps = whole.inside(across), whole.at(across)[0]
    # A diode beyond its knee is so steep that the last digit of u moves the current.
    noise = 1e-12 + size * law.at(inside)[1] * 1e-14
    assert inside + size * amps == pytest.approx(across, rel=1e-9, abs=noise)


@given(laws, ohms, volts, st.floats(1e-6, 10.0))
def test_current_never_falls_as_voltage_rises(
    law: Law, size: float, across: float, more: float
) -> None:
    whole = InSeries(law, size)
    low, slope = whole.at(across)
    high, _ = whole.at(across + more)
    assert slope >= 0.0 and high >= low - 1e-9 * abs(low) - 1e-12


@given(st.sampled_from(BENT[:2]), ohms, volts)
def test_slope_is_that_of_the_curve(law: Law, size: float, across: float) -> None:
    whole, step = InSeries(law, size), 1e-5
    rise = (whole.at(across + step)[0] - whole.at(across - step)[0]) / (2 * step)
    assert whole.at(across)[1] == pytest.approx(rise, rel=1e-3, abs=1e-9)


@given(ohms, ohms, volts)
def test_behind_a_resistor_it_is_ohms_law(one: float, other: float, across: float) -> None:
    amps, siemens = InSeries(Resistance(one), other).at(across)
    assert amps == pytest.approx(across / (one + other), rel=1e-9, abs=1e-15)
    assert siemens == pytest.approx(1.0 / (one + other), rel=1e-9)


@given(ohms, ohms, volts)
def test_two_joints_are_one_joint_of_their_sum(one: float, other: float, across: float) -> None:
    law = Filament.rated(12.0, 21.0)
    twice = add_ohms(add_ohms(law, one), other).at(across)
    assert twice == pytest.approx(InSeries(law, one + other).at(across), rel=1e-9, abs=1e-15)


def test_straight_laws_and_motors_stay_what_they_are() -> None:
    assert add_ohms(Resistance(2.0), 1.0) == Resistance(3.0)
    assert add_ohms(Source(12.0, 0.1), 0.2) == Source(12.0, pytest.approx(0.3))
    assert isinstance(add_ohms(BENT[-1], 1.0), Armature)
    assert add_ohms(Open(), 1.0) == Open()


def lamp_circuit(ohms: float) -> float:
    """Voltage at the lamp (V) with a joint of some ohms before it."""
    parts = [
        Part("G1", "battery", Battery(12.5, 0.005), {"+": "plus", "-": EARTH}),
        Part("L1", "lamp", Lamp(21.0, 13.5), {"1": "plus", "2": EARTH}),
    ]
    fault = Fault("W", "high_resistance", ohms)
    circuit = circuit_of(parts)
    wire = next(e for e in circuit.elements if e.startswith("J"))
    point = run(circuit, None, Fault(wire, fault.mode, ohms))
    return point.across(next(s for s in point.slots if s.element == "L1"))


@pytest.mark.parametrize("size", [0.05, 1.0, 20.0, 2000.0])
def test_a_joint_inside_a_lamp_leaves_it_what_a_joint_outside_does(size: float) -> None:
    outside = lamp_circuit(size)
    law = add_ohms(Filament.rated(13.5, 21.0), size)
    assert inner_volts(law, 12.49) == pytest.approx(outside, rel=0.02)
