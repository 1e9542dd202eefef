"""Ohms into a plug that is off: what hangs there by itself, in one go (common practice, no source)."""

from __future__ import annotations

import json
import math

import pytest
from parity.cases import load, sample_sheets

from footwell.checks.behind_plug import behind_plug, into_plugs
from footwell.checks.catalogue import catalogue
from footwell.checks.check import OHMS, Check
from footwell.checks.hands import Tools
from footwell.checks.predict import Reading, expected
from footwell.circuit.circuit import AS_DRAWN, Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up, taken_apart
from footwell.diagnosis.belief import believe
from footwell.diagnosis.choose import confirms
from footwell.job.replay import circuits_of, replay
from footwell.job.stored import fitting
from footwell.messages import CheckAsked
from footwell.page.ask import AskError, chosen_check
from footwell.page.check_view import check_view
from footwell.practice.electrician import begin
from footwell.sheet.reading import read_data

from .loop_rig import ALL_TOOLS, Trial, read, tried, vehicle_of
from .sample_circuits import FOLDER, sample

SEAT, CARAVAN, FAN, SENSOR = (
    "saloon-seat-heater",
    "caravan-13-pin-plug",
    "hatchback-radiator-fan",
    "estate-coolant-sensor",
)
ALONE_OHMS = 13.5**2 / 60.0
"""The seat's heater by its rating."""


def into(circuit: Circuit, red: str, black: str) -> Check:
    """The check of the two ways, which must be among those that are made."""
    return next(c for c in into_plugs(circuit) if (c.red, c.black) == (red, black))


def ohms(circuit: Circuit, check: Check, *faults: Fault) -> float:
    found = expected(circuit, check, faults)
    assert isinstance(found, Reading)
    return found.mean


def test_the_heater_its_switch_and_the_wire_between_them_are_read_in_one() -> None:
    circuit = sample(SEAT)
    check = into(circuit, "X3.1.b", "X3.2.b")
    assert behind_plug(circuit, check) == {"S2", "W7", "H1"}
    assert ohms(circuit, check) == pytest.approx(ALONE_OHMS + 0.2, abs=0.05)


@pytest.mark.parametrize(
    ("fault", "there"),
    [
        (Fault("S2", "high_resistance:1-2", 200.0), True),
        (Fault("W7", "high_resistance", 200.0), True),
        (Fault("X3.1", "high_resistance", 200.0), False),
        (Fault("W4", "high_resistance", 200.0), False),
    ],
)
def test_a_poor_joint_shows_behind_the_plug_and_none_at_the_plug_or_before_it(
    fault: Fault, there: bool
) -> None:
    circuit = sample(SEAT)
    check = into(circuit, "X3.1.b", "X3.2.b")
    more = ohms(circuit, check, fault) - ohms(circuit, check)
    assert more == pytest.approx(200.0 if there else 0.0, abs=0.01)


def test_a_break_behind_the_plug_is_over_range_and_the_plug_itself_is_not_in_it() -> None:
    circuit = sample(SEAT)
    check = into(circuit, "X3.1.b", "X3.2.b")
    assert ohms(circuit, check, Fault("W7", "open")) == math.inf
    assert ohms(circuit, check, Fault("X3.2", "open")) == ohms(circuit, check)


def test_a_switch_behind_the_plug_is_put_where_it_lets_the_meter_through() -> None:
    check = into(sample(CARAVAN), "X1.10.b", "X1.11.b")
    assert dict(check.setup.controls)["S4"] == "on"


@pytest.mark.parametrize("name", sample_sheets())
def test_nothing_that_ohms_could_harm_and_no_way_to_earth_or_supply_is_taken_in(name: str) -> None:
    circuit = load(name)
    for check in into_plugs(circuit):
        for element in (circuit.elements[e] for e in behind_plug(circuit, check)):
            assert element.kind.metal or element.kind.measured_alone, (check.id, element.id)
            assert not element.kind.drives and not element.kind.takes, (check.id, element.id)
            ends = {element.nodes[t] for t in element.kind.terminals(element.values)}
            assert circuit.earth not in ends, (check.id, element.id)
            assert circuit.supply_element.nodes["+"] not in ends, (check.id, element.id)


def test_a_sensor_line_with_its_unit_unplugged_is_left_alone_all_the_same() -> None:
    circuit = load(SENSOR)
    check = next(into_plugs(circuit))
    assert "B1" in behind_plug(circuit, check)
    assert check not in catalogue(circuit, Tools(ALL_TOOLS))


@pytest.mark.parametrize("apart", [(), ("X2",)])
def test_with_the_plug_in_it_is_no_such_check(apart: tuple[str, ...]) -> None:
    circuit = sample(SEAT)
    setup = taken_apart(set_up(circuit), apart)
    assert not behind_plug(circuit, Check(OHMS, "X3.1.b", "X3.2.b", setup))


def test_two_ways_of_one_part_stay_a_measurement_of_that_part() -> None:
    circuit = sample(SEAT)
    alone = next(c for c in catalogue(circuit, Tools(ALL_TOOLS)) if c.red == "X1.1.b")
    assert alone.instrument == OHMS and not behind_plug(circuit, alone)


def test_it_narrows_and_proves_no_part_of_several() -> None:
    circuit = sample(SEAT)
    check = into(circuit, "X3.1.b", "X3.2.b")
    assert not confirms(circuit, check, Fault("W7", "open"))


@pytest.mark.parametrize(
    ("fault", "renewed"),
    [
        (Fault("W7", "high_resistance", 20000.0), "W7"),
        (Fault("X3.1", "high_resistance", 20000.0), "X3.1"),
    ],
)
def test_a_poor_wire_behind_the_plug_is_told_from_a_poor_way_of_the_plug(
    fault: Fault, renewed: str
) -> None:
    done = tried(Trial(SEAT, (fault,)))
    assert done.right and not done.good_parts, done.steps
    assert [s.split()[1] for s in done.steps if s.startswith("repair")] == [renewed]


def test_the_screen_says_what_is_measured_and_on_which_side() -> None:
    run = begin(read(FAN).sheet, vehicle_of(Trial(FAN, (Fault("W1", "open"),))), ALL_TOOLS)
    case = replay(run.events).case
    view = check_view(case, believe(case), into(case.now, "X3.1.a", "X3.2.a"), "narrow")
    assert view.goal == ("Is what hangs on thermal switch plug X3, wire side, sound by itself?")
    assert "unplug thermal switch plug X3" in view.do and view.do.endswith("back to V.")
    assert "live circuit" in [caution.hazard for caution in view.cautions]


def test_a_stored_reading_into_a_plug_fits_the_sheet() -> None:
    circuit = sample(SEAT)
    check = into(circuit, "X3.1.b", "X3.2.b")
    assert fitting(circuit, OHMS, check.red, check.black, check.setup) == check


@pytest.mark.parametrize("apart", [["X3"], []])
def test_a_person_who_asks_for_it_is_told_to_unplug_first(apart: list[str]) -> None:
    run = begin(read(SEAT).sheet, vehicle_of(Trial(SEAT, (Fault("W7", "open"),))), ALL_TOOLS)
    asked = CheckAsked(
        events=run.events, instrument=OHMS, red="X3.1.b", black="X3.2.b", controls={}, apart=apart
    )
    if apart:
        assert "what hangs on" in chosen_check(asked).goal
    else:
        with pytest.raises(AskError, match="apart first"):
            chosen_check(asked)


@pytest.mark.parametrize(("hazard", "may"), [("restraint system", False), ("hot part", True)])
def test_a_plug_of_a_restraint_systems_part_is_not_touched_pulled_nor_measured_into(
    hazard: str, may: bool
) -> None:
    """The sheet names the hazard at the part alone, and a switch lies between it and one way of its plug."""
    data = json.loads((FOLDER / f"{SEAT}.json").read_text("utf-8"))
    (part,) = (p for p in data["parts"] if p["id"] == "H1")
    part["hazards"] = [hazard]
    checks = catalogue(circuits_of(read_data(data))(AS_DRAWN), Tools(("meter",)))
    at_it = [c for c in checks if "X3" in f"{c.red} {c.black} {c.setup.apart}"]
    into_it = [c for c in checks if c.instrument == OHMS and "X2" in c.setup.apart]
    assert bool(at_it) == bool(into_it) == may
    assert any(c.red == "F1.1" for c in checks), "the rest of the circuit is measured all the same"
