"""Outputs of control units: to the load and to earth, their limit, shut-down and open-load detection."""

from __future__ import annotations

import pytest

from footwell.checks.sights import LIMITS
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.electrics.problems import troubles
from footwell.parts.lamp import Lamp
from footwell.parts.led_lamp import LedLamp
from footwell.parts.output import Output
from footwell.parts.relay import Relay
from footwell.parts.resistor import Resistor

from .electrics_rig import EARTH, Part, circuit_of, run
from .sensor_rig import BATTERY

LAMP = Part("E1", "lamp", Lamp(21.0), {"1": "load", "2": EARTH})
LED = Part("E1", "led_lamp", LedLamp(2.7), {"+": "load", "-": EARTH})
SHORT = Part("R8", "resistor", Resistor(0.02), {"1": "load", "2": EARTH})
NEXT_TO_NOTHING = 0.05
"""Below this voltage nobody takes a place for live."""


def high(values: Output, *loads: Part) -> Circuit:
    """An output that feeds a load; a meter on its terminal leads to earth through 10 MΩ."""
    part = Part("A1", "output", values, {"supply": "30", "out": "load"})
    meter = Part("R9", "resistor", Resistor(10e6), {"1": "load", "2": EARTH})
    return circuit_of([BATTERY, *loads, meter, part], {"A1": ["off", "on"]})


def out(circuit: Circuit, position: str, *faults: Fault) -> float:
    return run(circuit, {"A1": position}, *faults).at("A1.out")


def test_an_output_feeds_its_lamp_when_on_and_reads_nothing_when_off() -> None:
    circuit = high(Output(10.0), LAMP)
    assert out(circuit, "on") > 12.2 and out(circuit, "off") < NEXT_TO_NOTHING


def test_open_load_detection_reads_a_ghost_voltage_only_where_the_load_is_open() -> None:
    detecting = Output(10.0, detects_open_load=True)
    assert out(high(detecting, LAMP), "off") < NEXT_TO_NOTHING
    assert out(high(detecting), "off") == pytest.approx(12.6, abs=0.05)
    assert out(high(detecting, LAMP), "off", Fault("E1", "open")) == pytest.approx(12.6, abs=0.05)
    assert out(high(Output(10.0)), "off") < NEXT_TO_NOTHING


def light(values: Output, position: str) -> float:
    circuit = high(values, LED)
    point = run(circuit, {"A1": position})
    element = circuit.elements["E1"]
    assert element.kind.shows is not None
    return element.kind.shows(element.values, point.felt("E1"), circuit.context)


def test_open_load_detection_lets_an_led_glow_and_leaves_it_dark_without() -> None:
    assert 0.001 < light(Output(10.0, detects_open_load=True), "off") < 0.2
    assert light(Output(10.0), "off") < 1e-4
    assert light(Output(10.0, detects_open_load=True), "on") > LIMITS["lamp"][-1]


@pytest.mark.parametrize("position", ["on"])
def test_a_short_shuts_an_output_down_and_a_lamp_does_not(position: str) -> None:
    guarded = Output(10.0, shuts_down=True)
    shorted = run(high(guarded, LAMP, SHORT), {"A1": position})
    assert shorted.states["A1"] == "shut down" and shorted.at("A1.out") < NEXT_TO_NOTHING
    assert abs(shorted.amps("A1")) < 1e-9
    assert run(high(guarded, LAMP), {"A1": position}).states["A1"] == "on"


def test_an_output_that_does_not_shut_down_gives_its_limit_into_a_short() -> None:
    limited = run(high(Output(10.0), LAMP, SHORT), {"A1": "on"})
    assert limited.states["A1"] == "on"
    assert limited.amps("A1") == pytest.approx(10.0, rel=0.001)
    assert limited.at("A1.out") == pytest.approx(0.2, abs=0.05)


def test_shut_down_lasts_until_it_is_switched_off() -> None:
    circuit = high(Output(10.0, shuts_down=True), LAMP, SHORT)
    point = run(circuit, {"A1": "on"})
    assert not point.chatters and point.states["A1"] == "shut down"
    assert run(circuit, {"A1": "off"}).states["A1"] == "off"


def test_an_output_told_to_stay_off_still_detects_and_a_dead_one_does_not() -> None:
    circuit = high(Output(10.0, detects_open_load=True))
    assert out(circuit, "on", Fault("A1", "not_commanded")) > 12.0
    assert out(circuit, "on", Fault("A1", "open")) < NEXT_TO_NOTHING
    assert out(circuit, "off", Fault("A1", "stuck_closed")) > 12.0


def low(values: Output, *parts: Part) -> Circuit:
    part = Part("A1", "low_side_output", values, {"out": "85", "-": EARTH})
    meter = Part("R9", "resistor", Resistor(10e6), {"1": "85", "2": EARTH})
    return circuit_of([BATTERY, *parts, meter, part], {"A1": ["off", "on"]})


COIL = Part("K1", "relay", Relay(85.0), {"86": "30", "85": "85", "30": "n30", "87": "n87"})


@pytest.mark.parametrize("detects", [False, True])
def test_an_output_to_earth_reads_supply_when_off_and_nearly_nothing_when_on(detects: bool) -> None:
    circuit = low(Output(1.0, 0.5, detects_open_load=detects), COIL)
    off, on = run(circuit, {"A1": "off"}), run(circuit, {"A1": "on"})
    assert off.at("A1.out") > 12.4 and off.states["K1"] == "rest"
    assert on.at("A1.out") < 0.2 and on.states["K1"] == "pulled"


def test_an_open_coil_takes_the_voltage_off_the_output_to_earth() -> None:
    circuit = low(Output(1.0, 0.5, detects_open_load=True), COIL)
    assert run(circuit, {"A1": "off"}, Fault("K1", "open:coil")).at("A1.out") < NEXT_TO_NOTHING


def test_a_shorted_coil_diode_shuts_an_output_to_earth_down() -> None:
    """With its diode shorted the coil is a dead short to the supply."""
    relay = Part("K1", "relay", Relay(85.0, diode=True), dict(COIL.nets))
    circuit = low(Output(1.0, 0.5, shuts_down=True), relay)
    assert run(circuit, {"A1": "on"}).states["A1"] == "on"
    assert run(circuit, {"A1": "on"}, Fault("K1", "short:diode")).states["A1"] == "shut down"


def told(circuit: Circuit, position: str) -> list[str]:
    found = troubles(run(circuit, {"A1": position}))
    return [t.sentence for t in found if t.code == "odd_state"]


def test_a_shut_down_is_told_and_a_sound_output_is_not() -> None:
    guarded = Output(10.0, shuts_down=True)
    (sentence,) = told(high(guarded, LAMP, SHORT), "on")
    assert "A1" in sentence and "has shut down" in sentence and sentence.endswith("switched off.")
    assert told(high(guarded, LAMP, SHORT), "off") == told(high(guarded, LAMP), "on") == []
