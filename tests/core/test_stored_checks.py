"""Checks, set-ups and wirings as stored: each held against the circuit, or refused in words."""

from __future__ import annotations

from functools import cache

import pytest

from footwell.checks.check import Check
from footwell.circuit.circuit import Circuit, HalfId, build
from footwell.circuit.setup import set_up
from footwell.faults.miswiring import Wiring
from footwell.job import stored
from footwell.sheet.reading import read_data

from .job_rig import MINIBUS, MIRRORED, sheet

X2: HalfId = ("X2", "a")
LONG = "N" * 60
CUT = "N" * 40


@cache
def circuit() -> Circuit:
    read = read_data(sheet(MINIBUS))
    return build(read.sheet, read.values, ())


def fitted(instrument: str, red: str, black: str = "", **lamps: str) -> Check:
    setup = stored.setup_of(circuit(), {"S1": "1"}, (), lamps, "running")
    return stored.fitting(circuit(), instrument, red, black, setup)


def why_not(instrument: str, red: str, black: str = "", **lamps: str) -> str:
    with pytest.raises(stored.NotOnSheet) as refused:
        fitted(instrument, red, black, **lamps)
    assert refused.value.code == "not_on_sheet"
    return refused.value.sentence


def test_ohms_fit_between_the_lines_of_a_bus_in_the_loom_and_not_between_ways_of_no_part() -> None:
    read = read_data(sheet("van-data-bus"))
    bus = build(read.sheet, read.values, ())
    assert stored.fitting(bus, "ohms", "X2.1.a", "X2.2.a", set_up(bus)).black == "X2.2.a"
    with pytest.raises(stored.NotOnSheet, match="belongs to no part"):
        stored.fitting(bus, "ohms", "X2.4.a", "X2.5.a", set_up(bus))


@pytest.mark.parametrize(
    ("instrument", "red", "black", "held", "engine"),
    [
        ("volts", "F1.2", "", "earth", "running"),
        ("volts", "F1.2", "F1.1", "F1.1", "running"),
        ("test lamp", "F1.2", "G1.+", "G1.+", "running"),
        ("ohms", "F1.1", "F1.2", "F1.2", "off"),
        ("ohms", "X4.1.a", "X4.2.a", "X4.2.a", "off"),
        ("clamp", "W3", "", "", "running"),
        ("look", "F1", "W3", "", "off"),
        ("look", "X4.1", "", "", "off"),
        ("direct feed", "M1", "", "", "off"),
        ("watch", "M1", "", "", "running"),
        ("lamp for fuse", "F1", "", "", "off"),
    ],
)
def test_a_check_of_places_on_the_sheet_fits_and_the_engine_stands_for_what_is_done_by_hand(
    instrument: str, red: str, black: str, held: str, engine: str
) -> None:
    setup = set_up(circuit(), {"S1": "1"}, engine=engine)
    assert fitted(instrument, red, black) == Check(instrument, red, held, setup)


def test_a_lamp_fits_where_its_watts_are_told_and_the_plug_is_apart_for_it() -> None:
    check = fitted("substitute lamp", "X4", X4="21 W")
    assert (check.red, check.setup.stand_in, check.setup.apart) == ("X4", (("X4", 21.0),), ("X4",))


@pytest.mark.parametrize(
    ("instrument", "red", "black", "said"),
    [
        ("volts", LONG, "", f"{CUT} is not a place on this sheet. Choose one in the diagram."),
        ("volts", "", "", "nothing is not a place on this sheet. Choose one in the diagram."),
        ("volts", "F1.2", "Z", "Z is not a place on this sheet. Choose one in the diagram."),
        (
            *("volts", "F1.2", "F1.2"),
            "Both leads would lie on one and the same metal. Choose two places.",
        ),
        (
            *("ohms", "X1.1.a", "F1.1"),
            "X1.1.a belongs to no part, so there is nothing to measure in ohms.",
        ),
        (
            *("ohms", "earth", "F1.1"),
            "earth belongs to no part, so there is nothing to measure in ohms.",
        ),
        ("substitute lamp", "X4", "", "A substitute lamp needs a load's plug and its watts."),
        ("direct feed", "F1", "", "F1 is not a load on this sheet."),
        ("watch", "F1", "", "F1 is not a load on this sheet."),
        ("nose", "F1", "", "The instrument nose is not known to this release of Footwell."),
        (LONG, "F1", "", f"The instrument {CUT} is not known to this release of Footwell."),
        ("clamp", "F1", "", "F1 is not a wire on this sheet."),
        ("look", "M1", "", "M1 is not a fuse, a contact, a wire or a splice on this sheet."),
        ("listen", "M1", "", "M1 is not a relay or magnet on this sheet."),
        ("lamp for fuse", "X4.1", "", "X4.1 is not a fuse on this sheet."),
        ("clamp", LONG, "", f"{CUT} is not a wire on this sheet."),
    ],
)
def test_a_check_of_what_the_sheet_does_not_have_is_refused_in_words(
    instrument: str, red: str, black: str, said: str
) -> None:
    assert why_not(instrument, red, black) == said


@pytest.mark.parametrize(("text", "watts"), [("21 W", 21), ("0.5 W", 0.5), ("200 W", 200)])
def test_a_lamp_of_watts_that_there_are_fits(text: str, watts: float) -> None:
    setup = stored.setup_of(circuit(), {}, (), {"X4": text}, "off")
    assert setup.stand_in == (("X4", watts),)


@pytest.mark.parametrize(
    "text",
    ["0 W", "200.1 W", "201 W", "21", "21 w", "-5 W", "nan W", "1e2 W", " 21 W", "21 W ", ""],
)
def test_a_lamp_of_other_watts_is_refused(text: str) -> None:
    said = why_not("substitute lamp", "X4", X4=text)
    assert said == "The lamp on X4 needs its watts, such as “21 W”."


@pytest.mark.parametrize("plug", ["X1", "M1", "X9"])
def test_a_lamp_on_what_is_no_load_s_plug_is_refused(plug: str) -> None:
    said = why_not("volts", "F1.2", **{plug: "21 W"})
    assert said == f"{plug} is no fuse and not the plug of a load, so no lamp fits there."


@pytest.mark.parametrize(
    ("controls", "apart", "said"),
    [
        ({"S1": "9"}, (), "S1 has no position 9 on this sheet."),
        ({"S9": "1"}, (), "S9 has no position 1 on this sheet."),
        ({}, ("X9",), "X9 is not on this sheet, so it cannot be taken apart."),
    ],
)
def test_a_set_up_of_what_the_sheet_does_not_have_is_refused(
    controls: dict[str, str], apart: tuple[str, ...], said: str
) -> None:
    with pytest.raises(stored.NotOnSheet) as refused:
        stored.setup_of(circuit(), controls, apart, {}, "off")
    assert refused.value.sentence == said


def test_connectors_and_parts_may_be_apart_and_controls_left_out_are_at_rest() -> None:
    setup = stored.setup_of(circuit(), {}, ("X4", "F1"), {}, "running")
    assert setup == set_up(circuit(), {"S1": "0"}, ("F1", "X4"), engine="running")
    check = stored.fitting(circuit(), "volts", "G1.+", "", setup)
    assert check.setup == setup._replace(engine="off"), "stopped before a plug is off"


def found(**ways: str | None) -> Wiring:
    return stored.wiring_of(circuit(), X2, {way[1:]: wire for way, wire in ways.items()})


def test_ways_nobody_spoke_of_hold_what_they_should() -> None:
    assert found() == {"1": "W2", "2": "W3", "3": "W4", "4": "W5", "5": None, "6": None}
    assert found(_1=None)["1"] is None
    assert stored.wiring_of(circuit(), X2, MIRRORED) == MIRRORED


def test_a_wire_found_in_another_way_has_left_its_own() -> None:
    moved = {"1": "W2+W3", "2": None, "3": "W4", "4": None, "5": "W5", "6": "spare GN/BK"}
    assert found(_1="W2+W3", _5="W5", _6="spare GN/BK") == moved


@pytest.mark.parametrize(
    ("half", "ways", "said"),
    [
        ((LONG, "a"), {}, f"{CUT} is not a connector on this sheet."),
        (("", "a"), {}, "nothing is not a connector on this sheet."),
        (X2, {"7": "W2"}, "X2 has no way 7 on this sheet."),
        (X2, {"1": "W6"}, "Wire W6 cannot sit there: each wire of this half of X2 once."),
        (
            X2,
            {"1": "W3", "2": "W3"},
            "Wire W3 cannot sit there: each wire of this half of X2 once.",
        ),
        (
            X2,
            {"1": "sparered"},
            "Wire sparered cannot sit there: each wire of this half of X2 once.",
        ),
    ],
)
def test_a_wiring_that_cannot_be_is_refused(
    half: HalfId, ways: dict[str, str | None], said: str
) -> None:
    with pytest.raises(stored.NotOnSheet) as refused:
        stored.wiring_of(circuit(), half, ways)
    assert refused.value.sentence == said
