"""Ohms between the two lines of a data bus: allowed while nothing feeds it, and never else."""

from __future__ import annotations

import pytest

from footwell.checks.catalogue import catalogue
from footwell.checks.check import FEED, FUSE_LAMP, LAMP, OHMS, SUBSTITUTE, VOLTS, Check
from footwell.checks.clipped import between_lines
from footwell.checks.hands import Tools
from footwell.checks.predict import Reading, expected, foretold
from footwell.checks.safety import cautions, refusal
from footwell.circuit.circuit import AS_DRAWN, arranged
from footwell.circuit.fault import Fault
from footwell.circuit.places import places
from footwell.circuit.setup import set_up
from footwell.diagnosis.choose import behind_fuse
from footwell.faults.miswiring import slips
from footwell.job.replay import circuits_of
from footwell.parts.base import EARTH

from .job_rig import Job, suspects
from .loop_rig import read
from .sample_circuits import sample

SHEET = "van-data-bus"
EVERYTHING = Tools(("clamp", "fused jumper", "meter", "substitute lamp", "test lamp"), helper=True)
SOCKET = ("X6.6.a", "X6.14.a")
PAIRS = [SOCKET, ("X2.1.a", "X2.2.a"), ("X3.2.b", "X3.1.b"), ("X5.1.a", "X5.2.a")]


def asked(
    instrument: str, red: str, black: str, apart: tuple[str, ...] = (), ignition: str = "off"
) -> str:
    circuit = sample(SHEET)
    return refusal(circuit, Check(instrument, red, black, set_up(circuit, {"S1": ignition}, apart)))


@pytest.mark.parametrize(("red", "black"), PAIRS)
def test_ohms_between_the_lines_are_refused_while_a_unit_has_supply(red: str, black: str) -> None:
    live = asked(OHMS, red, black, ignition="on")
    assert "No ohms on a sensor, data" in live and "take F1 out" in live
    assert asked(OHMS, red, black, ("F1",), "on") == ""
    assert asked(OHMS, red, black, ("F1",)) == ""


@pytest.mark.parametrize(("red", "black"), PAIRS)
@pytest.mark.parametrize("apart", [(), ("F1",)])
def test_no_lamp_and_nothing_of_ones_own_on_the_lines_even_without_supply(
    red: str, black: str, apart: tuple[str, ...]
) -> None:
    assert "No lamp" in asked(LAMP, red, black, apart)
    assert "No lamp" in asked(LAMP, red, "earth", apart)
    assert asked(VOLTS, red, black, apart) == asked(VOLTS, red, "earth", apart) == ""


@pytest.mark.parametrize("black", ["earth", "X2.3.a", "E1.1", "F1.2"])
def test_ohms_from_a_line_to_anything_but_the_other_line_stay_refused(black: str) -> None:
    assert "No ohms" in asked(OHMS, "X6.6.a", black, ("F1",))


def test_ohms_along_one_line_stay_refused() -> None:
    assert "No ohms" in asked(OHMS, "X6.6.a", "X2.1.a", ("F1",))


def test_a_unit_with_its_plug_off_is_measured_between_its_lines_and_nowhere_else() -> None:
    assert asked(OHMS, "X2.1.b", "X2.2.b", ("X2",)) == ""
    assert "No ohms" in asked(OHMS, "X2.1.b", "X2.3.b", ("X2",))
    assert "No ohms" in asked(OHMS, "X2.1.b", "X2.2.b", ("X4",), "on")


def test_no_check_of_the_catalogue_lays_a_load_or_a_supply_on_the_lines() -> None:
    circuit = sample(SHEET)
    checks = catalogue(circuit, EVERYTHING)
    assert [c.id for c in checks if refusal(circuit, c)] == []
    lines = {place for pair in PAIRS for place in pair}
    own = {c.red for c in checks if c.instrument in (LAMP, SUBSTITUTE, FEED, FUSE_LAMP)}
    assert not own & lines
    ohms = [c for c in checks if c.instrument == OHMS and {c.red, c.black} & lines]
    assert ohms and all("F1" in c.setup.apart for c in ohms)


def between(red: str, black: str, apart: tuple[str, ...], *faults: Fault) -> float:
    circuit = sample(SHEET)
    check = Check(OHMS, red, black, set_up(circuit, {}, apart))
    said = expected(circuit, check, faults)
    assert isinstance(said, Reading)
    return said.mean


# ISO 11898-2: 120 ohm at each end, 60 ohm between the lines with the supply off.
@pytest.mark.parametrize(
    ("apart", "faults", "ohms"),
    [
        (("F1",), (), 60.0),
        (("F1",), (Fault("R1", "open"),), 120.0),
        (("F1",), (Fault("A1", "open:termination"),), 120.0),
        (("F1",), (Fault("W17", "open"),), 120.0),
        (("F1", "X5"), (), 120.0),
        (("F1", "X4"), (), 60.0),
        (("F1",), (Fault("A2", "across"),), 0.6),
        (("F1", "X4"), (Fault("A2", "across"),), 60.0),
    ],
)
def test_sixty_ohms_with_both_terminations_and_twice_that_with_one(
    apart: tuple[str, ...], faults: tuple[Fault, ...], ohms: float
) -> None:
    assert between(*SOCKET, apart, *faults) == pytest.approx(ohms, rel=0.01, abs=0.2)


def test_the_caution_speaks_of_a_bus_that_nothing_feeds() -> None:
    circuit = sample(SHEET)
    check = Check(OHMS, *SOCKET, set_up(circuit, {}, ("F1",)))
    assert [c.hazard for c in cautions(circuit, check)] == ["dead bus"]
    alone = Check(OHMS, "X5.1.b", "X5.2.b", set_up(circuit, {}, ("X5",)))
    assert [c.hazard for c in cautions(circuit, alone)] == ["live circuit"]


def complaint(state: str) -> Job:
    rows = [{"controls": {"S1": "on"}, "load": load, "state": state} for load in ("A1", "A2")]
    return Job(SHEET).tools("meter").add("positions tried", seen_by="me", states=rows)


def measured(job: Job, ohms: float) -> Job:
    check = job.ask("check_at", instrument=OHMS, red=SOCKET[0], black=SOCKET[1], apart=["F1"])
    kept = job.ask("weigh", record=check["record"], typed=str(ohms), unit="Ω")["record"]
    return job.add("reading taken", **kept)


def test_the_check_is_offered_with_its_fuse_out_and_refused_on_a_live_bus() -> None:
    job = complaint("errors")
    check = job.ask("check_at", instrument=OHMS, red=SOCKET[0], black=SOCKET[1], apart=["F1"])
    assert check["band"]["low"] < 60.3 < check["band"]["high"]
    assert "pull out" in check["do"] and "terminations" in check["goal"]
    told = job.refused(
        "check_at", instrument=OHMS, red=SOCKET[0], black=SOCKET[1], controls={"S1": "on"}
    )
    assert "take F1 out" in told


def test_a_hundred_and_twenty_ohms_point_at_a_termination_and_sixty_do_not() -> None:
    one = suspects(measured(complaint("errors"), 120.2).look())
    both = suspects(measured(complaint("errors"), 60.3).look())
    resistor = "Terminating resistor R1 open"
    assert one[resistor] > 0.3 > 0.1 > both.get(resistor, 0.0)
    assert any("broken through" in name or "poor joint" in name for name in both)
    assert not any("broken through" in name for name in one)


def volts_off(place: str, plug: str, *faults: Fault) -> float:
    circuit = sample(SHEET)
    check = Check(VOLTS, place, EARTH, set_up(circuit, {"S1": "on"}, (plug,)))
    assert check in catalogue(circuit, EVERYTHING) and not behind_fuse(check)
    said = expected(circuit, check, faults)
    assert isinstance(said, Reading)
    return said.mean


def test_at_a_plug_that_is_off_the_broken_line_reads_nothing_and_the_other_its_volts() -> None:
    for broken, high, low in (("W15", 0.0, 2.5), ("W16", 2.5, 0.0)):
        fault = Fault(broken, "open")
        assert volts_off("X4.1.a", "X4", fault) == pytest.approx(high, abs=0.1)
        assert volts_off("X4.2.a", "X4", fault) == pytest.approx(low, abs=0.1)


def test_a_short_that_goes_with_a_plug_lies_behind_it() -> None:
    for shorted, volts in (("W15", 2.5), ("W13", 0.0)):
        fault = Fault(shorted, "short_to_earth")
        assert volts_off("X6.6.a", "X3", fault) == pytest.approx(volts, abs=0.1)


def test_across_an_empty_fuse_seat_a_short_is_looked_for_and_at_a_line_it_is_not() -> None:
    circuit = sample(SHEET)
    setup = set_up(circuit, {"S1": "on"}, ("F1",))
    assert behind_fuse(Check(VOLTS, "F1.1", "F1.2", setup))
    assert not behind_fuse(Check(VOLTS, "F1.1", EARTH, setup))


def test_a_joint_of_a_splice_is_called_by_its_wire() -> None:
    named = places(sample(SHEET))
    assert named["SP3.2"].name == "wire W13 (OG/BK) at high line splice SP3"
    assert named["F1.2"].name == "terminal 2 of units' fuse F1"


@pytest.mark.parametrize(
    ("pair", "apart", "goal"),
    [
        (SOCKET, ["F1"], "Are both terminations of the bus there"),
        (("X5.1.a", "X5.2.a"), ["F1", "X5"], "Is the other termination of the bus there"),
        (("X3.1.b", "X3.2.b"), ["F1", "X3"], "Is there no path between the two lines"),
    ],
)
def test_what_is_asked_follows_what_is_left_on_the_bus(
    pair: tuple[str, str], apart: list[str], goal: str
) -> None:
    job = complaint("errors")
    check = job.ask("check_at", instrument=OHMS, red=pair[0], black=pair[1], apart=apart)
    assert check["goal"].startswith(goal)


def test_ohms_between_the_lines_are_foretold_with_any_plug_wired_wrongly() -> None:
    circuit_for = circuits_of(read(SHEET))
    drawn = circuit_for(AS_DRAWN)
    asked = [c for c in catalogue(drawn, EVERYTHING) if between_lines(drawn, c)]
    halves = [(name, "a") for name in drawn.connectors]
    every = [slip for half in halves for slip in slips(drawn, half)]
    assert asked and len(every) > 20
    for slip in every:
        wired = circuit_for(arranged(AS_DRAWN, slip.half, dict(slip.wiring)))
        assert all(foretold(wired, check, ()) for check in asked), slip.title
