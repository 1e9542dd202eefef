"""Lamp with two filaments: each by its own feed, and both in series where the base has no earth."""

from __future__ import annotations

import pytest

from footwell.electrics.operating_point import OperatingPoint
from footwell.parts.base import Context
from footwell.parts.switch import Switch
from footwell.parts.twin_lamp import TwinLamp, law_of
from footwell.reference.lamp_ratings import lamp

from .electrics_rig import EARTH, Part, circuit_of, run
from .parts_rig import NAME, TWELVE, battery, fault, resistor, shown

SWITCH = Switch(("1", "2"), {"off": (), "on": (("1", "2"),)})


def lit(
    *faults: object, brake: str = "off", tail: str = "off", base_ohms: float = 0.001
) -> OperatingPoint:
    """A stop and tail lamp behind two switches; the base reaches earth through some ohms. A bulb in
    the other corner hangs on the tail lamp's wire."""
    parts = [
        battery(),
        Part("S1", "switch", SWITCH, {"1": "plus", "2": "brake"}),
        Part("S2", "switch", SWITCH, {"1": "plus", "2": "tail"}),
        Part(NAME, "twin_lamp", TwinLamp(), {"major": "brake", "minor": "tail", "31": "base"}),
        Part("OTHER", "twin_lamp", TwinLamp(), {"major": "brake", "minor": "tail", "31": EARTH}),
        resistor("R", "base", EARTH, base_ohms),
    ]
    circuit = circuit_of(parts, {"S1": ["off", "on"], "S2": ["off", "on"]})
    return run(circuit, {"S1": brake, "S2": tail}, *faults)  # type: ignore[arg-type]


# 26.5 W and 6.6 W at most at 13.5 V: UN Regulation 37; a typical lamp takes 5 % less (assumption).
@pytest.mark.parametrize(("filament", "watts"), [("major", 26.5), ("minor", 6.6)])
def test_each_filament_takes_what_its_category_sheet_allows(filament: str, watts: float) -> None:
    found = lamp("PY21/5W", 12, filament)
    assert found.max_watts_at_test == watts and found.source.standing == "seen"
    taken = 13.5 * law_of(TwinLamp("PY21/5W"), filament, TWELVE).at(13.5)[0]
    assert taken == pytest.approx(0.95 * watts, rel=0.01)


def test_a_code_that_does_not_exist_at_24_volts_is_refused() -> None:
    with pytest.raises(ValueError, match="No W21/5W"):
        law_of(TwinLamp("W21/5W"), "major", Context(24, 5.0))
    assert law_of(TwinLamp("P21/5W"), "major", Context(24, 5.0)).at(28.0)[0] > 0.5


def test_brake_is_several_times_brighter_than_tail() -> None:
    assert shown(lit(brake="on")) > 5.0 * shown(lit(tail="on")) > 0.0
    assert shown(lit()) == pytest.approx(0.0, abs=1e-6)


def test_without_an_earth_at_the_base_the_brake_feed_comes_back_out_of_the_tail_wire() -> None:
    lost, sound = lit(brake="on", base_ohms=1e6), lit(brake="on")
    assert lost.amps(NAME, "minor") < -0.2 and sound.amps(NAME, "minor") > -0.01
    assert lost.at(f"{NAME}.31") > 1.0 and sound.at(f"{NAME}.31") < 0.05


def test_bridged_filaments_light_the_tail_lamps_with_the_brake() -> None:
    bridged, sound = lit(fault("bridged"), brake="on"), lit(brake="on")
    assert shown(bridged, "OTHER") > shown(sound, "OTHER")
    assert bridged.at("OTHER.minor") > 11.0 > 0.1 > abs(sound.at("OTHER.minor"))


@pytest.mark.parametrize(("dead", "alive"), [("major", "minor"), ("minor", "major")])
def test_one_burnt_filament_leaves_the_other(dead: str, alive: str) -> None:
    point = lit(fault(f"open:{dead}"), brake="on", tail="on")
    assert point.amps(NAME, dead) == 0.0 and point.amps(NAME, alive) > 0.3
