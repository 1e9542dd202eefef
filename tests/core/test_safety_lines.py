"""The whole line of a sensor or an input is protected, whatever the sheet's author wrote at its places;
the line of a lamp beside it is not."""

from __future__ import annotations

import pytest

from footwell.checks.catalogue import Tools, catalogue
from footwell.checks.check import FUSE_LAMP, LAMP, OHMS, VOLTS, Check
from footwell.checks.safety import refusal
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import set_up

from .sensor_rig import plugged_sheet
from .sensor_sheets import PARTS, SHARED, SHARED_WIRES, WIRES

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
