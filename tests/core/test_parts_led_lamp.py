"""LED lamp: one way round only, dark below its chain's voltage, lit by a trickle."""

from __future__ import annotations

import pytest

from footwell.checks.sights import chances
from footwell.parts.lamp import Lamp
from footwell.parts.led_lamp import KIND, LedLamp
from footwell.reference.leds import FORWARD_VOLTS

from .parts_rig import NAME, TWELVE, fault, fed, shown

WATTS = 2.7
RATED_AMPS = WATTS / 13.5


def led(*faults: object, **how: float) -> float:
    return shown(fed("led_lamp", LedLamp(WATTS), *faults, **how))  # type: ignore[arg-type]


def amps(*faults: object, **how: float) -> float:
    return fed("led_lamp", LedLamp(WATTS), *faults, **how).amps(NAME)  # type: ignore[arg-type]


def test_takes_its_rated_power_at_its_test_voltage() -> None:
    assert amps(volts=13.5) == pytest.approx(RATED_AMPS, rel=0.01)
    assert led(volts=13.5) == pytest.approx(1.0, rel=0.01)


def test_chain_of_three_white_leds_is_dark_at_8_volts_and_lit_at_12() -> None:
    # Forward voltage 3.1 V each: data sheets, from memory.
    assert FORWARD_VOLTS["white"].value == 3.1
    assert led(volts=7.0) < 0.0004 and led(volts=12.0) > 0.5


def test_filament_still_glows_where_the_led_lamp_is_dark() -> None:
    assert shown(fed("lamp", Lamp(WATTS), volts=7.0)) > 0.05


def said(sight: float) -> str:
    words = chances("lamp", sight, 1.0, 0.0)
    return max(words, key=lambda word: words[word])


def test_a_trickle_through_corrosion_lights_leds_and_no_filament() -> None:
    trickle = 4700.0
    assert said(led(through=trickle)) == "glows"
    assert said(shown(fed("lamp", Lamp(WATTS), through=trickle))) == "dark"


def test_wrong_way_round_it_is_dark_and_takes_nothing() -> None:
    assert led(fault("reversed")) == 0.0 and abs(amps(fault("reversed"))) < 1e-6
    assert led() > 0.5


def test_shorted_leds_are_dark_and_draw_more_than_sound_ones() -> None:
    assert led(fault("short")) == 0.0
    assert amps(fault("short")) > 2.0 * amps()


def test_dead_lamp_is_dark_and_draws_nothing() -> None:
    assert led(fault("open")) == 0.0 and amps(fault("open")) == 0.0


@pytest.mark.parametrize(("ohms", "word"), [(1.0, "bright"), (100.0, "dim"), (3000.0, "glows")])
def test_poor_contact_in_the_holder_dims_it(ohms: float, word: str) -> None:
    assert said(led(fault("high_resistance", ohms)) / led()) == word


def test_leds_that_need_more_than_the_lamp_has_are_objected_to() -> None:
    [(name, what, remedy)] = KIND.objections(LedLamp(WATTS, leds=5), TWELVE)
    assert name == "leds" and "15.5 V" in what and remedy
    assert not list(KIND.objections(LedLamp(WATTS, leds=4), TWELVE))
