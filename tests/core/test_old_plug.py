"""As it should be, read off the old plug: the sheet follows it, and as found is compared with it."""

from __future__ import annotations

from itertools import permutations

import pytest

from footwell.circuit.circuit import AS_DRAWN
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.faults.miswiring import as_drawn
from footwell.job.replay import circuits_of, replay
from footwell.sheet.errors import ChangeError
from footwell.sheet.models import Sheet
from footwell.sheet.old_plug import read_off
from footwell.sheet.reading import read_again, read_data

from .job_rig import Data, Job
from .job_rig import sheet as data_of
from .wiring_rig import HALF, sheet_of

PLUG = ("X2", "a")
BY_SHEET = {"1": "RD/BK", "2": "GN/WH", "3": "GN/BK", "4": "GN/RD"}
"""The minibus's switch plug."""


def minibus() -> Sheet:
    return read_data(data_of("minibus-saloon-fan")).sheet


def coloured(*colours: str | None) -> Sheet:
    """A plug with lamps whose wires have these colours on the sheet."""
    data = sheet_of(len(colours))
    for wire in data["wires"]:
        if wire["id"][0] == "V":
            del wire["colour"]
            if colour := colours[int(wire["id"][1:]) - 1]:
                wire["colour"] = colour
    return read_data(data).sheet


def held(sheet: Sheet, half: tuple[str, str] = HALF) -> dict[str, str]:
    """Colours by way."""
    circuit = circuits_of(read_again(sheet))(AS_DRAWN)
    by_id = {wire.id: wire.colour or "" for wire in sheet.wires}
    drawn = as_drawn(circuit, half)
    return {w: "+".join(by_id[x] for x in ids.split("+")) for w, ids in drawn.items() if ids}


def refusal(sheet: Sheet, half: tuple[str, str], colours: dict[str, str | None]) -> str:
    with pytest.raises(ChangeError) as refused:
        read_off(sheet, half, colours)
    return refused.value.sentence


def job(**more: str | None) -> Job:
    """A job whose switch plug was read: as the sheet has it, but for some ways ("w3")."""
    colours: dict[str, str | None] = {**BY_SHEET, "5": None, "6": None}
    colours |= {way[1:]: colour for way, colour in more.items()}
    return Job().add(
        "old plug read", connector="X2", half="a", read_off="old plug", colours=colours
    )


def plug_view(job: Job) -> Data:
    view: Data = next(c for c in job.look()["connectors"] if (c["id"], c["half"]) == PLUG)
    return view


def test_a_plug_read_as_the_sheet_has_it_changes_nothing() -> None:
    taken = read_off(minibus(), PLUG, BY_SHEET | {"5": None, "6": None})
    assert taken.sheet == minibus() and taken.notices == () and not taken.unlisted


def test_colours_that_the_sheet_does_not_know_are_taken_from_the_plug() -> None:
    taken = read_off(coloured(None, None, "BU", None), HALF, {"1": "RD", "2": "GN/BK", "4": ""})
    assert held(taken.sheet) == {"1": "RD", "2": "GN/BK", "3": "BU", "4": ""}
    assert not taken.moved and len(taken.notices) == 2
    assert all("the sheet has no colour" in notice for notice in taken.notices)


def test_a_wire_that_the_plug_does_not_have_stays_and_is_told_and_an_unseen_way_is_not() -> None:
    unseen = read_off(minibus(), PLUG, {"1": "RD/BK"})
    empty = read_off(minibus(), PLUG, {"1": "RD/BK", "2": None})
    assert unseen.sheet == empty.sheet == minibus() and unseen.notices == ()
    assert empty.notices == (
        "GN/WH (W3) of the sheet was not seen in the plug. It stays in way 2.",
    )


@pytest.mark.parametrize("order", list(permutations("1234"))[::5])
def test_wires_sit_where_the_plug_has_them_and_the_circuit_works_as_before(
    order: tuple[str, ...],
) -> None:
    before = circuits_of(read_data(data_of("minibus-saloon-fan")))(AS_DRAWN)
    read = {way: BY_SHEET[source] for way, source in zip("1234", order, strict=True)}
    taken = read_off(minibus(), PLUG, {**read, "5": None, "6": None})
    assert held(taken.sheet, PLUG) == read
    after = circuits_of(read_again(taken.sheet))(AS_DRAWN)
    for position in "123":
        amps = [operate(c, set_up(c, {"S1": position})).amps("M1") for c in (before, after)]
        assert amps[0] == pytest.approx(amps[1], rel=1e-9) and amps[0] > 1.0


def test_another_colour_in_a_way_is_the_wire_of_that_way() -> None:
    taken = read_off(minibus(), PLUG, BY_SHEET | {"3": "VT"})
    assert held(taken.sheet, PLUG)["3"] == "VT" and not taken.moved
    assert taken.notices == ("Way 3: W4 is VT; the sheet has GN/BK.",)


def test_the_wire_that_is_left_over_is_the_one_whose_way_holds_another() -> None:
    taken = read_off(minibus(), PLUG, {"1": "RD/BK", "2": "GN/BK", "3": "VT", "4": "GN/RD"})
    assert held(taken.sheet, PLUG) == {"1": "RD/BK", "2": "GN/BK", "3": "VT", "4": "GN/RD"}
    assert taken.moved and any("W3 is VT" in notice for notice in taken.notices)


def test_two_wires_that_could_be_either_are_asked_for_and_nothing_changes() -> None:
    told = refusal(
        minibus(), PLUG, {"1": "GN/WH", "2": "RD/BK", "3": "GN/RD", "4": "VT", "5": "PK"}
    )
    assert "may be any of GN/BK (W4)" in told


def test_one_colour_twice_is_taken_in_the_order_of_the_sheet_and_told() -> None:
    sheet = coloured("RD", "BN", "BN", "BU")
    taken = read_off(sheet, HALF, {"1": "BN", "2": "BN", "3": "RD", "4": "BU"})
    assert any("More than one wire is BN" in notice for notice in taken.notices)
    twin = read_off(sheet, HALF, {"1": "RD", "2": "BN", "3": "BN", "4": "BU"})
    assert twin.notices == ()


def test_a_wire_that_the_sheet_does_not_have_belongs_in_its_way_all_the_same() -> None:
    view = plug_view(job(w6="OG"))
    assert view["should_from"] == "old plug"
    assert next(w["should"] for w in view["ways"] if w["way"] == "6") == "spare OG"
    found = {"1": "W2", "2": "W3", "3": "W4", "4": "W5", "5": None, "6": "spare OG"}
    read = job(w6="OG")
    told = read.ask("wiring", connector="X2", half="a", found=found)["finding"]
    assert told["same"] and any("on no sheet" in note for note in told["notes"])
    gone = read.ask("wiring", connector="X2", half="a", found=found | {"6": None})["finding"]
    assert not gone["same"] and gone["moves"] == ["Put a spare wire OG into way 6."]
    stray = Job().ask("wiring", connector="X2", half="a", found=found)["finding"]
    assert not stray["same"] and any("insulate" in note for note in stray["notes"])


def test_wired_as_the_old_plug_with_a_wire_of_no_sheet_is_not_asked_to_be_put_right() -> None:
    found = {"1": "W2", "2": "W3", "3": "W4", "4": "W5", "5": None, "6": "spare OG"}
    read = job(w6="OG").add("wiring found", connector="X2", half="a", found=found)
    assert replay(read.stored()).case.epochs[-1].arrangement == ()
    stray = Job().add("wiring found", connector="X2", half="a", found=found)
    assert replay(stray.stored()).case.epochs[-1].arrangement != ()


def test_as_found_is_compared_with_the_old_plug_and_after_undo_with_the_sheet() -> None:
    exchanged = job(w2="GN/BK", w3="GN/WH")
    found = {"1": "W2", "2": "W4", "3": "W3", "4": "W5", "5": None, "6": None}
    asked = {"connector": "X2", "half": "a", "found": found}
    assert exchanged.ask("wiring", **asked)["finding"]["same"]
    undone = exchanged.withdraw(len(exchanged.events))
    told = undone.ask("wiring", **asked)
    assert told["should_from"] == "sheet"
    assert told["finding"]["slip"] == "The wires of ways 2 and 3 exchanged"


def test_wired_as_the_sheet_differs_from_an_old_plug_that_has_it_otherwise() -> None:
    found = {"1": "W2", "2": "W3", "3": "W4", "4": "W5", "5": None, "6": None}
    exchanged = job(w2="GN/BK", w3="GN/WH")
    told = exchanged.ask("wiring", connector="X2", half="a", found=found)["finding"]
    assert told["slip"] == "The wires of ways 2 and 3 exchanged" and len(told["moves"]) == 3
    assert not told["same"] and told["effects"]


def test_a_reading_taken_before_stays_at_its_way() -> None:
    read = Job().tools("meter").dead().volts("X2.2.a", 24.0, "1")
    before = len(read.look()["history"])
    colours: dict[str, str | None] = {**BY_SHEET, "2": "GN/BK", "3": "GN/WH", "5": None, "6": None}
    read.add("old plug read", connector="X2", half="a", read_off="other half", colours=colours)
    view = read.look()
    assert view["problems"] == [] and len(view["history"]) == before + 1
    assert "read off the other half" in view["history"][-1]["title"]


@pytest.mark.parametrize(
    ("colours", "told"),
    [
        ({"9": "RD"}, "X2 has no way 9; its ways are 1, 2, 3, 4, 5, 6"),
        ({"1": "RX"}, "Way 1: In wire colour 'RX'"),
        ({"1": "RD/RD"}, "same base and stripe"),
        ({"1": "RD/BK+BN"}, "Way 1: the sheet has 1 wire there (RD/BK (W2)), the plug 2 wires"),
        ({"1": "GN/WH", "2": None}, "is in no way of the plug, and another wire sits where"),
    ],
)
def test_what_cannot_be_is_told_and_the_sheet_stays(
    colours: dict[str, str | None], told: str
) -> None:
    assert told in refusal(minibus(), PLUG, colours)
    refused = Job().refused("old_plug", connector="X2", half="a", colours=colours)
    assert told in refused
    kept = Job().add("old plug read", connector="X2", half="a", colours=colours).look()
    assert any(told in problem for problem in kept["problems"])
    assert (
        plug_view(Job())["ways"]
        == plug_view(Job().add("old plug read", connector="X2", half="a", colours=colours))["ways"]
    )


def test_a_connector_that_is_not_there_is_told() -> None:
    assert "X9 is no connector" in refusal(minibus(), ("X9", "a"), {"1": "RD"})


def test_two_wires_crimped_into_one_way_are_read_as_two() -> None:
    data = data_of("minibus-saloon-fan")
    taken = read_off(read_data(data).sheet, ("X4", "a"), {"1": "BU+GN/RD", "2": "BK"})
    assert taken.notices == ("Way 2: W10 is BK; the sheet has BN.",)
