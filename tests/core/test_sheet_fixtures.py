"""The circuits that come with Footwell: sound sheets of circuits that work.

Bounds are common practice, no source, where no other is named.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import product
from pathlib import Path

import pytest

from footwell.circuit.circuit import Circuit, build
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.reference.conductors import current_guide_amps
from footwell.reference.drops import drop_limit_volts
from footwell.reference.lamps import light_share, light_word
from footwell.sheet.models import Sheet
from footwell.sheet.reading import ReadSheet, read_sheet

FOLDER = Path(__file__).parents[2] / "fixtures/circuits"
NAMES = tuple(sorted(file.stem for file in FOLDER.glob("*.json")))
FEED_ALL = (
    "camper-split-charge",
    "caravan-13-pin-plug",
    "coupe-rear-cluster",
    "estate-charging",
    "estate-coolant-sensor",
    "hatchback-sensor-trio",
    "hatchback-standing-drain",
    "hatchback-starter",
    "pickup-pedal-sensor",
    "pickup-pedal-two-sensors",
    "taxi-inside-lamp",
    "trailer-rear-lamps",
    "truck-side-markers",
    "truck-starter",
    "van-data-bus",
)
"""Sheets whose main fuse feeds more than the sheet shows, or carries its load for seconds only."""

FOR_SECONDS = ("hatchback-starter", "truck-starter")
"""Sheets whose cables carry, for seconds, more than the guide for good."""
STEADY = [name for name in NAMES if name not in FOR_SECONDS]


def read(name: str) -> ReadSheet:
    return read_sheet(FOLDER.joinpath(f"{name}.json").read_text(encoding="utf-8"))


def circuit(name: str) -> Circuit:
    sheet = read(name)
    return build(sheet.sheet, sheet.values)


def all_positions(sheet: Sheet) -> Iterator[dict[str, str]]:
    lists = [[(c.part, position.id) for position in c.positions] for c in sheet.controls]
    return (dict(chosen) for chosen in product(*lists))


def points(built: Circuit, engine: str = "on") -> list[OperatingPoint]:
    return [
        operate(built, set_up(built, chosen, engine=engine))
        for chosen in all_positions(built.sheet)
    ]


def lit(point: OperatingPoint, lamp: str) -> str:
    nodes = point.circuit.elements[lamp].nodes
    return light_word(light_share(point.volts[nodes["1"]] - point.volts[nodes["2"]], 12))


@pytest.mark.parametrize("name", NAMES)
def test_a_sheet_is_read_and_bears_the_name_of_its_file(name: str) -> None:
    assert read(name).sheet.id == name


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("engine", ["off", "on"])
def test_the_healthy_circuit_settles_in_every_position(name: str, engine: str) -> None:
    for point in points(circuit(name), engine):
        assert point.settled
        assert not point.blown
        assert not point.chatters


@pytest.mark.parametrize("name", STEADY)
def test_nothing_is_loaded_beyond_its_rating_in_any_position(name: str) -> None:
    for point in points(circuit(name)):
        for slot in point.slots:
            amps = abs(slot.branch.law.at(point.across(slot))[0])
            assert amps <= (slot.branch.rating_amps or float("inf")), (slot.element, amps)


@pytest.mark.parametrize("name", [name for name in NAMES if name not in FEED_ALL])
def test_the_main_fuse_is_loaded_with_half_to_four_fifths_of_its_rating(name: str) -> None:
    built = circuit(name)
    most = max(abs(point.amps("F1")) for point in points(built))
    assert 0.5 <= most / built.values["F1"].amps <= 0.8


@pytest.mark.parametrize("name", STEADY)
def test_wires_carry_well_below_the_guide_for_one_wire_in_free_air(name: str) -> None:
    # A wire in a loom carries less than in free air; three fifths leave room for that.
    built = circuit(name)
    for point in points(built):
        for wire in built.sheet.wires:
            if wire.mm2 is not None:
                assert abs(point.amps(wire.id)) <= 0.6 * current_guide_amps(wire.mm2), wire.id


@pytest.mark.parametrize(
    ("name", "controls", "feeds", "earths"),
    [
        ("minibus-saloon-fan", {"S1": "3"}, ["M1.+"], ["M1.-"]),
        (
            "tractor-work-lamps",
            {"A1": "on", "S2": "on"},
            ["L1.1", "L2.1", "H1.1"],
            ["L1.2", "L2.2", "H1.2"],
        ),
        ("van-rear-screen", {"S0": "on", "S1": "on"}, ["H1.+"], ["H1.-"]),
        ("pickup-cabin-fan", {"S1": "4"}, ["M1.+"], []),
        ("hatchback-radiator-fan", {"S1": "hot", "S2": "on"}, ["M1.+"], ["M1.-"]),
        (
            "trailer-rear-lamps",
            {"S1": "on", "S2": "down", "S3": "on"},
            ["L1.1", "L2.1", "L3.1"],
            ["L1.2", "L2.2", "L3.2"],
        ),
    ],
)
def test_feed_and_earth_lose_no_more_than_the_trade_allows(
    name: str, controls: dict[str, str], feeds: list[str], earths: list[str]
) -> None:
    # Limits of the trade, reference.drops: 0.5 V (12 V) in the whole feed, 0.2 V in an earth without
    # a switch in it.
    built = circuit(name)
    point = operate(built, set_up(built, controls, engine="on"))
    volts = built.sheet.system_volts
    for feed in feeds:
        assert point.at("G1.+") - point.at(feed) <= drop_limit_volts("feed, whole", volts)
    for earth in earths:
        assert point.at(earth) <= drop_limit_volts("earth, motors", volts)


def test_the_minibus_fan_runs_faster_from_step_to_step() -> None:
    built = circuit("minibus-saloon-fan")
    amps = [operate(built, set_up(built, {"S1": p}, engine="on")).amps("M1") for p in "0123"]
    assert amps == sorted(amps)
    assert amps[0] == pytest.approx(0, abs=1e-6)
    assert amps[3] == pytest.approx(8, rel=0.1)


def test_the_tractor_lamps_follow_button_and_switch() -> None:
    built = circuit("tractor-work-lamps")
    seen = {
        (button, switch): tuple(
            lit(operate(built, set_up(built, {"A1": button, "S2": switch})), lamp)
            for lamp in built.sheet.loads
        )
        for button in ("off", "on")
        for switch in ("off", "on")
    }
    assert seen == {
        ("off", "off"): ("dark", "dark", "dark"),
        ("off", "on"): ("dark", "dark", "dark"),
        ("on", "off"): ("normal", "dark", "dark"),
        ("on", "on"): ("normal", "normal", "normal"),
    }


@pytest.mark.parametrize("engine", ["off", "on"])
def test_with_the_shared_earth_open_the_left_lamp_glows_through_the_right_one(engine: str) -> None:
    built = circuit("tractor-work-lamps")
    setup = set_up(built, {"A1": "on", "S2": "off"}, engine=engine)
    point = operate(built, setup, (Fault("E1", "open"),))
    assert (lit(point, "L1"), lit(point, "L2")) == ("glow", "glow")
    # One current through all three, backwards through the right lamp.
    assert point.amps("L1") == pytest.approx(-point.amps("L2"), rel=1e-6)
    assert point.amps("L1") == pytest.approx(point.amps("H1"), rel=1e-6)


def test_the_van_screen_heats_with_ignition_and_switch_on_and_not_otherwise() -> None:
    built = circuit("van-rear-screen")
    for chosen in all_positions(built.sheet):
        point = operate(built, set_up(built, chosen, engine="on"))
        works = set(chosen.values()) == {"on"}
        watts = point.amps("H1") * (point.at("H1.+") - point.at("H1.-"))
        # 180 W at 13.5 V.
        assert watts == pytest.approx(180, rel=0.05) if works else watts < 1e-6


# Facts of the two stepped-resistor fans: common practice, no source.


def test_with_the_resistor_on_the_earth_side_the_feed_stands_and_the_other_side_sinks() -> None:
    built = circuit("pickup-cabin-fan")
    found = [operate(built, set_up(built, {"S1": p}, engine="on")) for p in "1234"]
    assert all(point.at("M1.+") > point.at("G1.+") - 0.5 for point in found)
    others = [point.at("M1.-") for point in found]
    assert others == sorted(others, reverse=True)
    assert others[0] > 6.0
    assert others[3] < 0.3


def test_with_the_resistor_on_the_supply_side_the_earth_stands_and_the_feed_rises() -> None:
    built = circuit("minibus-saloon-fan")
    found = [operate(built, set_up(built, {"S1": p}, engine="on")) for p in "123"]
    assert all(point.at("M1.-") < 0.3 for point in found)
    feeds = [point.at("M1.+") for point in found]
    assert feeds == sorted(feeds)
    assert feeds[0] < 0.6 * found[0].at("G1.+")
    assert feeds[2] > found[2].at("G1.+") - 0.7


def test_the_radiator_fan_follows_the_coolant_through_two_relays() -> None:
    built = circuit("hatchback-radiator-fan")
    amps = {
        (ignition, heat): operate(built, set_up(built, {"S1": heat, "S2": ignition})).amps("M1")
        for ignition in ("off", "on")
        for heat in ("cold", "warm", "hot")
    }
    assert all(amps["off", heat] == pytest.approx(0, abs=1e-6) for heat in ("cold", "warm", "hot"))
    assert amps["on", "cold"] == pytest.approx(0, abs=1e-6)
    assert 0.3 * amps["on", "hot"] < amps["on", "warm"] < 0.85 * amps["on", "hot"]


def test_either_window_switch_turns_the_motor_either_way_and_both_at_once_hold_it() -> None:
    built = circuit("camper-side-window")

    def amps(driver: str, passenger: str) -> float:
        return operate(built, set_up(built, {"S1": driver, "S2": passenger})).amps("M1")

    assert amps("up", "rest") == pytest.approx(-amps("down", "rest"), rel=0.01)
    assert amps("rest", "up") == pytest.approx(amps("up", "rest"), rel=0.05)
    assert amps("up", "rest") > 4.0
    assert amps("rest", "rest") == pytest.approx(0, abs=1e-6)
    assert amps("up", "down") == pytest.approx(0, abs=0.3)


def test_with_the_trailer_earth_open_and_the_other_feeds_open_too_the_stop_lamp_is_dark() -> None:
    built = circuit("trailer-rear-lamps")
    setup = set_up(built, {"S2": "down"})
    sound, broken = operate(built, setup), operate(built, setup, (Fault("W14", "open"),))
    assert lit(sound, "L2") == "normal"
    assert abs(sound.amps("L1")) < 1e-6
    # Nothing else is fed, so the others lead nowhere: their switches are open.
    assert lit(broken, "L2") == "dark"
    both = operate(built, set_up(built, {"S1": "on", "S2": "down"}), (Fault("W14", "open"),))
    # Both feeds push against the same open earth: nothing flows either.
    assert lit(both, "L2") == "dark"


@pytest.mark.parametrize("name", ["tractor-work-lamps", "van-rear-screen"])
def test_something_is_left_open_on_purpose(name: str) -> None:
    wires = read(name).sheet.wires
    assert any(wire.colour is None for wire in wires)
    assert any(wire.metres is None for wire in wires)
    assert [sentence for sentence in read(name).assumed if sentence.startswith("W")]


@pytest.mark.parametrize("name", NAMES)
def test_every_load_and_battery_has_its_caution(name: str) -> None:
    sheet = read(name).sheet
    # A horn can do no more than startle.
    loads = [part for part in sheet.parts if part.id in sheet.loads and part.kind != "horn"]
    wanted = [*loads, *(part for part in sheet.parts if part.kind == "battery")]
    assert all(part.hazards for part in wanted)


@pytest.mark.parametrize("name", NAMES)
def test_every_place_for_a_probe_has_its_minutes(name: str) -> None:
    assert all(part.minutes for part in read(name).sheet.parts if part.probe)


@pytest.mark.parametrize("name", NAMES)
def test_a_wire_that_goes_through_a_plug_keeps_its_colour(name: str) -> None:
    sheet = read(name).sheet
    ends: dict[str, set[str]] = {}
    for wire in sheet.wires:
        for end in (wire.start, wire.end):
            found = re.fullmatch(r"(.+\..+)\.[ab]", end)
            if found and wire.colour:
                ends.setdefault(found[1], set()).add(wire.colour)
    inline = [c.id for c in sheet.connectors if not c.part_ways]
    for way, colours in ends.items():
        if way.split(".")[0] in inline:
            assert len(colours) == 1, way
