"""Somebody alone cannot hold a switch and a probe: only what stays on by itself is proposed then."""

from __future__ import annotations

import pytest

from footwell.checks.catalogue import catalogue
from footwell.checks.check import CLAMP, EVERY_TOOL, LAMP, LISTEN, VOLTS, Check
from footwell.checks.hands import Tools, held_down
from footwell.checks.minutes import minutes
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import set_up

from .sample_circuits import sample


@pytest.fixture(scope="module")
def window() -> Circuit:
    return sample("camper-side-window")


def held(circuit: Circuit, helper: bool) -> set[str]:
    checks = catalogue(circuit, Tools(EVERY_TOOL, helper))
    return {check.instrument for check in checks if held_down(circuit, check)}


def test_alone_instruments_that_stay_on_are_used_while_a_switch_is_held(window: Circuit) -> None:
    assert {VOLTS, CLAMP, LAMP} <= held(window, helper=False) <= held(window, helper=True)


def test_a_relay_is_not_felt_for_while_a_pedal_is_held_alone() -> None:
    starter = sample("hatchback-starter")
    assert LISTEN not in held(starter, helper=False)
    assert LISTEN in held(starter, helper=True)


def test_clipping_on_costs_minutes_and_a_switch_that_stays_costs_none(window: Circuit) -> None:
    still, up = (set_up(window, {"S1": position}) for position in ("rest", "up"))
    checks = [Check(VOLTS, "X4.1.a", "X4.2.a", setup) for setup in (still, up)]
    first, second = (minutes(window, check, None) for check in checks)
    assert second - first > 1.0
