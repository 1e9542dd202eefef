"""Relays and fuses in doubt: what one reading supposes of them holds for the next, and both are told."""

from __future__ import annotations

import json
import math
from itertools import permutations

import pytest

from footwell.checks.check import VOLTS, Check
from footwell.checks.glance import Panel
from footwell.checks.predict import Branched, Reading, expected
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.belief import believe
from footwell.diagnosis.case import Case, Epoch, Hypothesis, Taken
from footwell.diagnosis.choose import cells, distinct, live_of, panel_of
from footwell.diagnosis.course import Track
from footwell.diagnosis.likelihood import Piece, joint_log, log_chance, shares
from footwell.electrics.turns import NOTHING
from footwell.parts.battery import Battery
from footwell.parts.fuse import Fuse
from footwell.parts.lamp import Lamp
from footwell.parts.relay import Relay
from footwell.parts.resistor import Resistor

from .electrics_rig import EARTH, Part, circuit_of
from .job_rig import VAN, Data, Job, compact, sheet

SOUND = Hypothesis((), 1.0, ())


def with_relay(volts: float) -> Circuit:
    """A lamp behind a relay whose coil gets the supply."""
    nets = {"86": "plus", "85": EARTH, "30": "plus", "87": "out"}
    parts = [
        Part("L1", "lamp", Lamp(5.0, 12.0), {"1": "out", "2": EARTH}),
        Part("G1", "battery", Battery(volts, 0.02), {"+": "plus", "-": EARTH}),
        Part("K1", "relay", Relay(85.0), nets),
    ]
    return circuit_of(parts)


def with_fuse(percent: float) -> Circuit:
    """A fuse of 10 A that carries some percent of its rating."""
    load = Resistor(12.5 / (percent / 10.0) - 0.02 - 0.013)
    parts = [
        Part("R1", "resistor", load, {"1": "out", "2": EARTH}),
        Part("G1", "battery", Battery(12.5, 0.02), {"+": "plus", "-": EARTH}),
        Part("F1", "fuse", Fuse(10.0), {"1": "plus", "2": "out"}),
    ]
    return circuit_of(parts)


def volts(circuit: Circuit, place: str, value: float, epoch: int = 0) -> Taken:
    return Taken(epoch, 0, Check(VOLTS, place, EARTH, set_up(circuit)), value, "", 1)


def case_of(circuit: Circuit, *taken: Taken, epochs: tuple[Epoch, ...] = (Epoch(),)) -> Case:
    return Case(lambda _: circuit, epochs, taken)


def followed(case: Case) -> Track:
    track = Track()
    for item in case.evidence:
        log_chance(case, SOUND, Piece((item,)), track)
    return track


def last_log(case: Case) -> float:
    """Log chance of the last piece of evidence, given those before it."""
    track = Track()
    return [log_chance(case, SOUND, Piece((item,)), track) for item in case.evidence][-1]


def live_volts(circuit: Circuit, place: str) -> float:
    """What a place reads where the relay has pulled in, or the fuse holds."""
    found = expected(circuit, Check(VOLTS, place, EARTH, set_up(circuit)), ())
    assert isinstance(found, Branched)
    return max(reading.mean for _, reading in found.readings)


def test_reading_of_a_doubtful_relay_has_two_predictions_and_either_is_believed() -> None:
    circuit = with_relay(6.6)
    live = live_volts(circuit, "L1.1")
    halfway = last_log(case_of(circuit, volts(circuit, "L1.1", live / 2.0)))
    for value in (live, 0.0):
        assert last_log(case_of(circuit, volts(circuit, "L1.1", value))) > halfway + 3.0


def test_reading_halfway_is_worse_than_under_one_wide_normal_distribution() -> None:
    """A mean of two states is a reading that cannot be: only a slip gives it."""
    circuit = with_relay(6.6)
    live = live_volts(circuit, "L1.1")
    wide = -math.log(live / 2.0 * math.sqrt(2.0 * math.pi))
    assert last_log(case_of(circuit, volts(circuit, "L1.1", live / 2.0))) < wide - 3.0


@pytest.mark.parametrize("first", ["live", "dead"])
def test_relay_does_in_the_next_reading_what_it_did_in_the_first(first: str) -> None:
    circuit = with_relay(6.6)
    live = live_volts(circuit, "L1.1")
    was, other = (live, 0.0) if first == "live" else (0.0, live)
    before = volts(circuit, "L1.1", was)
    same = last_log(case_of(circuit, before, volts(circuit, "K1.87", was)))
    opposite = last_log(case_of(circuit, before, volts(circuit, "K1.87", other)))
    alone = last_log(case_of(circuit, volts(circuit, "K1.87", was)))
    assert same > alone + 0.5
    assert opposite < same - 5.0


def test_where_nothing_is_in_doubt_one_course_is_followed() -> None:
    circuit = with_relay(12.5)
    (course,) = followed(case_of(circuit, volts(circuit, "L1.1", 12.4))).courses
    assert course.known == NOTHING and course.odds == 0.0


def test_order_of_readings_of_a_doubtful_relay_does_not_matter() -> None:
    circuit = with_relay(6.6)
    live = live_volts(circuit, "L1.1")
    rows = [volts(circuit, p, live) for p in ("L1.1", "K1.87", "G1.+")]
    found = [joint_log(followed(case_of(circuit, *order))) for order in permutations(rows)]
    assert max(found) - min(found) < 1e-6


def test_shares_of_the_courses_sum_to_one_and_the_reading_decides_between_them() -> None:
    circuit = with_relay(6.6)
    open_case = followed(case_of(circuit, volts(circuit, "G1.+", 6.6)))
    assert sum(share for _, share in shares(open_case)) == pytest.approx(1.0)
    assert all(share > 0.2 for _, share in shares(open_case))
    decided = followed(case_of(circuit, volts(circuit, "L1.1", live_volts(circuit, "L1.1"))))
    assert max(share for _, share in shares(decided)) > 0.999


def test_fuse_that_opened_stays_open_and_one_that_held_holds() -> None:
    circuit = with_fuse(140.0)
    live = live_volts(circuit, "R1.1")
    held, gone = volts(circuit, "R1.1", live), volts(circuit, "R1.1", 0.0)
    assert last_log(case_of(circuit, held, held)) > last_log(case_of(circuit, held, gone)) + 5.0
    assert last_log(case_of(circuit, gone, gone)) > last_log(case_of(circuit, gone, held)) + 5.0


def test_renewed_fuse_is_in_doubt_again() -> None:
    circuit = with_fuse(140.0)
    live = live_volts(circuit, "R1.1")
    epochs = (Epoch(), Epoch((), frozenset({"F1"}), frozenset({"F1"})))
    first = volts(circuit, "R1.1", 0.0)
    after = volts(circuit, "R1.1", live, epoch=1)
    renewed = last_log(case_of(circuit, first, after, epochs=epochs))
    alone = last_log(case_of(circuit, volts(circuit, "R1.1", live)))
    assert renewed == pytest.approx(alone, abs=0.2)


def test_blown_fuse_of_a_doubtful_short_is_among_what_is_left_to_mend_only_where_it_blew() -> None:
    circuit = with_fuse(140.0)
    belief = believe(case_of(circuit, volts(circuit, "G1.+", 12.3)))
    sound = [w for w in belief.suspects if not w.hypothesis.faults]
    assert {w.left for w in sound} == {(), (("F1", "renew"),)}
    assert [w.now for w in sound if w.left] == [(Fault("F1", "open"),)]


def test_next_check_sees_both_outcomes_of_a_doubtful_relay() -> None:
    circuit = with_relay(6.6)
    check = Check(VOLTS, "L1.1", EARTH, set_up(circuit))
    (row,) = Panel(circuit, [(circuit, (), NOTHING)], True).numbers(check)
    assert sorted(round(mean) for _, mean, _ in row) == [0, 7]
    assert sum(chance for chance, _, _ in row) == pytest.approx(1.0)


def test_next_check_knows_what_the_relay_has_done_already() -> None:
    circuit = with_relay(6.6)
    case = case_of(circuit, volts(circuit, "K1.87", live_volts(circuit, "K1.87")))
    live = [w for w in live_of(believe(case)) if not w.hypothesis.faults]
    check = Check(VOLTS, "L1.1", EARTH, set_up(circuit))
    weights = {
        round(sum(w.share * chance for w, chance in cell) / sum(w.share for w in live), 3)
        for cell in cells(panel_of(case, live), check, live)
    }
    assert max(weights) > 0.99


def test_two_predictions_are_distinct_only_if_no_way_of_one_is_like_a_way_of_the_other() -> None:
    doubtful, sure = with_relay(6.6), with_relay(12.5)
    check = Check(VOLTS, "L1.1", EARTH, set_up(doubtful))
    both = expected(doubtful, check, ())
    assert not distinct(both, Reading(0.0, {}, 0.01))
    assert not distinct(Reading(live_volts(doubtful, "L1.1"), {}, 0.01), both)
    assert distinct(both, expected(sure, check, ()))


# ---- what people are told --------------------------------------------------------------------------


def weak(volts: float) -> Job:
    """The van's rear screen on a supply of so many volts."""
    job = Job(VAN)
    drawn = sheet(VAN)
    battery = next(p for p in drawn["parts"] if p["kind"] == "battery")
    battery["values"] = {"volts": volts}
    body = json.loads(job.events[0]["body"]) | {"sheet": drawn}
    job.events[0] = job.events[0] | {"body": compact(body)}
    return job.tools("meter")


ON = {"S0": "on", "S1": "on"}
MAKE = "X5.87.a"


def rows_of(job: Job) -> dict[str, Data]:
    """Rows of the expected-readings table to earth."""
    table = job.ask("expected", controls=ON)
    return {row["place"]: row for row in table["rows"] if row["black"] == "earth"}


def test_expected_table_tells_both_bands_of_a_doubtful_relay_with_the_chance_of_the_second() -> (
    None
):
    row = rows_of(weak(7.2))[MAKE]
    (other,) = row["others"]
    assert row["low"] > 6.0 and abs(other["high"]) < 0.01
    assert other["when"] == "rear screen relay K1 has not pulled in"
    told = f"{row['text'].split(',')[0]}, or 0 V if {other['when']} ({other['share'] * 100:.0f} %)"
    assert row["text"] == told and 0.1 < other["share"] < 0.3


def test_expected_table_has_one_band_where_the_doubtful_relay_changes_nothing() -> None:
    assert rows_of(weak(7.2))["F2.2"]["others"] == []


def test_expected_table_of_a_good_supply_has_one_band_everywhere_and_no_warning() -> None:
    table = weak(12.6).ask("expected", controls=ON)
    assert all(row["others"] == [] for row in table["rows"])
    assert table["warnings"] == []


def test_expected_table_warns_of_the_relay_in_doubt() -> None:
    (warning,) = weak(7.2).ask("expected", controls=ON)["warnings"]
    assert warning.startswith("Rear screen relay is near its pull-in: its coil gets 7.2 V.")


def check_at_the_make_contact(job: Job) -> Data:
    place = {"red": MAKE, "black": "earth", "controls": ON}
    return job.ask("check_at", instrument="volts", **place)


def test_check_screen_shows_both_bands_of_a_doubtful_relay_and_one_of_a_sure_one() -> None:
    band = check_at_the_make_contact(weak(7.2))["band"]
    assert "or about 0 V if rear screen relay K1 has not pulled in" in band["text"]
    assert len(band["others"]) == 1 and band["scale_low"] <= band["others"][0]["low"]
    sure = check_at_the_make_contact(weak(12.6))["band"]
    assert sure["others"] == [] and " or " not in sure["text"]


@pytest.mark.parametrize(
    ("supply", "typed", "verdict"),
    [
        (7.2, "7.0", "in the band"),
        (7.2, "0", "in the band"),
        (7.2, "3.5", "below the band"),
        (7.2, "9", "above the band"),
        (12.6, "12.4", "in the band"),
        (12.6, "0", "below the band"),
    ],
)
def test_reading_is_judged_against_either_band(supply: float, typed: str, verdict: str) -> None:
    job = weak(supply)
    record = check_at_the_make_contact(job)["record"]
    assert job.ask("weigh", record=record, typed=typed, unit="V")["verdict"] == verdict
