"""What switches by itself: relays that pull in, hold, drop out or chatter, and fuses that open."""

from __future__ import annotations

from typing import Any

import pytest

from footwell.circuit.fault import Fault
from footwell.parts.battery import Battery
from footwell.parts.fuse import Fuse
from footwell.parts.heater import Heater
from footwell.parts.lamp import Lamp
from footwell.parts.output import Output
from footwell.parts.relay import Relay
from footwell.parts.resistor import Resistor
from footwell.parts.switch import Switch
from footwell.reference.relays import drop_out_volts, pull_in_volts

from .electrics_rig import EARTH, Part, circuit_of, run

COIL_OHMS = 85.0


def battery(volts: float = 12.5) -> Part:
    return Part("G1", "battery", Battery(volts, 0.005), {"+": "plus", "-": EARTH})


def resistor(name: str, a: str, b: str, ohms: float) -> Part:
    return Part(name, "resistor", Resistor(ohms), {"1": a, "2": b})


def lamp(name: str, a: str, b: str = EARTH) -> Part:
    return Part(name, "lamp", Lamp(21.0, 12.0), {"1": a, "2": b})


def fuse(name: str, a: str, b: str, amps: float) -> Part:
    return Part(name, "fuse", Fuse(amps), {"1": a, "2": b})


def relay(name: str, plus: str, minus: str = EARTH, diode: bool = False, **contacts: str) -> Part:
    """A relay by the nets of its coil; contacts as make=, feed= and rest=."""
    ends = {"feed": "30", "make": "87", "rest": "87a"}
    nets = {ends[name]: net for name, net in contacts.items()} | {"86": plus, "85": minus}
    values = Relay(COIL_OHMS, changeover="rest" in contacts, diode=diode)
    return Part(name, "relay", values, {"30": f"{name}f", "87": f"{name}m"} | nets)


def switch(name: str, a: str, b: str) -> Part:
    values = Switch(("1", "2"), {"off": (), "on": (("1", "2"),)})
    return Part(name, "switch", values, {"1": a, "2": b})


ON_OFF = ["off", "on"]


def test_relay_follows_its_coil_and_feeds_the_lamp_through_its_contact() -> None:
    parts = [
        battery(),
        switch("S1", "plus", "coil"),
        relay("K1", "coil", feed="plus", make="out"),
        lamp("L1", "out"),
    ]
    circuit = circuit_of(parts, {"S1": ON_OFF})
    off, on = run(circuit, {"S1": "off"}), run(circuit, {"S1": "on"})
    assert off.states["K1"] == "rest" and off.amps("L1") == 0.0
    assert on.states["K1"] == "pulled" and on.amps("L1") == pytest.approx(1.78, abs=0.03)
    assert on.amps("K1", "coil") == pytest.approx(12.5 / COIL_OHMS, rel=0.01)


@pytest.mark.parametrize(("beyond", "state"), [(-0.01, "rest"), (0.01, "pulled")])
def test_relay_pulls_in_at_its_pull_in_voltage(beyond: float, state: str) -> None:
    volts = pull_in_volts(12).mean + beyond
    parts = [battery(volts * 1.0001), relay("K1", "plus")]
    assert run(circuit_of(parts)).states["K1"] == state


@pytest.mark.parametrize(("beyond", "chatters"), [(0.05, ()), (-0.05, ("K1",))])
def test_relay_holds_down_to_its_drop_out_voltage_and_below_it_chatters(
    beyond: float, chatters: tuple[str, ...]
) -> None:
    # The coil is fed straight through the break contact, and through a resistor once that opens.
    share = (drop_out_volts(12).mean + beyond) / 12.5
    held = COIL_OHMS * (1.0 / share - 1.0)
    parts = [
        battery(),
        relay("K1", "coil", feed="plus", rest="coil"),
        resistor("R1", "plus", "coil", held),
    ]
    assert run(circuit_of(parts)).chatters == chatters


def test_relay_that_its_own_break_contact_feeds_is_said_to_chatter() -> None:
    point = run(circuit_of([battery(), relay("K1", "coil", feed="plus", rest="coil")]))
    assert point.chatters == ("K1",) and point.settled


def test_only_the_relay_that_chatters_is_named() -> None:
    parts = [
        battery(),
        relay("K1", "coil", feed="plus", rest="coil"),
        relay("K2", "plus", feed="plus", make="out"),
        lamp("L1", "out"),
    ]
    point = run(circuit_of(parts))
    assert point.chatters == ("K1",) and point.states["K2"] == "pulled"


def test_relay_that_holds_itself_stays_at_rest_from_switch_off() -> None:
    # Two states are possible; without a start button the one reached from switch-off is rest.
    parts = [battery(), relay("K1", "coil", feed="plus", make="coil"), switch("S1", "plus", "coil")]
    circuit = circuit_of(parts, {"S1": ON_OFF})
    assert run(circuit, {"S1": "off"}).states["K1"] == "rest"
    assert run(circuit, {"S1": "on"}).states["K1"] == "pulled"


def test_relays_in_a_row_pull_one_after_the_other() -> None:
    row = [relay(f"K{n}", f"c{n}", feed="plus", make=f"c{n + 1}") for n in range(5)]
    parts = [battery(), switch("S1", "plus", "c0"), *row, lamp("L1", "c5")]
    point = run(circuit_of(parts, {"S1": ON_OFF}), {"S1": "on"})
    assert [point.states[f"K{n}"] for n in range(5)] == ["pulled"] * 5
    assert point.amps("L1") > 1.7 and point.chatters == ()


def test_fuse_behind_a_chattering_relay_still_opens_and_the_chatter_goes_on() -> None:
    parts = [
        battery(),
        relay("K1", "coil", feed="plus", rest="coil"),
        fuse("F1", "plus", "short", 10.0),
        resistor("R1", "short", EARTH, 0.01),
    ]
    point = run(circuit_of(parts))
    assert point.blown == ("F1",) and point.chatters == ("K1",)


def test_chatter_ends_with_the_fuse_that_fed_it() -> None:
    parts = [
        battery(),
        fuse("F1", "plus", "fused", 10.0),
        relay("K1", "coil", feed="fused", rest="coil"),
        resistor("R1", "fused", EARTH, 0.05),
    ]
    point = run(circuit_of(parts))
    assert point.blown == ("F1",) and point.chatters == () and point.states["K1"] == "rest"


@pytest.mark.parametrize("fault", ["open:coil", "stuck_open"])
def test_relay_with_an_open_coil_or_a_dead_contact_feeds_nothing(fault: str) -> None:
    parts = [battery(), relay("K1", "plus", feed="plus", make="out"), lamp("L1", "out")]
    assert abs(run(circuit_of(parts), None, Fault("K1", fault)).amps("L1")) < 1e-6


def test_welded_relay_feeds_without_its_coil() -> None:
    parts = [battery(), relay("K1", EARTH, feed="plus", make="out"), lamp("L1", "out")]
    assert run(circuit_of(parts), None, Fault("K1", "stuck_closed")).amps("L1") > 1.7


@pytest.mark.parametrize(
    ("ohms", "blows"),
    # ISO 8820-3: at 110 % a fuse carries for 100 h, at 350 % it opens within half a second.
    [(12.4 / 11.0, False), (12.3 / 35.0, True)],
)
def test_fuse_of_10_amps_carries_11_and_opens_at_35(ohms: float, blows: bool) -> None:
    parts = [
        battery(),
        fuse("F1", "plus", "out", 10.0),
        Part("H1", "heater", Heater(100.0, ohms=ohms), {"+": "out", "-": EARTH}),
    ]
    point = run(circuit_of(parts))
    assert (point.blown == ("F1",)) is blows
    assert (point.states["F1"] == "blown") is blows


def test_of_two_fuses_in_a_row_the_smaller_opens_and_the_greater_stays() -> None:
    parts = [
        battery(),
        fuse("F1", "plus", "mid", 30.0),
        fuse("F2", "mid", "out", 5.0),
        resistor("R1", "out", EARTH, 0.01),
    ]
    assert run(circuit_of(parts)).blown == ("F2",)


def test_dead_short_takes_its_own_fuse_and_leaves_the_other_circuit_alight() -> None:
    parts = [
        battery(),
        fuse("F1", "plus", "one", 10.0),
        fuse("F2", "plus", "two", 10.0),
        lamp("L1", "one"),
        lamp("L2", "two"),
        resistor("R1", "one", EARTH, 0.02),
    ]
    point = run(circuit_of(parts))
    assert point.blown == ("F1",)
    assert point.amps("L1") == 0.0 and point.amps("L2") > 1.7


def coil_circuit(feed: Any, plus: str, minus: str) -> list[Part]:
    """A relay with a diode across its coil, its coil fed by some part from "plus" to "coil"."""
    return [
        battery(),
        feed,
        relay("K1", plus, minus, diode=True, feed="plus", make="out"),
        lamp("L1", "out"),
    ]


# Common practice, no source: a coil diode conducts when 85 and 86 are exchanged.
def test_exchanged_coil_wires_blow_the_fuse_of_a_coil_with_a_diode() -> None:
    feed = fuse("F1", "plus", "coil", 5.0)
    right = run(circuit_of(coil_circuit(feed, "coil", EARTH)))
    wrong = run(circuit_of(coil_circuit(feed, EARTH, "coil")))
    assert right.blown == () and right.states["K1"] == "pulled"
    assert wrong.blown == ("F1",) and wrong.states["K1"] == "rest" and wrong.amps("L1") == 0.0


# Common practice, no source.
def test_exchanged_coil_wires_drive_an_output_to_its_limit_and_the_relay_stays_at_rest() -> None:
    feed = Part("A1", "output", Output(2.0, 0.1), {"supply": "plus", "out": "coil"})
    circuit = circuit_of(coil_circuit(feed, EARTH, "coil"), {"A1": ["on"]})
    point = run(circuit)
    assert point.amps("A1") == pytest.approx(2.0, rel=1e-3)
    assert point.amps("K1", "diode") == pytest.approx(2.0, abs=0.02)
    assert point.states["K1"] == "rest" and point.settled


def test_output_gets_its_current_through_its_own_supply_wire() -> None:
    feed = Part("A1", "output", Output(5.0, 0.1), {"supply": "unit", "out": "coil"})
    parts = [battery(), fuse("F3", "plus", "unit", 5.0), feed, lamp("L1", "coil")]
    circuit = circuit_of(parts, {"A1": ["on"]})
    assert run(circuit).amps("L1") > 1.7
    assert abs(run(circuit, None, Fault("F3", "open")).amps("L1")) < 1e-6
