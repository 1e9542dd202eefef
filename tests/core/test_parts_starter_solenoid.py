"""Starter solenoid: pulls with two windings, holds with one, and tells each fault by what it does."""

from __future__ import annotations

import pytest

from footwell.circuit.fault import Fault
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.problems import troubles
from footwell.parts.battery import Battery
from footwell.parts.starter_solenoid import StarterSolenoid
from footwell.parts.switch import Switch
from footwell.reference.starters import WINDINGS

from .electrics_rig import EARTH, Part, circuit_of, run
from .parts_rig import resistor, shown

START = Switch(("1", "2"), {"off": (), "on": (("1", "2"),)}, momentary=True)
KEY = {"S1": "on"}


def starter(
    *faults: Fault,
    key: str = "on",
    battery_ohms: float = 0.006,
    control_ohms: float = 0.001,
    motor_ohms: float = 0.06,
) -> OperatingPoint:
    """A starter that cranks an engine, which asks for its torque at any speed: as good as a
    resistance. Others lie in the battery and in the wire to 50."""
    parts = [
        Part("G1", "battery", Battery(12.5, battery_ohms), {"+": "plus", "-": EARTH}),
        Part("S1", "switch", START, {"1": "plus", "2": "key"}),
        resistor("R", "key", "50", control_ohms),
        Part(
            "K1",
            "starter_solenoid",
            StarterSolenoid(),
            {"50": "50", "30": "plus", "45": "45", "31": EARTH},
        ),
        resistor("M1", "45", EARTH, motor_ohms),
    ]
    circuit = circuit_of(parts, {"S1": ("off", "on")}, joint_mm2=70.0)
    return run(circuit, {"S1": key}, *faults)


def test_key_pulls_it_in_and_the_starter_turns() -> None:
    on, off = starter(), starter(key="off")
    assert on.states["K1"] == "pulled" and on.amps("M1") > 100.0 and on.chatters == ()
    assert off.states["K1"] == "rest" and off.amps("M1") < 0.01


def test_pull_winding_is_idle_once_the_contact_has_closed_and_the_hold_winding_works_on() -> None:
    # Some 10 A hold at 12 V: starters' data, from memory, low.
    assert WINDINGS[12].hold_ohms.source.confidence == "low"
    point = starter()
    assert abs(point.amps("K1", "pull")) < 2.0
    assert point.amps("K1", "hold") == pytest.approx(10.0, abs=2.0)


def test_the_two_windings_in_series_cancel_so_that_it_lets_go() -> None:
    # Contact closed by hand, key off: 45 feeds back through the pull winding into the hold winding.
    point = starter(key="off")
    held = operate(point.circuit, point.setup, held={"K1": "pulled"})
    felt = held.felt("K1")
    assert felt.flows["pull"].amps == pytest.approx(-felt.flows["hold"].amps, rel=1e-6)
    kind, values = held.circuit.elements["K1"].kind, held.circuit.elements["K1"].values
    assert kind.moves is not None and kind.moves(values, felt, held.circuit.context) == "rest"


def sentences(point: OperatingPoint) -> list[str]:
    return [t.sentence for t in troubles(point) if t.code == "relay_chatters"]


def test_open_hold_winding_makes_it_chatter_and_a_sound_one_does_not() -> None:
    point = starter(Fault("K1", "open:hold"))
    assert point.chatters == ("K1",)
    assert "Look at the hold winding" in sentences(point)[0]
    assert sentences(starter()) == []


def test_a_battery_that_gives_way_makes_it_chatter() -> None:
    # At the first moment the starter stands still and takes several times its cranking current.
    assert starter(battery_ohms=0.08, motor_ohms=0.02).chatters == ("K1",)
    assert starter(battery_ohms=0.008, motor_ohms=0.02).chatters == ()


def test_open_pull_winding_leaves_it_at_rest() -> None:
    point = starter(Fault("K1", "open:pull"))
    assert point.states["K1"] == "rest" and shown(point, "K1") == 0.0
    assert point.amps("K1", "hold") > 8.0


@pytest.mark.parametrize(("ohms", "state"), [(0.01, "pulled"), (0.3, "rest")])
def test_poor_control_wire_leaves_it_at_rest(ohms: float, state: str) -> None:
    assert starter(control_ohms=ohms).states["K1"] == state


def test_lost_earth_of_the_motor_takes_the_pull_windings_earth_too() -> None:
    assert starter(motor_ohms=1000.0).states["K1"] == "rest"


def test_burnt_contact_clicks_and_turns_nothing() -> None:
    point = starter(Fault("K1", "stuck_open"))
    # The pull winding stays fed, so it stays pulled in.
    assert shown(point, "K1") == 1.0 and point.amps("M1") < 50.0
    assert point.at("K1.45") < 3.0 and starter().at("K1.45") > 10.0


def test_sticking_plunger_takes_its_current_and_does_not_click() -> None:
    point = starter(Fault("K1", "sticking"))
    assert shown(point, "K1") == 0.0 and point.amps("M1") < 50.0
    assert point.amps("K1", "idle pull") > 20.0


def test_welded_contact_turns_the_starter_with_the_key_off() -> None:
    assert starter(Fault("K1", "stuck_closed"), key="off").amps("M1") > 100.0


def test_shorted_hold_winding_draws_many_times_its_current() -> None:
    assert starter(Fault("K1", "short:hold")).amps("K1", "shorted winding") > 100.0
