"""What a replay makes of entries, one by one; what it cannot use is told in a sentence."""

from __future__ import annotations

import math

import pytest

from footwell.checks.hands import Tools
from footwell.diagnosis.case import Sighting, Taken
from footwell.faults.miswiring import as_drawn
from footwell.job.events import Event
from footwell.job.replay import JobError, Replayed, replay, words_of

from .job_rig import MINIBUS, TRACTOR, VAN, Job

X2 = ("X2", "a")
SWAPPED = {"1": "W3", "2": "W2"}
DRAWN = {"1": "W2", "2": "W3", "3": "W4", "4": "W5", "5": None, "6": None}


def known(job: Job) -> Replayed:
    return replay(job.stored())


def found(job: Job, ways: dict[str, str | None] | dict[str, str]) -> Job:
    return job.add("wiring found", connector="X2", half="a", found=ways, loose=[])


def corrected(job: Job, ways: dict[str, str | None]) -> Job:
    return job.add("wiring corrected", connector="X2", half="a", now=ways)


def repaired(job: Job, element: str) -> Job:
    return job.add("repair done", element=element, mode="open", what="renewed", note="")


def way_1(replayed: Replayed) -> list[str | None]:
    """The wire in way 1 of X2 in each epoch."""
    told = [dict(epoch.arrangement).get(X2) for epoch in replayed.case.epochs]
    return [DRAWN["1"] if ways is None else dict(ways).get("1") for ways in told]


def test_wiring_found_was_so_from_the_beginning_and_corrected_wiring_is_so_from_then_on() -> None:
    assert way_1(known(found(Job(), SWAPPED))) == ["W3"]
    assert way_1(known(found(repaired(Job(), "M1"), SWAPPED))) == ["W3", "W3"]
    assert way_1(known(corrected(found(Job(), SWAPPED), DRAWN))) == ["W3", "W2"]


def test_a_second_look_at_a_half_tells_nothing_of_the_time_before_the_first() -> None:
    again = found(found(repaired(Job(), "M1"), SWAPPED), DRAWN)
    assert way_1(known(again)) == ["W3", "W2"]
    after_correcting = found(corrected(found(Job(), SWAPPED), DRAWN), {"1": None})
    assert way_1(known(after_correcting)) == ["W3", None]
    without_a_look = found(corrected(Job(), DRAWN), SWAPPED)
    assert way_1(known(without_a_look)) == ["W2", "W3"]


def test_a_half_as_drawn_leaves_the_other_halves_as_found() -> None:
    job = found(Job().add("wiring found", connector="X4", half="a", found={"1": None}), SWAPPED)
    both, one = known(job), known(corrected(job, DRAWN))
    assert {half for half, _ in both.case.epochs[0].arrangement} == {X2, ("X4", "a")}
    assert {half for half, _ in one.case.epochs[1].arrangement} == {("X4", "a")}
    assert one.wired[X2] == as_drawn(one.case.circuit_for(()), X2)


def test_a_repair_mends_one_element_more_and_a_correction_renews_none() -> None:
    first, second, third, fourth = known(
        corrected(repaired(repaired(Job(), "R1"), "M1"), DRAWN)
    ).case.epochs
    assert (first.mended, first.renewed) == (frozenset(), frozenset())
    assert (second.mended, second.renewed) == ({"R1"}, {"R1"})
    assert (third.mended, third.renewed) == ({"R1", "M1"}, {"M1"})
    assert (fourth.mended, fourth.renewed) == ({"R1", "M1"}, frozenset())


def test_after_a_repair_or_a_correction_the_positions_are_due_until_they_are_told() -> None:
    for job in (repaired(Job(), "R1"), corrected(Job(), DRAWN)):
        assert known(job).case.positions_due is True
        assert known(job.dead()).case.positions_due is False
    assert known(Job()).case.positions_due is False


def test_a_repair_of_what_is_not_there_is_told_and_not_used() -> None:
    told = known(repaired(Job(), "Q" * 50))
    assert len(told.case.epochs) == 1
    expected = f"Entry 2 (repair done) is kept, but not used. {'Q' * 40} is not on this sheet."
    assert told.problems == (expected,)


def test_a_sitting_has_its_engine_its_number_and_no_last_check() -> None:
    job = Job().volts("F1.2", 24.0, "1")
    assert known(job).case.last_check is not None
    job.add("sitting begun", engine="on", supply_volts=27.5)
    case = known(job).case
    assert (case.engine, case.sitting, case.last_check) == ("on", 1, None)
    reading, supply = case.evidence
    assert isinstance(reading, Taken)
    assert isinstance(supply, Taken)
    assert (supply.check.red, supply.check.black) == ("G1.+", "G1.-")
    assert (supply.check.setup.engine, supply.check.setup.controls) == ("on", (("S1", "0"),))
    assert (supply.epoch, supply.sitting, supply.value, supply.word) == (0, 1, 27.5, "")
    assert (reading.sitting, reading.check.setup.engine) == (0, "off")


def test_positions_are_sightings_of_their_time_by_whom_they_were_seen() -> None:
    job = repaired(Job().add("sitting begun", engine="on"), "R1").positions("me", p2="runs")
    (seen,) = known(job).case.evidence
    assert isinstance(seen, Sighting)
    assert (seen.epoch, seen.sitting, seen.load, seen.word) == (1, 1, "M1", "runs")
    assert (seen.setup.controls, seen.setup.engine) == ((("S1", "2"),), "on")
    assert seen == known(job).case.evidence[0]


def test_a_state_that_the_sheet_does_not_know_is_told_and_the_others_count() -> None:
    told = known(Job().positions(p1="glows", p2="still"))
    assert told.problems == ("What M1 did (glows) is not known to this sheet.",)
    assert len(told.case.evidence) == 1


def test_over_range_is_no_number_and_a_word_is_one() -> None:
    over = Job().add(
        "reading taken", instrument="ohms", red="F1.1", black="F1.2", choice="over range"
    )
    lit = Job().add("reading taken", instrument="test lamp", red="F1.2", choice="lit")
    (first,), (second,) = known(over).case.evidence, known(lit).case.evidence
    assert isinstance(first, Taken)
    assert isinstance(second, Taken)
    assert (first.value, first.word) == (math.inf, "")
    assert (second.value, second.word) == (None, "lit")


def test_a_reading_that_clears_nothing_is_the_last_check_all_the_same() -> None:
    case = known(Job().volts("F1.2", 24.0, "1", choice="not steady")).case
    assert case.evidence == ()
    assert case.last_check is not None
    assert case.last_check.red == "F1.2"


def tools_after(check: str, reason: str) -> Tools:
    job = Job().add("tools stated", instruments=["test lamp", "meter", "clamp"], helper=True)
    return known(job.add("check skipped", check=check, reason=reason)).case.tools


@pytest.mark.parametrize(
    ("check", "left"),
    [
        ("volts F1.2 earth S1=1", ("clamp", "test lamp")),
        ("test lamp F1.2 earth S1=1", ("clamp", "meter")),
        ("lamp for fuse F1 S1=1", ("clamp", "meter")),
        ("look F1", ("clamp", "meter", "test lamp")),
        ("of a later release", ("clamp", "meter", "test lamp")),
        ("", ("clamp", "meter", "test lamp")),
    ],
)
def test_without_its_instrument_a_check_takes_that_tool_and_no_other(
    check: str, left: tuple[str, ...]
) -> None:
    assert tools_after(check, "no instrument") == Tools(left, True)


def test_who_is_alone_has_no_helper_and_keeps_the_tools() -> None:
    every = ("clamp", "meter", "test lamp")
    assert tools_after("volts F1.2 earth S1=1", "alone") == Tools(every, False)
    assert tools_after("volts F1.2 earth S1=1", "other") == Tools(every, True)


def test_a_tool_that_was_missing_is_there_again_when_the_tools_are_stated_anew() -> None:
    job = (
        Job().tools("meter").add("check skipped", check="volts F1.2 earth", reason="no instrument")
    )
    assert known(job).case.tools.names == ()
    assert known(job.tools("meter")).case.tools.names == ("meter",)
    assert (known(job).tools_known, known(Job()).tools_known) == (True, False)


@pytest.mark.parametrize(
    ("check", "places"),
    [("volts X4.1.a earth S1=1", {"X4"}), ("watch M1 S1=1", set()), ("", set())],
)
def test_a_place_that_cannot_be_reached_is_the_one_the_check_names(
    check: str, places: set[str]
) -> None:
    case = known(Job().add("check skipped", check=check, reason="cannot reach")).case
    assert case.unreachable == places
    assert case.skipped == {check}


def test_halves_that_somebody_wired_are_doubtful_until_they_were_looked_into() -> None:
    told = Job().add("story told", rewired=["S1", "X3"], seen=[{"where": "X2", "what": "green"}])
    case = known(told).case
    assert case.doubtful == (X2, ("X3", "a"))
    assert known(found(told, DRAWN)).case.doubtful == (("X3", "a"),)
    assert (case.story.rewired, case.story.seen) == (
        ("S1", "X3"),
        (("X2", "green"),),
    )
    assert known(Job().add("story told", renewed=["S1"])).case.story.renewed == ("S1",)


def test_words_are_for_loads_and_for_what_clicks() -> None:
    tractor, minibus = (known(Job(it)).case.circuit_for(()) for it in (TRACTOR, MINIBUS))
    assert "still" in words_of(minibus, "M1")
    assert words_of(tractor, "K1")
    for nothing in ("F1", "W1", "Z9", ""):
        assert words_of(tractor, nothing) == ()


def test_entries_that_cannot_be_used_are_told_one_by_one() -> None:
    job = Job().add_text("story told", "{").add_text("of a later release", "{}")
    job.events.append(job.events[0])
    told = known(job)
    assert told.problems == (
        "Entry 2 (story told) cannot be read. It is kept, but not used.",
        "Entry 3 is from a newer Footwell. It is kept, but not used here.",
        "Entry 1 is there twice. It counts once.",
    )
    assert [entry.event.n for entry in told.told] == [1]


def test_a_withdrawal_can_be_withdrawn_and_one_that_cannot_be_read_withdraws_nothing() -> None:
    job = Job().dead().withdraw(2)
    assert known(job).case.evidence == ()
    assert known(job).withdrawn == {(job.events[0]["device"], 2)}
    assert len(known(job.withdraw(3)).case.evidence) == 3
    assert len(known(Job().dead().add_text("event withdrawn", "{}")).case.evidence) == 3


@pytest.mark.parametrize("events", [[], [1]])
def test_without_an_opening_entry_there_is_no_job(events: list[int]) -> None:
    stored: list[Event] = [Job().dead().stored()[n] for n in events]
    with pytest.raises(JobError) as refused:
        replay(stored)
    assert (refused.value.code, refused.value.details) == ("job", ())
    assert refused.value.sentence == (
        "This job has no opening entry, so there is no circuit to work on. Open a new job."
    )


def test_a_sheet_edit_that_cannot_be_is_told_and_the_rest_of_it_is_done() -> None:
    good = {"element": "W3", "field": "metres", "value": 1.4}
    bad = {"element": "W99", "field": "metres", "value": 1.4}
    told = known(Job().add("sheet edited", changes=[bad, good]))
    assert next(w.metres for w in told.read.sheet.wires if w.id == "W3") == 1.4
    assert len(told.problems) == 1
    assert "W99" in told.problems[0]


def test_title_story_and_practice_are_those_of_the_entries() -> None:
    job = Job(VAN).add("story told", words="Wet.").add("story told", words="Dry.")
    told = known(job)
    assert told.title == Job(VAN).events[0]["body"].split('"title":"')[1].split('"')[0]
    assert told.story is not None
    assert (told.story.words, told.practice) == ("Dry.", False)
    assert known(Job().add("practice begun", faults=[], wired=[])).practice
    assert known(Job()).story is None


def test_a_place_found_in_a_wire_is_on_the_sheet_where_it_was_found() -> None:
    job = Job().add("place found", inside="W6", what="splice", at="behind the pillar")
    told = known(job)
    assert told.problems == ()
    before = {part.id for part in known(Job()).read.sheet.parts}
    (new,) = [part for part in told.read.sheet.parts if part.id not in before]
    assert (new.kind, new.at) == ("splice", "behind the pillar")
    unknown = known(Job().add("place found", inside="W99", what="splice", at=""))
    assert len(unknown.problems) == 1
    assert unknown.read.sheet == known(Job()).read.sheet


def test_a_wiring_list_changes_the_wires_it_names() -> None:
    wire = {"id": "W4", "start": "X2.3.a", "end": "X1.2.a", "colour": "RD", "mm2": 4.0}
    told = known(Job().add("wires listed", wires=[wire]))
    listed = next(it for it in told.read.sheet.wires if it.id == "W4")
    assert (listed.colour, listed.mm2, told.problems) == ("RD", 4.0, ())


def test_sittings_are_counted_and_evidence_knows_the_entry_it_came_from() -> None:
    job = Job().add("sitting begun").add("sitting begun", supply_volts=25.0)
    case = known(job.volts("F1.2", 24.0, "1")).case
    assert case.sitting == 2
    assert [it.number for it in case.evidence if isinstance(it, Taken)] == [2, 3]


def test_entries_after_a_withdrawn_one_and_after_a_doubled_one_count() -> None:
    job = Job().add("sitting begun", engine="on").withdraw(2)
    job.events.append(job.events[0])
    assert len(known(job.volts("F1.2", 24.0, "1")).case.evidence) == 1
