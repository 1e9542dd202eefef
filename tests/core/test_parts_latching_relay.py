"""Latching relay: pulses move it, without current it stays, and both of its states are possible."""

from __future__ import annotations

import pytest

from footwell.circuit.fault import Fault
from footwell.electrics.operating_point import OperatingPoint
from footwell.electrics.problems import troubles
from footwell.parts.lamp import Lamp
from footwell.parts.latching_relay import LatchingRelay
from footwell.parts.relay import Relay
from footwell.parts.switch import Switch
from footwell.reference.relays import LATCHING_COIL_OHMS, pull_in_volts

from .electrics_rig import EARTH, Part, circuit_of, run
from .parts_rig import battery

PUSH = Switch(("1", "2"), {"off": (), "on": (("1", "2"),)}, momentary=True)
ON_OFF = ("off", "on")


def push(name: str, net: str) -> Part:
    return Part(name, "switch", PUSH, {"1": "plus", "2": net})


def two_coils(
    *faults: Fault, found: str = "reset", on: str = "off", off: str = "off", volts: float = 12.5
) -> OperatingPoint:
    """A lamp behind a relay with a push to set it and a push to reset it."""
    nets = {"30": "plus", "87": "lamp", "86a": "setting", "86b": "resetting", "85": EARTH}
    parts = [
        battery(volts),
        push("ON", "setting"),
        push("OFF", "resetting"),
        Part("K1", "latching_relay", LatchingRelay(), nets),
        Part("L1", "lamp", Lamp(21.0), {"1": "lamp", "2": EARTH}),
    ]
    positions = {"K1": ("reset", "set"), "ON": ON_OFF, "OFF": ON_OFF}
    circuit = circuit_of(parts, positions)
    return run(circuit, {"K1": found, "ON": on, "OFF": off}, *faults)


@pytest.mark.parametrize("found", ["reset", "set"])
def test_without_a_pulse_it_stays_as_it_was_found(found: str) -> None:
    point = two_coils(found=found)
    assert point.states["K1"] == found
    assert (point.amps("L1") > 1.0) == (found == "set")


@pytest.mark.parametrize("found", ["reset", "set"])
@pytest.mark.parametrize(("on", "off", "then"), [("on", "off", "set"), ("off", "on", "reset")])
def test_a_pulse_moves_it_wherever_it_was(found: str, on: str, off: str, then: str) -> None:
    assert two_coils(found=found, on=on, off=off).states["K1"] == then


@pytest.mark.parametrize("found", ["reset", "set"])
def test_with_both_coils_fed_it_stays(found: str) -> None:
    assert two_coils(found=found, on="on", off="on").states["K1"] == found


@pytest.mark.parametrize(("beyond", "state"), [(-0.1, "reset"), (0.1, "set")])
def test_a_pulse_below_pull_in_moves_nothing(beyond: float, state: str) -> None:
    volts = pull_in_volts(12).mean + beyond
    assert two_coils(on="on", volts=volts).states["K1"] == state


def test_an_open_setting_coil_leaves_it_reset_and_the_other_still_works() -> None:
    dead = Fault("K1", "open:set")
    assert two_coils(dead, on="on").states["K1"] == "reset"
    assert two_coils(dead, found="set", off="on").states["K1"] == "reset"


def test_coil_takes_some_watts_for_the_length_of_the_pulse_and_nothing_after() -> None:
    # 4 to 6 W at 12 V: data sheets of bistable relays, from memory.
    assert two_coils(on="on").amps("K1", "set") * 12.5 == pytest.approx(5.0, abs=1.0)
    assert two_coils(found="set").amps("K1", "set") == 0.0
    assert LATCHING_COIL_OHMS[12].source.standing == "memory"


def test_a_welded_contact_feeds_the_lamp_though_reset() -> None:
    assert two_coils(Fault("K1", "stuck_closed"), off="on").amps("L1") > 1.0
    assert two_coils(Fault("K1", "stuck_open"), on="on").amps("L1") == 0.0


@pytest.mark.parametrize(("plus", "state"), [("86", "set"), ("85", "reset")])
def test_one_coil_is_reset_by_a_pulse_the_other_way_round(plus: str, state: str) -> None:
    minus = {"86": "85", "85": "86"}[plus]
    nets = {"30": "plus", "87": "out", plus: "plus", minus: EARTH}
    parts = [battery(), Part("K1", "latching_relay", LatchingRelay(coils=1), nets)]
    circuit = circuit_of(parts, {"K1": ("reset", "set")})
    assert run(circuit, {"K1": "set"}).states["K1"] == state


def told(point: OperatingPoint) -> list[str]:
    return [t.sentence for t in troubles(point) if t.code == "another_rest"]


def test_that_the_other_state_is_possible_too_is_told_only_without_a_pulse() -> None:
    [sentence] = told(two_coils())
    assert '"set" it would stay there as well' in sentence
    assert told(two_coils(on="on")) == []


def test_a_relay_that_holds_itself_has_another_rest_and_one_that_does_not_has_none() -> None:
    def relay(coil: str) -> OperatingPoint:
        parts = [
            battery(),
            Part("K1", "relay", Relay(85.0), {"30": "plus", "87": "held", "86": coil, "85": EARTH}),
            push("ON", coil),
        ]
        return run(circuit_of(parts, {"ON": ON_OFF}))

    [sentence] = told(relay("held"))
    assert sentence.startswith('Part K1 is taken as in "rest"')
    assert told(relay("coil")) == []
