"""Motors that run at two speeds, either way, or against a steady load."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.checks.sights import chances
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.parts import two_speed_motor
from footwell.parts.base import Context
from footwell.parts.motor import Motor
from footwell.parts.resistor import Resistor
from footwell.parts.switch import Switch
from footwell.parts.two_speed_motor import TwoSpeedMotor, slow_share

from .electrics_rig import EARTH, Part, circuit_of, run
from .sensor_rig import BATTERY

TWELVE = Context(12, 5.0)
WIPER = TwoSpeedMotor(3.0, 5.0, 12.6)
SPEEDS = Switch(("+", "lo", "hi"), {"0": (), "1": (("+", "lo"),), "2": (("+", "hi"),)})


def wiper(values: TwoSpeedMotor = WIPER) -> Circuit:
    motor = Part("M1", "two_speed_motor", values, {"low": "lo", "high": "hi", "-": EARTH})
    switch = Part("S1", "switch", SPEEDS, {"+": "30", "lo": "lo", "hi": "hi"})
    return circuit_of([BATTERY, motor, switch], {"S1": ["0", "1", "2"]})


def speed(circuit: Circuit, controls: dict[str, str], *faults: Fault) -> float:
    point = run(circuit, controls, *faults)
    element = circuit.elements["M1"]
    assert element.kind.shows is not None
    return element.kind.shows(element.values, point.felt("M1"), circuit.context)


@pytest.mark.parametrize(("position", "amps", "share"), [("1", 3.0, 0.76), ("2", 5.0, 1.0)])
def test_each_brush_takes_its_own_current_and_gives_its_own_speed(
    position: str, amps: float, share: float
) -> None:
    point = run(wiper(), {"S1": position})
    assert abs(point.amps("M1")) == pytest.approx(amps, rel=0.02)
    assert speed(wiper(), {"S1": position}) == pytest.approx(share, rel=0.02)


def test_the_brush_that_nobody_feeds_reads_part_of_the_supply_at_low_speed() -> None:
    low, off = run(wiper(), {"S1": "1"}), run(wiper(), {"S1": "0"})
    assert 5.0 < low.at("M1.high") < 11.0 and low.at("M1.low") > 12.0
    assert off.at("M1.high") == pytest.approx(0.0, abs=1e-3)


@pytest.mark.parametrize(
    ("mode", "low", "high"),
    [("open", 0.0, 0.0), ("open:step", 0.0, 1.0), ("open:high", 0.76, 0.0), ("seized", 0.0, 0.0)],
)
def test_what_fails_at_which_speed_tells_the_brush(mode: str, low: float, high: float) -> None:
    fault = Fault("M1", mode)
    assert speed(wiper(), {"S1": "1"}, fault) == pytest.approx(low, abs=0.02)
    assert speed(wiper(), {"S1": "2"}, fault) == pytest.approx(high, abs=0.02)


def test_a_stiff_gear_slows_both_speeds_and_takes_more() -> None:
    stiff = Fault("M1", "stiff", 1.2)
    for position in ("1", "2"):
        assert speed(wiper(), {"S1": position}, stiff) < 0.9 * speed(wiper(), {"S1": position})
        sound, now = (run(wiper(), {"S1": position}, *f).amps("M1") for f in ((), (stiff,)))
        assert now > 1.1 * sound


@given(st.floats(0.5, 20.0), st.floats(1.2, 2.5))
def test_low_speed_lies_between_standstill_and_high_speed(low: float, ratio: float) -> None:
    values = TwoSpeedMotor(low, low * ratio)
    assert 0.3 < slow_share(values, TWELVE) < 1.0
    assert list(two_speed_motor.KIND.objections(values, TWELVE)) == []


def test_a_motor_that_takes_more_at_low_speed_is_objected_to() -> None:
    assert list(two_speed_motor.KIND.objections(TwoSpeedMotor(5.0, 3.0), TWELVE))


def parking(park: str, *faults: Fault) -> float:
    """Wiper switched off: the park switch, set by the motor's place, feeds it on until it is home, and
    then lays its two brushes on earth, so that it stops at once."""
    off = Switch(("53", "53e", "+"), {"off": (("53", "53e"),), "on": (("53", "+"),)})
    place = Switch(
        ("53e", "53a", "31"), {"home": (("53e", "31"),), "on the way": (("53e", "53a"),)}
    )
    parts = [
        BATTERY,
        Part("M1", "two_speed_motor", WIPER, {"low": "53", "high": "53b", "-": EARTH}),
        Part("S1", "switch", off, {"53": "53", "53e": "53e", "+": "30"}),
        Part("S2", "switch", place, {"53e": "53e", "53a": "30", "31": EARTH}),
    ]
    circuit = circuit_of(parts, {"S1": ["off", "on"], "S2": ["home", "on the way"]})
    return speed(circuit, {"S1": "off", "S2": park}, *faults)


def test_a_wiper_switched_off_runs_on_until_its_park_switch_is_home() -> None:
    assert parking("on the way") == pytest.approx(0.76, abs=0.02)
    assert parking("home") == 0.0


def test_a_burnt_park_contact_leaves_the_wiper_where_it_stands() -> None:
    assert parking("on the way", Fault("S2", "open:53e-53a")) == 0.0
    assert parking("on the way", Fault("S2", "open:53e-31")) > 0.7


def window(mirrored: bool = False) -> Circuit:
    """A window motor between the two legs of a reversing switch."""
    rows = {
        "0": (("-", "1"), ("-", "2")),
        "up": (("+", "1"), ("-", "2")),
        "down": (("+", "2"), ("-", "1")),
    }
    plus, minus = ("n2", "n1") if mirrored else ("n1", "n2")
    parts = [
        BATTERY,
        Part("M1", "reversing_motor", Motor(8.0), {"+": plus, "-": minus}),
        Part(
            "S1",
            "switch",
            Switch(("+", "1", "2", "-"), rows),
            {"+": "30", "1": "n1", "2": "n2", "-": EARTH},
        ),
    ]
    return circuit_of(parts, {"S1": ["0", "up", "down"]})


def said(position: str, circuit: Circuit, *faults: Fault) -> str:
    now, usual = speed(circuit, {"S1": position}, *faults), speed(window(), {"S1": position})
    words = chances("turning", now, usual, 0.0)
    return max(words, key=lambda word: words[word])


@pytest.mark.parametrize("position", ["up", "down"])
def test_a_sound_window_runs_in_both_positions_and_stands_in_rest(position: str) -> None:
    assert said(position, window()) == "runs"
    assert said("0", window()) == "still"


@pytest.mark.parametrize("position", ["up", "down"])
def test_exchanged_wires_let_a_window_run_the_other_way(position: str) -> None:
    assert said(position, window(mirrored=True)) == "runs the other way"


def test_a_bad_joint_slows_a_window_in_its_own_way() -> None:
    assert said("up", window(), Fault("S1", "high_resistance:+-1", 1.5)) == "slow"
    assert said("down", window(), Fault("S1", "high_resistance:+-1", 1.5)) == "runs"


@given(st.floats(-2.0, 2.0), st.one_of(st.floats(0.3, 1.5), st.floats(-1.5, -0.3)))
def test_words_of_what_turns_either_way_mirror_with_the_direction(now: float, usual: float) -> None:
    one, other = chances("turning", now, usual, 0.01), chances("turning", -now, -usual, 0.01)
    assert sum(one.values()) == pytest.approx(1.0) and one == other


@pytest.mark.parametrize(("load", "least", "most"), [("fan", 5.0, 6.5), ("steady", 7.9, 8.1)])
def test_a_weak_feed_lightens_a_fan_and_leaves_a_pump_its_current(
    load: str, least: float, most: float
) -> None:
    parts = [
        BATTERY,
        Part("M1", "motor", Motor(8.0, 12.6, load=load), {"+": "m", "-": EARTH}),  # type: ignore[arg-type]
        Part("R1", "resistor", Resistor(0.5), {"1": "30", "2": "m"}),
    ]
    circuit = circuit_of(parts)
    assert least < run(circuit).amps("M1") < most
    assert 0.3 < speed(circuit, {}) < 0.9


def test_a_pump_with_too_little_voltage_for_its_load_stands() -> None:
    parts = [
        BATTERY,
        Part("M1", "motor", Motor(8.0, 12.6, 0.3, "steady"), {"+": "m", "-": EARTH}),
        Part("R1", "resistor", Resistor(3.0), {"1": "30", "2": "m"}),
    ]
    assert speed(circuit_of(parts), {}) == 0.0
    lighter = [*parts[:2], Part("R1", "resistor", Resistor(0.5), {"1": "30", "2": "m"})]
    assert speed(circuit_of(lighter), {}) > 0.3
