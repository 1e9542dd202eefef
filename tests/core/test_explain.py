"""Every predicted value explains itself: where the current goes, what falls on the way, what varies."""

from __future__ import annotations

from collections.abc import Iterator
from math import isinf
from typing import Any

import pytest

from footwell.checks.catalogue import catalogue
from footwell.checks.check import CLAMP, FEED, LAMP, LISTEN, OHMS, SUBSTITUTE, VOLTS, Check
from footwell.checks.explain import Explanation, band_parts, explained, marks
from footwell.checks.predict import Reading
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.places import places
from footwell.circuit.setup import set_up
from footwell.messages import Explanation as View
from footwell.page.expected import EVERYTHING
from footwell.parts.base import EARTH

from .job_rig import Job
from .sample_circuits import MINIBUS, NAMES, TRACTOR, VAN, sample


def every_volts(circuit: Circuit, *faults: Fault) -> Iterator[tuple[Check, Explanation]]:
    """Volts to earth at every place in reach, with every control at its last position."""
    last = {c.part: c.positions[-1].id for c in circuit.sheet.controls}
    for place in places(circuit).values():
        if place.plugged and place.id != EARTH:
            check = Check(VOLTS, place.id, EARTH, set_up(circuit, last))
            yield check, explained(circuit, check, faults)


def volts(name: str, red: str, controls: dict[str, str], *faults: Fault) -> Explanation:
    circuit = sample(name)
    return explained(circuit, Check(VOLTS, red, EARTH, set_up(circuit, controls)), faults)


@pytest.mark.parametrize("name", NAMES)
def test_the_drops_round_a_circuit_add_up_to_its_supply(name: str) -> None:
    """Kirchhoff's voltage law."""
    rounds = [found.round for _, found in every_volts(sample(name)) if found.round]
    assert len(rounds) > 5
    for legs in rounds:
        assert sum(leg.volts for leg in legs) == pytest.approx(legs[0].emf, abs=1e-9)
        assert all(leg.volts > -1e-12 for leg in legs)
        ends = [leg.end for leg in legs]
        assert [leg.start for leg in legs] == [ends[-1], *ends[:-1]]


@pytest.mark.parametrize("name", NAMES)
def test_the_drops_from_the_place_to_earth_add_up_to_its_reading(name: str) -> None:
    circuit = sample(name)
    seen = 0
    for check, found in every_volts(circuit):
        at = {m: n for n, row in enumerate(marks(circuit, check, found)) for m in row}
        if found.flows and at["red"] < at["black"]:
            seen += 1
            between = found.round[at["red"] + 1 : at["black"] + 1]
            assert isinstance(found.reading, Reading)
            assert sum(leg.volts for leg in between) == pytest.approx(found.reading.mean, abs=1e-6)
    assert seen > 3


@pytest.mark.parametrize("name", NAMES)
def test_what_makes_a_band_wide_adds_up_to_all_of_it(name: str) -> None:
    circuit = sample(name)
    for check in catalogue(circuit, EVERYTHING):
        if not check.numeric:
            continue
        reading = explained(circuit, check, ()).reading
        assert isinstance(reading, Reading)
        parts = band_parts(reading)
        if isinf(reading.mean) or reading.sigma == 0.0:
            assert parts == ()
            continue
        assert sum(part.share for part in parts) == pytest.approx(1.0, abs=1e-9)
        assert sum(part.sigma**2 for part in parts) == pytest.approx(reading.sigma**2, rel=1e-9)
        named = [p.share for p in parts if p.element not in ("meter", "supply", "")]
        assert named == sorted(named, reverse=True) and len(named) <= 3


def test_a_place_past_an_open_switch_hangs_on_the_load_and_the_switch_is_named() -> None:
    found = volts(MINIBUS, "X2.4.a", {"S1": "0"})
    assert not found.flows and found.round == ()
    assert found.hold is not None and "M1" in found.hold.elements
    assert found.stops["supply"].element == "S1" and "earth" not in found.stops


def test_the_same_place_with_the_switch_on_has_the_current() -> None:
    found = volts(MINIBUS, "X2.4.a", {"S1": "3"})
    assert found.flows and found.hold is None and found.stops == {}


def test_a_wire_broken_at_both_reaches_hangs_on_nothing() -> None:
    cut_off = volts(MINIBUS, "X2.2.a", {"S1": "3"}, Fault("W3", "open"))
    assert cut_off.hold is None
    assert volts(MINIBUS, "X2.2.a", {"S1": "3"}).hold is not None


def test_a_side_branch_has_the_voltage_of_where_it_joins_the_current() -> None:
    found = volts(MINIBUS, "X2.4.a", {"S1": "2"})
    assert not found.flows and found.hold is not None
    assert found.hold.elements == ("W5", "X1.3", "W8")
    assert any(leg.end == found.hold.end for leg in found.round)


def test_a_meter_behind_a_corroded_joint_says_that_no_load_would_work() -> None:
    """12.6 V through 20 kΩ reads 12.57 V on 10 MΩ and nearly nothing under a lamp (worked example)."""
    joint = {"element": "W8", "mode": "high_resistance", "size": 20e3}
    ghost = explain(red="X4.1.a", apart=["X4"], controls={"S1": "3"}, faults=[joint])
    sound = explain(red="X4.1.a", apart=["X4"], controls={"S1": "3"})
    assert "sees 20.0 kΩ" in ghost.meter and "no load would work" in ghost.meter
    assert "no load would work" not in sound.meter


def explain(**request: Any) -> View:
    return View.model_validate(Job().ask("explain", **request))


def test_a_value_on_the_way_is_told_by_what_falls_before_and_behind_it() -> None:
    told = explain(red="X2.3.a", controls={"S1": "2"})
    before, behind = told.lines
    assert before.startswith("Of the 25.0 V of batteries G1, ")
    assert "fan motor M1" in behind and "resistor pack R1" in behind
    names = [step.name for step in told.steps]
    assert names[:3] == ["inside batteries G1", "RD wire (W1)", "fuse F1"]
    assert next(s.marks for s in told.steps if s.marks) == ["red"]
    assert sum(step.share for step in told.steps) == pytest.approx(1.0)


def test_no_current_is_told_with_what_stops_it_and_what_holds_the_voltage() -> None:
    broken = {"element": "W10", "mode": "open"}
    lines = explain(red="X4.2.a", controls={"S1": "3"}, faults=[broken]).lines
    assert lines[0] == "No current flows here."
    assert lines[1] == "From here no current gets to earth: wire W10 (BN) is broken."
    assert lines[2].startswith("It has the voltage of the supply, through X4 way 2, fan motor M1")


def test_hanging_on_nothing_is_called_a_ghost_voltage() -> None:
    broken = {"element": "W3", "mode": "open"}
    assert "ghost voltage" in explain(red="X2.2.a", faults=[broken]).lines[-1]
    assert not any("ghost" in line for line in explain(red="X2.2.a").lines)


def test_an_ohmmeter_is_explained_in_ohms() -> None:
    told = explain(red="X3.1.b", black="X3.3.b", instrument=OHMS, apart=["X3"])
    assert {step.unit for step in told.steps} == {"Ω"}
    assert told.steps[0].drop == pytest.approx(1.8, rel=1e-6)
    assert any(part.element == "leads" for part in told.spread)


def test_over_range_is_explained_by_no_current() -> None:
    told = explain(
        red="F1.1",
        black="F1.2",
        instrument=OHMS,
        apart=["F1"],
        faults=[{"element": "F1", "mode": "open"}],
    )
    assert told.row.text == "over range" and told.steps == [] and told.spread == []
    assert told.lines == ["No current of the meter gets through, so it shows over range."]


def test_a_lamp_is_part_of_the_way_it_lights_in() -> None:
    told = explain(red="X4.1.a", instrument=LAMP, apart=["X4"], controls={"S1": "3"})
    lamp = next(step for step in told.steps if step.kind == "instrument")
    assert lamp.name == "test lamp" and lamp.share > 0.95
    assert told.meter.startswith("The lamp takes ")


@pytest.mark.parametrize(
    ("name", "check"),
    [
        (MINIBUS, {"red": "W9", "instrument": CLAMP, "controls": {"S1": "1"}}),
        (MINIBUS, {"red": "M1", "instrument": FEED}),
        (
            MINIBUS,
            {
                "red": "X4",
                "instrument": SUBSTITUTE,
                "stand_in": {"X4": "21 W"},
                "controls": {"S1": "3"},
            },
        ),
        (TRACTOR, {"red": "K1", "instrument": LISTEN, "controls": {"A1": "on"}}),
        (VAN, {"red": "F1.2", "black": "earth", "controls": {"S0": "on", "S1": "on"}}),
    ],
)
def test_every_instrument_that_lets_current_flow_shows_its_way(
    name: str, check: dict[str, Any]
) -> None:
    told = View.model_validate(Job(name).ask("explain", **check))
    assert len(told.steps) >= 2 and told.lines
    assert sum(step.share for step in told.steps) == pytest.approx(1.0)


def test_two_leads_on_one_point_are_refused_in_a_sentence() -> None:
    told = Job().refused("explain", red="X4.1.a", black="X4.1.a")
    assert told == "Both leads would lie on one and the same metal. Choose two places."


def test_what_may_not_be_measured_is_not_explained_either() -> None:
    told = Job(TRACTOR).refused("explain", red="X1.3.a", instrument=LAMP)
    assert told == Job(TRACTOR).refused("check_at", red="X1.3.a", instrument=LAMP)


def test_small_drops_stand_together_and_every_step_stands_once() -> None:
    told = explain(red="X2.3.a", controls={"S1": "2"})
    lines = [n for run in told.runs for n in range(run.first, run.first + run.count)]
    assert lines == list(range(len(told.steps)))
    assert len(told.runs) < len(told.steps) / 2
    assert sum(run.share for run in told.runs) == pytest.approx(1.0)
    marked = {n for n, step in enumerate(told.steps) if step.marks}
    assert marked <= {run.first + run.count - 1 for run in told.runs}
    assert {run.name for run in told.runs if run.share > 0.05} == {
        "resistor pack R1, step 2",
        "fan motor M1",
    }
