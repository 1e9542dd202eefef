"""From a terminal: sheets are checked, and every reading to expect is printed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from footwell.messages import ExpectedTable, SheetAnswer
from footwell.terminal.shapes import Expectations, Netlist

from .job_rig import Job
from .terminal_rig import MINIBUS_FILE, TRACTOR_FILE, VAN_FILE, answer, printed, refused, run

EVERY = pytest.mark.parametrize("file", [MINIBUS_FILE, TRACTOR_FILE, VAN_FILE])


@EVERY
def test_a_sound_sheet_is_called_sound(file: str) -> None:
    assert "The sheet is sound." in printed("sheet", file)


def test_what_a_sheet_leaves_open_is_listed() -> None:
    told = answer(SheetAnswer, "sheet", MINIBUS_FILE)
    assert told.id == "minibus-saloon-fan"
    assert all(line in printed("sheet", MINIBUS_FILE) for line in told.assumed)


def test_every_problem_of_a_sheet_is_told_with_place_and_remedy(tmp_path: Path) -> None:
    text = Path(MINIBUS_FILE).read_text("utf-8")
    spoilt = tmp_path / "spoilt.json"
    spoilt.write_text(text.replace('"kind": "fuse"', '"kind": "toaster"'), encoding="utf-8")
    ended = run("sheet", str(spoilt))
    assert ended.code == 2
    (told,) = ended.err.splitlines()
    assert told.startswith("The sheet cannot be used: ")
    assert "toaster" in told


def table(*arguments: str) -> ExpectedTable:
    (one,) = answer(Expectations, "expect", *arguments).tables
    return one


def value(found: ExpectedTable, place: str, black: str = "earth") -> float:
    (row,) = [r for r in found.rows if (r.place, r.black) == (place, black)]
    assert row.value is not None
    return row.value


def test_every_position_is_printed_where_none_is_given() -> None:
    tables = answer(Expectations, "expect", MINIBUS_FILE).tables
    assert [t.setup.controls["S1"] for t in tables] == ["0", "1", "2", "3"]
    assert len(answer(Expectations, "expect", VAN_FILE).tables) == 4


def test_a_sound_fan_gets_the_supply_at_the_top_and_half_of_it_at_the_lowest_step() -> None:
    top, low = (table(MINIBUS_FILE, "--control", f"S1={p}") for p in "31")
    assert value(top, "X4.1.a") > 23.0
    assert 10.0 < value(low, "X4.1.a") < 18.0


def test_a_fault_changes_what_is_expected_and_is_named() -> None:
    with_fault = ("--fault", "R1:open:thermal fuse")
    low, top = (table(MINIBUS_FILE, "--control", f"S1={p}", *with_fault) for p in "13")
    assert value(low, "X4.1.a") == pytest.approx(0.0, abs=0.01)
    assert value(top, "X4.1.a") > 23.0
    assert low.seen == ["fan motor M1 still"]
    assert top.seen == ["fan motor M1 runs"]
    assert "R1 open:thermal fuse" in printed("expect", MINIBUS_FILE, *with_fault)


def test_a_plug_unplugged_holds_its_voltage_through_a_joint_that_cannot_carry_the_load() -> None:
    """A meter shows full voltage through a corroded joint (common practice, no source)."""
    joint = ("--control", "S1=3", "--fault", "W8:high_resistance@20")
    assert value(table(MINIBUS_FILE, *joint, "--apart", "X4"), "X4.1.a") > 23.0
    assert value(table(MINIBUS_FILE, *joint), "X4.1.a") < 8.0


def test_a_lamp_in_place_of_the_load_shows_that_joint() -> None:
    lamp = table(
        MINIBUS_FILE, "--control", "S1=3", "--lamp", "X4=21", "--fault", "W8:high_resistance@20"
    )
    assert lamp.setup.stand_in == {"X4": "21 W"}
    assert 3.0 < value(lamp, "X4.1.a", "X4.2.a") < 20.0


@pytest.mark.parametrize(
    ("instrument", "text"),
    [
        ("clamp", r"W9 +\d"),
        ("ohms", r"F1\.1 F1\.2 +0"),
        ("test lamp", r"F1\.1 +bright"),
        ("substitute lamp", r"X4 +bright"),
        ("look", r"F1 +whole"),
        ("direct feed", r"M1 +runs"),
    ],
)
def test_other_instruments_have_their_own_readings(instrument: str, text: str) -> None:
    assert re.search(text, printed("expect", MINIBUS_FILE, "--instrument", instrument))


def test_over_range_is_a_word_and_not_a_number() -> None:
    tables = answer(
        Expectations, "expect", MINIBUS_FILE, "--instrument", "ohms", "--fault", "F1:open"
    ).tables
    rows = [r for t in tables for r in t.rows if r.place == "F1.1"]
    assert [(r.value, r.text) for r in rows] == [(None, "over range")]


def test_the_terminal_and_the_page_expect_the_same() -> None:
    page = Job().ask("expected", controls={"S1": "2"})
    assert table(MINIBUS_FILE, "--control", "S1=2").model_dump(mode="json") == page


def test_a_netlist_is_printed_for_the_set_up() -> None:
    net = answer(Netlist, "netlist", MINIBUS_FILE, "--control", "S1=3", "--fault", "F1:open")
    assert net.netlist.startswith("* ")
    assert net.netlist.rstrip().endswith(".end")
    assert "S1 in 3" in net.netlist
    assert "* F1: open" in net.netlist
    assert (
        printed("netlist", MINIBUS_FILE, "--control", "S1=3", "--fault", "F1:open") == net.netlist
    )


def test_what_is_odd_about_a_circuit_is_told() -> None:
    net = answer(Netlist, "netlist", MINIBUS_FILE, "--control", "S1=3", "--fault", "M1:short")
    assert any("blows" in line for line in net.warnings)


REFUSED = {
    "no such file": (["sheet", "nowhere.json"], "nowhere.json cannot be read"),
    "unknown part": (["expect", VAN_FILE, "--fault", "R9:open"], "R9 is no part, wire or contact"),
    "unknown mode": (["expect", VAN_FILE, "--fault", "W4:tired"], "W4 does not fail as 'tired'."),
    "no size": (["expect", VAN_FILE, "--fault", "W4:high_resistance"], "needs a size above 0"),
    "size below 0": (["expect", VAN_FILE, "--fault", "W4:high_resistance@-1"], "needs a size"),
    "size NaN": (["expect", VAN_FILE, "--fault", "W4:high_resistance@nan"], "needs a size"),
    "size of text": (["expect", VAN_FILE, "--fault", "W4:high_resistance@big"], "is a number"),
    "size too much": (["expect", VAN_FILE, "--fault", "W4:open@3"], "has no size"),
    "no mode": (["expect", VAN_FILE, "--fault", "W4"], "--fault takes PART:MODE"),
    "position": (["expect", VAN_FILE, "--control", "S1=7"], "S1 has no position 7"),
    "no position": (["expect", VAN_FILE, "--control", "S1"], "--control takes a name and a value"),
    "unplugged": (["expect", VAN_FILE, "--apart", "X99"], "X99 is not on this sheet"),
    "lamp": (["netlist", MINIBUS_FILE, "--lamp", "X4=hot"], "needs its watts, such as “21 W”"),
    "lamp's plug": (
        ["netlist", MINIBUS_FILE, "--lamp", "X2=21"],
        "X2 is no fuse and not the plug of a load",
    ),
    "instrument": (["expect", VAN_FILE, "--instrument", "nose"], "invalid choice: 'nose'"),
    "command": (["fly"], "invalid choice: 'fly'"),
    "no command": ([], "required: COMMAND"),
    "no file": (["sheet"], "required: FILE"),
}


@pytest.mark.parametrize(("arguments", "sentence"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_done_is_one_sentence(arguments: list[str], sentence: str) -> None:
    assert sentence in refused(*arguments)
