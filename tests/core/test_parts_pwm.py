"""Outputs that switch quickly: a meter shows the average, a filament the mean power, a motor the mean
voltage, an LED the mean light."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.checks.check import CLAMP, LAMP, LOAD, VOLTS, Check
from footwell.checks.glance import Panel
from footwell.checks.outlook import activities, outlook
from footwell.checks.phases import effective_volts, phases
from footwell.checks.predict import Reading, expected, likeliest
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.turns import NOTHING
from footwell.page.explain import average_lines
from footwell.page.words import condition
from footwell.parts.lamp import Lamp
from footwell.parts.led_lamp import LedLamp
from footwell.parts.motor import Motor
from footwell.parts.output import Output
from footwell.parts.resistor import Resistor
from footwell.reference.lamps import light_share

from .electrics_rig import EARTH, Part, circuit_of
from .sensor_rig import BATTERY

DUTIES = Output(20.0, 0.05, duties=(25.0, 50.0, 100.0))
POSITIONS = ["off", "25 %", "50 %", "100 %"]


def dimmed(kind: str, values: Any, output: Output = DUTIES) -> Circuit:
    """A load on an output with three duties."""
    ends = ("+", "-") if kind in ("motor", "led_lamp") else ("1", "2")
    load = Part("E1", kind, values, {ends[0]: "out", ends[1]: EARTH})
    part = Part("A1", "output", output, {"supply": "30", "out": "out"})
    return circuit_of([load, BATTERY, part], {"A1": POSITIONS})


RESISTOR = dimmed("resistor", Resistor(10.0))


def read(circuit: Circuit, instrument: str, position: str, *faults: Fault) -> Reading:
    setup = set_up(circuit, {"A1": position})
    wire = next(w.id for w in circuit.sheet.wires if w.start == "E1.1")
    red = "A1.out" if instrument == VOLTS else wire
    said = likeliest(expected(circuit, Check(instrument, red, "earth", setup), faults))
    assert isinstance(said, Reading)
    return said


def test_a_position_is_as_many_set_ups_as_it_switches_between() -> None:
    shares = [share for share, _ in phases(RESISTOR, set_up(RESISTOR, {"A1": "25 %"}))]
    assert shares == [0.75, 0.25]
    for steady in ("off", "100 %"):
        setup = set_up(RESISTOR, {"A1": steady})
        assert phases(RESISTOR, setup) == ((1.0, setup),)


@pytest.mark.parametrize(("position", "share"), [("25 %", 0.25), ("50 %", 0.5), ("100 %", 1.0)])
def test_a_meter_shows_the_average_voltage_and_a_clamp_the_average_current(
    position: str, share: float
) -> None:
    full = read(RESISTOR, VOLTS, "100 %").mean
    assert full > 12.3
    assert read(RESISTOR, VOLTS, position).mean == pytest.approx(share * full, abs=0.02)
    amps = abs(read(RESISTOR, CLAMP, position).mean)
    assert amps == pytest.approx(share * full / 10.0, rel=0.01)


def test_the_band_of_an_average_is_that_of_its_share_of_the_supply() -> None:
    half, full = read(RESISTOR, VOLTS, "50 %"), read(RESISTOR, VOLTS, "100 %")
    assert half.leans["supply", ""] == pytest.approx(0.5 * full.leans["supply", ""], rel=0.01)


def test_what_is_ranked_at_a_glance_is_what_is_predicted() -> None:
    check = Check(VOLTS, "A1.out", "earth", set_up(RESISTOR, {"A1": "25 %"}))
    (((_, mean, _),),) = Panel(RESISTOR, [(RESISTOR, (), NOTHING)], True).numbers(check)
    assert mean == pytest.approx(read(RESISTOR, VOLTS, "25 %").mean, abs=0.02)


def seen(circuit: Circuit, position: str, *faults: Fault) -> float:
    return activities(circuit, set_up(circuit, {"A1": position}), faults)["E1"]


def test_a_filament_shines_by_the_mean_power_and_an_led_by_the_mean_light() -> None:
    lamp, led = dimmed("lamp", Lamp(21.0)), dimmed("led_lamp", LedLamp(2.7))
    setup = set_up(lamp, {"A1": "25 %"})
    full = outlook(lamp, set_up(lamp, {"A1": "100 %"}), ()).volts[lamp.node_of["E1.1"]]
    shown = activities(lamp, setup, ())["E1"]
    assert shown == pytest.approx(light_share(full / 2.0, 13.5), rel=0.02)
    assert seen(led, "25 %") == pytest.approx(0.25 * seen(led, "100 %"), rel=0.01)
    assert shown < 0.5 * 0.25 * seen(lamp, "100 %")


def test_a_motor_runs_by_the_mean_voltage() -> None:
    fan = dimmed("motor", Motor(8.0))
    half, full = seen(fan, "50 %"), seen(fan, "100 %")
    assert 0.4 * full < half < 0.7 * full
    assert seen(fan, "off") == pytest.approx(0.0, abs=1e-6)


def test_a_test_lamp_shines_by_the_mean_power() -> None:
    def word(position: str) -> str:
        check = Check(LAMP, "A1.out", "earth", set_up(RESISTOR, {"A1": position}))
        words = expected(RESISTOR, check, ())
        assert isinstance(words, dict)
        return max(words, key=lambda w: words[w])

    assert [word(p) for p in ("off", "25 %", "100 %")] == ["dark", "dim", "bright"]


def test_an_output_stuck_on_reads_the_whole_supply_at_any_duty() -> None:
    stuck = Fault("A1", "stuck_closed")
    assert read(RESISTOR, VOLTS, "25 %", stuck).mean > 12.3
    assert read(RESISTOR, VOLTS, "25 %", Fault("A1", "open")).mean == pytest.approx(0.0, abs=0.01)
    assert read(RESISTOR, VOLTS, "off", stuck).mean > 12.3


def test_a_short_shuts_a_pulsing_output_down_too() -> None:
    guarded = Output(20.0, 0.05, shuts_down=True, duties=(25.0, 50.0, 100.0))
    short = dimmed("resistor", Resistor(0.02), guarded)
    assert read(short, VOLTS, "50 %").mean == pytest.approx(0.0, abs=0.01)
    sound = dimmed("resistor", Resistor(10.0), guarded)
    assert read(sound, VOLTS, "50 %").mean > 6.0


def test_words_of_a_load_are_judged_beside_what_is_usual_at_the_same_duty() -> None:
    lamp = dimmed("lamp", Lamp(21.0))
    for position in ("25 %", "100 %"):
        words = expected(lamp, Check(LOAD, "E1", "", set_up(lamp, {"A1": position})), ())
        assert isinstance(words, dict) and max(words, key=lambda w: words[w]) == "bright"


def test_the_set_up_says_that_readings_are_averages_only_where_they_are() -> None:
    assert "average of PWM" in condition(RESISTOR, set_up(RESISTOR, {"A1": "25 %"}))
    assert "PWM" not in condition(RESISTOR, set_up(RESISTOR, {"A1": "100 %"}))


def test_an_explanation_names_the_phases_that_the_meter_averages() -> None:
    check = Check(VOLTS, "A1.out", "earth", set_up(RESISTOR, {"A1": "25 %"}))
    (line,) = average_lines(RESISTOR, check, ())
    assert line.startswith("Average of PWM: 0 V for 75 % of the time, 12.5 V for 25 % of the time")
    steady = Check(VOLTS, "A1.out", "earth", set_up(RESISTOR, {"A1": "100 %"}))
    assert list(average_lines(RESISTOR, steady, ())) == []


@given(st.floats(0.01, 0.99), st.floats(0.1, 30.0))
def test_effective_voltage_lies_between_average_and_peak(share: float, volts: float) -> None:
    found = effective_volts([(share, volts), (1.0 - share, 0.0)])
    assert share * volts < found < volts
