"""A typed reading: refused where it cannot be, asked back once where a slip would explain it.

A reading that is bad, as in this work they are, goes through without a word. All on the minibus's
fan (24 V), dead in every position, by the sheet's own figures.
"""

from __future__ import annotations

import pytest

from .job_rig import Data, Job, compact

FEED, RETURN = "X4.1.a", "X4.2.a"
"""The motor's plug: about 24.4 V to earth at 3 where all is well, and some 55 mV."""


def dead() -> Job:
    return Job().tools("meter", "clamp").dead()


def weighed(
    red: str, typed: str, unit: str = "V", black: str = "earth", job: Job | None = None
) -> Data:
    job = job or dead()
    place = {"red": red, "black": black, "controls": {"S1": "3"}}
    record = job.ask("check_at", instrument="volts", **place)["record"]
    return job.ask("weigh", record=record, typed=typed, unit=unit)


def goes_through(answer: Data) -> bool:
    return not answer["refuse"] and not answer["ask"] and answer["record"] is not None


@pytest.mark.parametrize(
    ("typed", "unit", "volts"),
    [
        ("24.3", "V", 24.3),
        ("24,3", "V", 24.3),
        (" 24,3 ", "V", 24.3),
        ("24300", "mV", 24.3),
        ("+24.3", "V", 24.3),
        ("24.", "V", 24.0),
        ("0", "V", 0.0),
        (",4", "V", 0.4),
    ],
)
def test_a_number_with_either_decimal_mark(typed: str, unit: str, volts: float) -> None:
    answer = weighed(FEED, typed, unit)
    assert goes_through(answer)
    assert answer["record"]["value"] == pytest.approx(volts)


@pytest.mark.parametrize("minus", ["-", "−", "–"], ids=["hyphen", "minus sign", "dash"])
def test_a_minus_however_the_keyboard_writes_it(minus: str) -> None:
    answer = weighed("F1.2", f"{minus}0,02", black="F1.1")
    assert answer["record"]["value"] == pytest.approx(-0.02)


@pytest.mark.parametrize("typed", ["", "  "])
def test_an_empty_reading_is_refused(typed: str) -> None:
    assert weighed(FEED, typed)["refuse"] == "Nothing was entered. Type the number on the meter."


@pytest.mark.parametrize(
    "typed", ["x", "1e9", "1,2,3", "1.2.3", "--3", "NaN", "inf", "12 V", ".", "-"]
)
def test_what_is_no_number_is_refused(typed: str) -> None:
    answer = weighed(FEED, typed)
    assert answer["refuse"] == f"“{typed}” is not a number. Use digits and one decimal mark."
    assert answer["record"] is None


def test_a_thousand_million_volts_are_refused_with_the_most_there_can_be() -> None:
    answer = weighed(FEED, "1000000000")
    assert "is more than a 24 V vehicle can show (at most 32 V)" in answer["refuse"]
    assert (answer["ask"], answer["record"]) == ("", None)


def test_the_highest_voltage_of_a_charging_vehicle_is_not_refused() -> None:
    """A 24 V alternator holds about 28 V, and up to 32 V are stood for a while (ISO 16750-2)."""
    assert not weighed(FEED, "31.9")["refuse"]


@pytest.mark.parametrize("typed", ["120.4", "380"])
def test_millivolts_typed_as_volts_are_asked_back_and_not_only_refused(typed: str) -> None:
    answer = weighed("F1.1", typed, black="F1.2")
    assert answer["ask"] == f"{typed} V cannot be read here. Was it {typed} mV?"
    assert (answer["offer_typed"], answer["offer_unit"]) == (typed, "mV")


def test_who_insists_on_what_cannot_be_is_told_why_it_is_not_kept() -> None:
    answer = weighed("F1.1", "120.4", black="F1.2")
    assert "is more than a 24 V vehicle can show" in answer["refuse"]
    assert answer["record"] is None


def test_what_cannot_be_below_zero_is_refused_with_the_sign_as_it_was_typed() -> None:
    assert weighed(FEED, "-99999")["refuse"].startswith("−99999 V is more than")


def test_possible_volts_that_would_be_right_in_millivolts_are_asked_back_and_kept_on_demand() -> (
    None
):
    answer = weighed("F1.1", "21", black="F1.2")
    assert answer["offer"] == "21 mV"
    assert answer["record"]["value"] == 21.0


def test_the_same_figure_typed_in_millivolts_goes_through() -> None:
    assert goes_through(weighed("F1.1", "21", "mV", black="F1.2"))


@pytest.mark.parametrize(("typed", "offer"), [("2.43", "24.3 V"), ("243", "24.3 V")])
def test_a_decimal_mark_one_place_off_is_asked_back(typed: str, offer: str) -> None:
    assert weighed(FEED, typed)["offer"] == offer


def test_leads_the_wrong_way_round_are_asked_back() -> None:
    assert weighed(FEED, "-24.3")["offer"] == "24.3 V"


@pytest.mark.parametrize("typed", ["0", "0.1", "8", "12", "17.2", "22"])
def test_a_bad_reading_of_the_feed_is_not_questioned(typed: str) -> None:
    answer = weighed(FEED, typed)
    assert goes_through(answer)
    assert answer["verdict"] == "below the band"


@pytest.mark.parametrize("typed", ["0.38", "4.1", "12", "24.5"])
def test_a_bad_reading_of_the_return_is_not_questioned(typed: str) -> None:
    answer = weighed(RETURN, typed)
    assert goes_through(answer)
    assert answer["verdict"] == "above the band"


def test_an_open_fuse_with_the_whole_supply_across_it_is_not_questioned() -> None:
    assert goes_through(weighed("F1.1", "25.1", black="F1.2"))


def test_what_is_kept_says_how_it_was_typed_and_what_was_made_of_it() -> None:
    record = weighed(FEED, "17,2")["record"]
    assert record["typed"] == "17,2 V"
    assert record["shown"]["verdict"] == "below the band"


def test_what_is_kept_is_an_event_that_counts() -> None:
    job = dead()
    record = weighed(FEED, "24,3", job=job)["record"]
    view = job.add_text("reading taken", compact(record)).look()
    assert view["problems"] == []
    assert view["history"][-1]["value"] == "24.3 V"


def test_a_unit_of_another_instrument_is_refused() -> None:
    told = "The unit Ω does not fit this check. Choose one of V, mV."
    assert weighed(FEED, "24.3", "Ω")["refuse"] == told


def asked(instrument: str, red: str, black: str = "", **more: object) -> Data:
    return dead().ask("check_at", instrument=instrument, red=red, black=black, **more)["record"]  # type: ignore[no-any-return]


def test_a_resistance_below_zero_is_refused() -> None:
    record = asked("ohms", "X4.1.b", "X4.2.b", apart=["X4"])
    assert "below zero" in dead().ask("weigh", record=record, typed="-3", unit="Ω")["refuse"]


def test_a_resistance_off_the_scale_has_a_key_of_its_own() -> None:
    record = asked("ohms", "X4.1.b", "X4.2.b", apart=["X4"])
    assert "over range" in dead().ask("weigh", record=record, typed="900", unit="MΩ")["refuse"]


@pytest.mark.parametrize(("typed", "offer"), [("31", "3.1 A"), ("3.1", "")])
def test_a_current_ten_times_off_is_asked_back(typed: str, offer: str) -> None:
    record = asked("clamp", "W9", controls={"S1": "1"})
    assert dead().ask("weigh", record=record, typed=typed, unit="A")["offer"] == offer


def test_a_number_for_a_check_by_eye_is_refused() -> None:
    record = asked("look", "F1")
    sentence = "This check is answered with a word. Choose one of its answers."
    assert dead().ask("weigh", record=record, typed="3", unit="V")["refuse"] == sentence


def test_a_record_of_another_sheet_is_refused_with_the_reason() -> None:
    record = asked("look", "F1") | {"instrument": "volts", "red": "X77.1.a"}
    sentence = dead().ask("weigh", record=record, typed="3", unit="V")["refuse"]
    assert sentence.startswith("X77.1.a is not a place on this sheet.")


def blown_fuse() -> Job:
    """The fuse was looked at and found blown: supply voltage across it is what is likely."""
    return dead().add(
        "reading taken", instrument="look", red="F1", black="", setup={}, choice="blown"
    )


def test_a_supply_voltage_on_a_key_left_at_millivolts_is_asked_back() -> None:
    answer = weighed("F1.1", "24.9", "mV", black="F1.2", job=blown_fuse())
    assert answer["offer"] == "24.9 V"


def test_millivolts_that_a_sound_fuse_drops_are_not_asked_back() -> None:
    working = Job().tools("meter").positions(p1="still", p2="still", p3="runs")
    assert goes_through(weighed("F1.1", "45.9", "mV", black="F1.2", job=working))


def test_supply_voltage_across_a_blown_fuse_is_not_asked_back() -> None:
    assert goes_through(weighed("F1.1", "24.9", "V", black="F1.2", job=blown_fuse()))
