"""Horn, solenoid, PTC heater, glow plug: what they take, do and show, sound and faulty."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.checks.sights import chances
from footwell.parts import KINDS
from footwell.parts.glow_plug import GlowPlug
from footwell.parts.horn import Horn
from footwell.parts.laws import levelling
from footwell.parts.ptc_heater import PtcHeater
from footwell.parts.solenoid import Solenoid
from footwell.reference import loads
from footwell.reference.sight_words import WORDS

from .parts_rig import NAME, fault, fed, shown


def likeliest(words: Mapping[str, float]) -> str:
    return max(words, key=lambda word: words[word])


# ---- horn -------------------------------------------------------------------------------------------


def heard(*faults: object, **how: float) -> str:
    sound = shown(fed("horn", Horn()))
    return likeliest(chances("sound", shown(fed("horn", Horn(), *faults, **how)), sound, 0.0))  # type: ignore[arg-type]


@pytest.mark.parametrize(("through", "word"), [(0.05, "loud"), (1.0, "weak"), (10.0, "silent")])
def test_horn_gets_weak_and_silent_behind_a_poor_joint(through: float, word: str) -> None:
    assert heard(through=through) == word


@pytest.mark.parametrize(
    ("mode", "size", "word"),
    [("open", 0.0, "silent"), ("high_resistance", 1.0, "weak"), ("sticking", 0.0, "silent")],
)
def test_horn_with_a_fault_is_weak_or_silent(mode: str, size: float, word: str) -> None:
    assert heard(fault(mode, size)) == word != heard()


def test_stuck_horn_takes_two_to_three_times_its_current_and_a_dead_one_none() -> None:
    # Common practice, no source.
    assert loads.HORN_STUCK_SHARE.source.standing == "common practice"
    sound = fed("horn", Horn()).amps(NAME)
    stuck = fed("horn", Horn(), fault("sticking")).amps(NAME, "idle")
    assert 4.0 < sound < 6.0 and 2.0 < stuck / sound < 3.0
    assert fed("horn", Horn(), fault("open")).amps(NAME) == 0.0


# ---- solenoid ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("volts", "state"), [(12.5, "pulled"), (8.0, "pulled"), (6.5, "rest")])
def test_solenoid_pulls_from_its_pull_in_on(volts: float, state: str) -> None:
    assert fed("solenoid", Solenoid(12.0), volts=volts).states[NAME] == state


@pytest.mark.parametrize(("through", "clicks"), [(1.0, 1.0), (15.0, 0.0)])
def test_solenoid_behind_a_poor_joint_does_not_click(through: float, clicks: float) -> None:
    assert shown(fed("solenoid", Solenoid(12.0), through=through)) == clicks


@pytest.mark.parametrize(
    ("mode", "size", "amps"),
    [
        ("open", 0.0, 0.0),
        ("sticking", 0.0, 1.04),
        ("shorted_turns", 0.0, 4.15),
        ("wrong_part", 4.0, 0.26),
    ],
)
def test_solenoid_with_a_fault_does_not_click_and_its_current_tells_which(
    mode: str, size: float, amps: float
) -> None:
    point = fed("solenoid", Solenoid(12.0), fault(mode, size))
    assert shown(point) == 0.0
    drawn = sum(f.amps for f in point.felt(NAME).flows.values())
    assert drawn == pytest.approx(amps, rel=0.02)


def test_solenoid_of_24_volts_in_a_12_volt_vehicle_stays_at_rest() -> None:
    sound, wrong = (
        fed("solenoid", Solenoid(12.0)),
        fed("solenoid", Solenoid(12.0), fault("wrong_part", 4.0)),
    )
    assert (sound.states[NAME], wrong.states[NAME]) == ("pulled", "rest")


# ---- PTC heater, glow plug --------------------------------------------------------------------------

laws = st.builds(levelling, st.floats(5, 30), st.floats(0.5, 100), st.floats(1.2, 10))


@given(laws, st.floats(-60, 60), st.floats(1e-6, 20))
def test_current_that_levels_off_never_falls(law: object, volts: float, more: float) -> None:
    low, slope = law.at(volts)  # type: ignore[attr-defined]
    assert slope > 0.0 and law.at(volts + more)[0] >= low  # type: ignore[attr-defined]


@given(st.floats(5, 30), st.floats(0.5, 100), st.floats(1.2, 10))
def test_it_takes_its_rated_current_and_many_times_the_conductance_cold(
    volts: float, amps: float, ratio: float
) -> None:
    law = levelling(volts, amps, ratio)
    assert law.at(volts)[0] == pytest.approx(amps)
    assert law.at(0.0)[1] * volts / amps == pytest.approx(ratio)


def test_glow_plug_takes_some_20_amps_for_a_first_moment_and_10_warm() -> None:
    # From memory, medium.
    assert loads.GLOW_AMPS[12].source.standing == "memory"
    warm = fed("glow_plug", GlowPlug(), volts=11.0)
    law = next(s.branch.law for s in warm.slots if s.element == NAME)
    assert warm.amps(NAME) == pytest.approx(10.0, abs=0.2)
    assert law.at(0.1)[0] / 0.1 * 11.0 == pytest.approx(20.0, rel=0.05)


def test_ptc_heater_takes_its_power_and_hardly_more_current_at_more_volts() -> None:
    usual, high = (fed("ptc_heater", PtcHeater(300.0), volts=v).amps(NAME) for v in (12.6, 15.0))
    assert usual * 12.5 == pytest.approx(300.0, rel=0.03)
    plain = 15.0 / 12.6
    assert 1.0 < high / usual < 1.0 + 0.4 * (plain - 1.0)


@pytest.mark.parametrize("kind", ["horn", "ptc_heater", "glow_plug"])
def test_a_shorted_one_draws_all_it_can_get_and_does_nothing(kind: str) -> None:
    values = KINDS[kind].values(**({"watts": 300.0} if kind == "ptc_heater" else {}))
    short, sound = (fed(kind, values, *f, through=0.05) for f in ([fault("short")], []))
    assert shown(short) == 0.0 < shown(sound)
    assert short.at("G1.+") < sound.at("G1.+")
    assert short.amps(NAME, "idle") > 100.0


@pytest.mark.parametrize("kind", ["ptc_heater", "glow_plug"])
def test_a_dead_one_is_cold_and_a_sound_one_warm(kind: str) -> None:
    values = PtcHeater(300.0) if kind == "ptc_heater" else GlowPlug()
    sound, dead = (shown(fed(kind, values, *f)) for f in ([], [fault("open")]))
    assert likeliest(chances("heat", sound, sound, 0.0)) == "warm"
    assert likeliest(chances("heat", dead, sound, 0.0)) == "cold"


def test_heater_with_half_its_stones_draws_half_and_is_lukewarm() -> None:
    sound, half = (fed("ptc_heater", PtcHeater(300.0), *f) for f in ([], [fault("partly_dead")]))
    assert half.amps(NAME) == pytest.approx(0.5 * sound.amps(NAME), rel=0.02)
    assert likeliest(chances("heat", shown(half), shown(sound), 0.0)) == "lukewarm"


def test_corroded_glow_plug_terminal_wastes_power_that_does_not_glow() -> None:
    sound, poor = (fed("glow_plug", GlowPlug(), *f) for f in ([], [fault("high_resistance", 0.5)]))
    assert shown(poor) < 0.7 * shown(sound)


@pytest.mark.parametrize(
    "kind", ["horn", "solenoid", "ptc_heater", "glow_plug", "led_lamp", "twin_lamp"]
)
def test_what_a_load_shows_has_words(kind: str) -> None:
    assert KINDS[kind].seen_as in WORDS and KINDS[kind].feedable
