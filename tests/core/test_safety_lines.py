"""The whole line of a sensor or an input is protected, whatever the sheet's author wrote at its places;
the line of a lamp beside it is not."""

from __future__ import annotations

import pytest

from footwell.checks.catalogue import catalogue
from footwell.checks.check import FEED, FUSE_LAMP, LAMP, OHMS, SUBSTITUTE, VOLTS, Check
from footwell.checks.hands import Tools
from footwell.checks.safety import refusal
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import set_up

from .sensor_rig import plugged_sheet
from .sensor_sheets import PARTS, SHARED, SHARED_WIRES, WIPER, WIPER_WIRES, WIRES

EVERYTHING = Tools(("clamp", "fused jumper", "meter", "substitute lamp", "test lamp"), helper=True)
LAMP_SIDE = ("XE1.1.a", "XS1.1.a", "XS1.2.a", "F1.2")
LINE_SIDE = ("XB1.1.a", "XA1.1.a", "XS2.1.a", "XS2.2.a")


def circuit() -> Circuit:
    return plugged_sheet(PARTS, WIRES)


def asked(instrument: str, red: str, black: str = "earth", apart: tuple[str, ...] = ()) -> str:
    made = circuit()
    return refusal(made, Check(instrument, red, black, set_up(made, {"S1": "1"}, apart)))


@pytest.mark.parametrize("place", LINE_SIDE)
def test_no_lamp_and_no_ohms_anywhere_on_the_sensors_line(place: str) -> None:
    assert "sensor, data or control unit line" in asked(LAMP, place)
    assert "No ohms on a sensor" in asked(OHMS, place)
    assert asked(VOLTS, place) == ""


@pytest.mark.parametrize("place", LAMP_SIDE)
def test_a_lamp_is_allowed_on_the_lamps_line_beside_it(place: str) -> None:
    assert asked(LAMP, place) == ""


def test_the_common_earth_and_the_common_fuse_are_no_sensor_line() -> None:
    for place in ("E9.1", "XB1.2.a", "XA1.3.a", "XE1.2.a", "XA1.2.a", "F1.1"):
        assert asked(LAMP, place) == "", place


def test_no_lamp_in_place_of_the_fuse_of_a_unit() -> None:
    assert "electronics" in asked(FUSE_LAMP, "F1", "", ("F1",))


def test_a_sensor_with_its_plug_off_is_measured_by_itself_and_the_harness_side_is_not() -> None:
    assert asked(OHMS, "XB1.1.b", "XB1.2.b", ("XB1",)) == ""
    assert "No ohms" in asked(OHMS, "XB1.1.a", "XB1.2.a", ("XB1",))
    assert "No ohms" in asked(OHMS, "XB1.1.b", "XB1.2.b", ("XE1",))
    assert "No ohms" in asked(OHMS, "XA1.1.b", "XA1.3.b", ("XA1",))
    assert "No lamp" in asked(LAMP, "XB1.1.b", "XB1.2.b", ("XB1",))


def test_the_catalogue_measures_the_sensor_alone_and_puts_lamps_on_the_lamps_side_only() -> None:
    checks = catalogue(circuit(), EVERYTHING)
    lamps = {c.red for c in checks if c.instrument == LAMP}
    assert lamps >= set(LAMP_SIDE)
    assert not lamps & set(LINE_SIDE)
    assert {
        (c.red, c.black) for c in checks if c.instrument == OHMS and "XB1" in c.setup.apart
    } == {("XB1.1.b", "XB1.2.b")}


@pytest.mark.parametrize(
    "place", ["XN1.2.a", "XB2.1.a", "XB2.2.a", "XB3.1.a", "XB3.2.a", "XB4.1.a"]
)
def test_the_shared_five_volts_and_every_line_of_its_sensors_are_protected(place: str) -> None:
    made = plugged_sheet(SHARED, SHARED_WIRES)
    for instrument in (LAMP, OHMS):
        assert "sensor, data" in refusal(made, Check(instrument, place, "earth", set_up(made)))
    assert refusal(made, Check(VOLTS, place, "earth", set_up(made))) == ""
    for beside in ("F1.2", "XN1.1.a", "XS1.1.a", "XE1.1.a", "XB3.3.a"):
        assert refusal(made, Check(LAMP, beside, "earth", set_up(made))) == "", beside


def test_a_hall_switch_is_never_measured_in_ohms_and_a_potentiometer_is_with_its_plug_off() -> None:
    checks = catalogue(plugged_sheet(SHARED, SHARED_WIRES), EVERYTHING)
    measured = {c.red.split(".")[0] for c in checks if c.instrument == OHMS}
    assert {"XB1", "XB2", "XB4"} <= measured
    assert not {"XB3", "XN1", "XA1", "XA2"} & measured


@pytest.mark.parametrize("place", ["XA1.1.a", "XE1.2.a", "XM2.2.a"])
def test_no_lamp_where_an_output_switches_to_earth_but_on_the_feed_of_its_load(place: str) -> None:
    made = plugged_sheet(WIPER, WIPER_WIRES)
    assert "electronic output" in refusal(made, Check(LAMP, place, "earth", set_up(made)))
    for beside in ("XE1.1.a", "XM2.1.a", "XM1.1.a", "XA1.2.a"):
        assert refusal(made, Check(LAMP, beside, "earth", set_up(made))) == "", beside


def watched(by_unit: bool) -> Circuit:
    """The lamp of the first sheet, with an input of the unit A2 on its feed, or on the sensor's line."""
    unit = {"id": "A2", "kind": "module_input", "values": {}, "plug": ["in", "+", "-"]}
    joins = [("XA2.2.a", "F1.2"), ("XA2.3.a", "E9.1")]
    lead = [("XE1.1.a" if by_unit else "XB1.1.a", "XA2.1.a")]
    return plugged_sheet([*PARTS, unit], [*WIRES, *joins, *lead])


@pytest.mark.parametrize("instrument", [LAMP, SUBSTITUTE, FEED])
def test_nothing_of_ones_own_on_a_lamp_whose_line_a_unit_watches(instrument: str) -> None:
    red = {LAMP: "XE1.1.a", SUBSTITUTE: "XE1", FEED: "E1"}[instrument]
    for by_unit, refused in ((True, True), (False, False)):
        made = watched(by_unit)
        sentence = refusal(made, Check(instrument, red, "", set_up(made, {"S1": "1"})))
        assert ("control unit line" in sentence) == refused, sentence


def test_no_lamp_in_place_of_a_fuse_in_a_sensors_line_and_one_beside_it_is_allowed() -> None:
    fuse = {"id": "F2", "kind": "fuse", "values": {"amps": 5}, "probe": ["1", "2"]}
    lamp_fuse = {"id": "F3", "kind": "fuse", "values": {"amps": 5}, "probe": ["1", "2"]}
    wires = [w for w in WIRES if w not in (("XS2.2.a", "XB1.1.a"), ("F1.2", "XS1.1.a"))]
    wires += [("XS2.2.a", "F2.1"), ("F2.2", "XB1.1.a"), ("F1.2", "F3.1"), ("F3.2", "XS1.1.a")]
    made = plugged_sheet([*PARTS, fuse, lamp_fuse], wires)
    for name, refused in (("F2", True), ("F3", False)):
        setup = set_up(made, {"S1": "1"}, (name,))
        assert bool(refusal(made, Check(FUSE_LAMP, name, "", setup))) == refused, name
