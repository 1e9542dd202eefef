"""What opens under too much current: fuse, fusible link, breaker; when, and what is said of it."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.fault import Fault
from footwell.electrics.operating_point import OperatingPoint
from footwell.electrics.problems import troubles
from footwell.parts import KINDS, fusible_link, wire
from footwell.parts.base import Context
from footwell.parts.breaker import Breaker
from footwell.parts.fuse import Fuse
from footwell.parts.fusible_link import FusibleLink
from footwell.parts.lamp import Lamp
from footwell.reference import fusible_links
from footwell.reference.breakers import TRIP_TIMES

from .electrics_rig import EARTH, Part, circuit_of, run
from .parts_rig import NAME, battery, resistor

PROTECTORS: dict[str, Any] = {
    "fuse": Fuse(20.0),
    "fusible_link": FusibleLink(0.5),
    "breaker": Breaker(20.0),
}
CONTEXT = Context(12, 15.0)


def shorted(kind: str, values: Any, ohms: float, *faults: Fault) -> OperatingPoint:
    """A load of some ohms behind the part that protects its wires."""
    part = Part(NAME, kind, values, {"1": "plus", "2": "out"})
    circuit = circuit_of([battery(), part, resistor("R", "out", EARTH, ohms)], joint_mm2=6.0)
    return run(circuit, None, *faults)


def said(point: OperatingPoint) -> list[str]:
    return [t.sentence for t in troubles(point) if t.code == "fuse_blows"]


@pytest.mark.parametrize("kind", PROTECTORS)
def test_a_dead_short_opens_it_and_its_usual_load_does_not(kind: str) -> None:
    values = PROTECTORS[kind]
    short, usual = shorted(kind, values, 0.01), shorted(kind, values, 1.0)
    assert short.blown == (NAME,) and short.states[NAME] == KINDS[kind].opened
    assert usual.blown == () and usual.amps("R") > 10.0


@pytest.mark.parametrize(
    ("kind", "verb", "after"),
    [
        ("fuse", "blows", ""),
        ("fusible_link", "melts", "Find the short behind it"),
        ("breaker", "trips", "comes and goes"),
    ],
)
def test_each_is_told_in_its_own_words(kind: str, verb: str, after: str) -> None:
    [sentence] = said(shorted(kind, PROTECTORS[kind], 0.01))
    assert f" {verb} " in sentence and after in sentence
    assert said(shorted(kind, PROTECTORS[kind], 1.0)) == []


@pytest.mark.parametrize(
    ("kind", "done"), [("fuse", "blown"), ("fusible_link", "melted"), ("breaker", "tripped")]
)
def test_a_load_without_current_is_told_what_has_opened(kind: str, done: str) -> None:
    part = Part(NAME, kind, PROTECTORS[kind], {"1": "plus", "2": "out"})
    lamp = Part("L1", "lamp", Lamp(21.0), {"1": "out", "2": EARTH})
    circuit = circuit_of([lamp, battery(), part, resistor("R", "out", EARTH, 0.01)], joint_mm2=6.0)
    told = [t.sentence for t in troubles(run(circuit)) if t.code == "no_current"]
    assert told and f"has {done}" in told[0]


def test_a_breaker_that_is_reset_by_hand_is_told_to_stay_open() -> None:
    [sentence] = said(shorted("breaker", Breaker(20.0, "III"), 0.01))
    assert "presses it in" in sentence and "comes and goes" not in sentence


@pytest.mark.parametrize("kind", PROTECTORS)
def test_open_by_itself_it_feeds_nothing(kind: str) -> None:
    assert shorted(kind, PROTECTORS[kind], 1.0, Fault(NAME, "open")).amps("R") < 1e-6


@pytest.mark.parametrize("kind", PROTECTORS)
@given(amps=st.floats(0.1, 2000.0), more=st.floats(1.01, 3.0))
def test_more_current_never_takes_longer(kind: str, amps: float, more: float) -> None:
    opens = KINDS[kind].opens
    assert opens is not None
    slow, fast = (opens(PROTECTORS[kind], a, CONTEXT) for a in (amps, amps * more))
    if slow is not None:
        assert fast is not None
        assert fast[0] <= slow[0] * (1 + 1e-9) and fast[1] <= slow[1] * (1 + 1e-9)


def test_a_breaker_at_twice_its_rating_trips_within_a_minute_and_a_fuse_within_seconds() -> None:
    # SAE J553 and makers' curves, from memory, low; ISO 8820-3, from memory.
    opens = {k: KINDS[k].opens(PROTECTORS[k], 40.0, CONTEXT) for k in ("fuse", "breaker")}  # type: ignore[misc]
    assert opens["breaker"] == (3.0, 60.0) and opens["fuse"] == (0.15, 5.0)
    assert TRIP_TIMES[0].source.standing == "memory"


@pytest.mark.parametrize(("mm2", "amps"), [(0.5, 57.0), (1.0, 96.0), (2.5, 190.0)])
def test_copper_melts_at_preeces_current(mm2: float, amps: float) -> None:
    # 80 d^1.5: Preece 1884, from memory.
    assert fusible_links.melting_amps(mm2) == pytest.approx(amps, rel=0.01)
    assert fusible_links.melting_seconds(mm2, 0.98 * fusible_links.melting_amps(mm2)) is None
    assert fusible_links.melting_seconds(mm2, 1.02 * fusible_links.melting_amps(mm2)) is not None


@pytest.mark.parametrize("amps", [1000.0, 3000.0])
def test_far_above_it_melts_by_onderdonks_equation(amps: float) -> None:
    found = fusible_links.melting_seconds(1.0, amps)
    assert found is not None
    middle = (found[0] * found[1]) ** 0.5
    assert middle * amps**2 == pytest.approx(fusible_links.onderdonk_integral(20.0), rel=0.01)


def test_a_link_left_open_is_thinner_than_the_wire_it_protects() -> None:
    link = fusible_link.cross_section(FusibleLink(), CONTEXT)
    assert link < 0.5 * wire.cross_section(wire.Wire(), CONTEXT)
