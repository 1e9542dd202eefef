"""Filament lamp: its light, and a lamp of another power in its place."""

from __future__ import annotations

import pytest

from footwell.checks.sights import chances
from footwell.parts.lamp import Lamp

from .parts_rig import NAME, fault, fed, shown


def said(watts_share: float) -> str:
    faults = [] if watts_share == 1.0 else [fault("wrong_part", watts_share)]
    now, usual = shown(fed("lamp", Lamp(21.0), *faults)), shown(fed("lamp", Lamp(21.0)))
    words = chances("lamp", now, usual, 0.0)
    return max(words, key=lambda word: words[word])


@pytest.mark.parametrize(("size", "word"), [(0.24, "dim"), (1.0, "bright"), (4.2, "bright")])
def test_a_5_watt_lamp_where_21_belong_is_dim_at_full_voltage(size: float, word: str) -> None:
    assert said(size) == word


def test_its_current_tells_a_wrong_lamp_from_a_poor_joint() -> None:
    wrong = fed("lamp", Lamp(21.0), fault("wrong_part", 0.24))
    joint = fed("lamp", Lamp(21.0), through=3.0)
    assert abs(wrong.at(f"{NAME}.1") - 12.5) < 0.1 < 12.5 - joint.at(f"{NAME}.1")
    assert wrong.amps(NAME) == pytest.approx(0.24 * fed("lamp", Lamp(21.0)).amps(NAME), rel=0.01)


def test_burnt_out_it_is_dark() -> None:
    assert shown(fed("lamp", Lamp(21.0), fault("open"))) == 0.0 < shown(fed("lamp", Lamp(21.0)))
