"""A sheet's wires out as a wiring list, and a list taken over: whole, or with every reason why not."""

from __future__ import annotations

from dataclasses import replace
from itertools import chain

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.reference.colours import COLOURS
from footwell.reference.conductors import LARGEST_MM2, SMALLEST_MM2
from footwell.sheet.errors import ListError
from footwell.sheet.list_reading import TakenList, take_list
from footwell.sheet.models import Sheet, SheetWire
from footwell.sheet.reading import read_data, read_sheet
from footwell.sheet.wiring_list import ListedWire, wiring_list, with_wires

from .sheet_samples import CIRCUITS

SHEETS = {file.stem: read_sheet(file.read_text("utf-8")).sheet for file in CIRCUITS}
SENSOR = SHEETS["estate-coolant-sensor"]


def taken(*lines: str, sheet: Sheet = SENSOR) -> TakenList:
    return take_list("\n".join(lines), sheet)


def refused(*lines: str, sheet: Sheet = SENSOR) -> list[str]:
    with pytest.raises(ListError) as error:
        taken(*lines, sheet=sheet)
    return list(error.value.details)


def wire(name: str, sheet: Sheet) -> SheetWire:
    return next(each for each in sheet.wires if each.id == name)


@pytest.mark.parametrize("name", SHEETS)
def test_a_list_taken_over_by_its_own_sheet_changes_nothing(name: str) -> None:
    again = taken(wiring_list(SHEETS[name]), sheet=SHEETS[name])
    assert again.sheet == SHEETS[name]
    assert (again.new, again.changed) == ((), ())


SIZES = st.none() | st.floats(SMALLEST_MM2, LARGEST_MM2)
LENGTHS = st.none() | st.floats(0, 60, exclude_min=True)
CODES = st.none() | st.lists(st.sampled_from([*COLOURS]), min_size=1, max_size=2, unique=True).map(
    "/".join
)
LOOKS = st.tuples(CODES, SIZES, LENGTHS)


@st.composite
def dressed(draw: st.DrawFn) -> Sheet:
    """A sheet of the library whose wires have any colours, cross-sections and lengths, in any order."""
    sheet = SHEETS[draw(st.sampled_from([*SHEETS]))]
    wires = [
        each.model_copy(update=dict(zip(("colour", "mm2", "metres"), draw(LOOKS), strict=True)))
        for each in draw(st.permutations(sheet.wires))
    ]
    return sheet.model_copy(update={"wires": wires})


def listed(sheet: Sheet) -> list[ListedWire]:
    return [ListedWire(w.id, w.start, w.end, w.colour, w.mm2, w.metres) for w in sheet.wires]


@given(dressed(), st.sampled_from(",;\t"), st.booleans(), st.sampled_from(["\n", "\r\n"]))
def test_the_wires_of_a_sheet_come_back_from_its_list(
    sheet: Sheet, separator: str, marked: bool, ending: str
) -> None:
    # No cell of a list that Footwell writes holds a comma.
    text = wiring_list(sheet).replace(",", separator).replace("\r\n", ending)
    bare = sheet.model_copy(update={"wires": []})
    again = take_list("\ufeff" * marked + text, bare)
    assert listed(again.sheet) == listed(sheet)
    assert again.new == tuple(each.id for each in sheet.wires)


@given(dressed(), st.randoms(use_true_random=False))
def test_without_names_each_line_finds_the_wire_between_its_points(sheet: Sheet, chance) -> None:  # type: ignore[no-untyped-def]
    lines = ["from,to,colour"]
    for each in sheet.wires:
        ends = [each.start, each.end]
        chance.shuffle(ends)
        lines.append(",".join([*ends, "PK"]))
    painted = taken(*lines, sheet=sheet)
    assert painted.new == ()
    assert painted.sheet.wires == [each.model_copy(update={"colour": "PK"}) for each in sheet.wires]


@given(st.text(max_size=300) | st.text(alphabet='fromt,;\t\n"X1.2abRD0,75', max_size=300))
def test_whatever_a_file_holds_is_a_list_or_is_told_what_is_wrong(text: str) -> None:
    try:
        take_list(f"from,to,colour,mm2\n{text}", SENSOR)
    except ListError as error:
        assert error.details and all(": " in each for each in error.details)


def test_lists_of_the_trade_are_read_with_their_own_headings_separators_and_marks() -> None:
    after = taken(
        "\ufeffsep=;",
        "Wire No;From connector;From pin;To;Color;Cross-section [mm²];Length",
        '6;x3;1.a;X1/1;"red/black";0,75;1,2 m',
        ";X1;2;x3:2.a;GN;;",
    )
    assert after.changed == ("W6", "W7")
    changed = wire("W6", after.sheet)
    assert (changed.colour, changed.mm2, changed.metres, changed.celsius) == (
        "RD/BK",
        0.75,
        1.2,
        60,
    )
    assert wire("W7", after.sheet).colour == "GN"
    assert wire("W7", after.sheet).mm2 == wire("W7", SENSOR).mm2


def test_a_new_line_is_a_new_wire_and_what_is_not_listed_stays() -> None:
    after = taken("from,to,colour", "F1.2,G1.+,RD/WH")
    assert after.new == ("W9",)
    assert after.sheet.wires[:-1] == SENSOR.wires
    (told,) = after.notices
    assert told.startswith("W0, W1, W2") and told.endswith("kept as before.")


def test_a_wire_that_sits_in_another_way_is_moved_by_its_name() -> None:
    moved = taken(
        "wire,from,to",
        *("W6,X3.3.a,X1.1.a", "W5,X2.1.a,X3.3.b"),
    )
    assert wire("W6", moved.sheet).start == "X3.3.a"
    assert wire("W6", moved.sheet).colour == wire("W6", SENSOR).colour


def test_two_wires_in_one_way_and_a_colour_twice_in_a_plug_are_told_and_taken() -> None:
    text = (
        "wire,from,to,colour",
        "W6,X3.1.a,X1.1.a,BN",
        "W7,X1.2.a,X3.2.a,BN",
        "W90,X1.2.a,earth,BK",
    )
    told = " ".join(taken(*text).notices)
    assert "Way X1.2 has 2 wires (line 3 and line 4)" in told
    assert "X3 BN (line 2 and line 3)" in told
    assert "X1 BN (line 2 and line 3)" in told


def test_different_colours_in_ways_of_their_own_give_no_notice_but_of_what_is_not_listed() -> None:
    told = taken("from,to,colour", "X3.1.a,X1.1.a,BN", "X1.2.a,X3.2.a,GN").notices
    assert [each for each in told if "kept as before" not in each] == []


@pytest.mark.parametrize(
    ("lines", "where", "what", "remedy"),
    [
        (["from,to,colour", "X1.1,X3.1.a,XX"], "line 2, column 3 (colour)", "'XX'", "write one of"),
        (["from,to,colour", "X1.1,X3.1.a,GR"], "line 2, column 3 (colour)", "German", "GY"),
        (["from,to,colour", "X1.1,X3.1.a,RDBU"], "line 2, column 3 (colour)", "joined", "RD/BU"),
        (["from,to,price", "X1.1,X3.1.a,12"], "line 1, column 3", '"price"', "Rename"),
        (["from,to,from", "X1.1,X3.1.a,X1.1"], "line 1, column 3", "both are from", "Keep one"),
        (["from,colour", "X1.1,RD"], "line 1", '"to" is missing', 'by "to"'),
        (["from connector,to", "X1,X3.1.a"], "line 1", '"from" is missing', '"from pin"'),
        (["from,from pin,to", "X1,1,X3.1.a"], "line 1", "so is from pin", "Keep from"),
        (["from,to", "X1.9,X3.1.a"], "line 2, column 1 (from)", "no way 9", "Its ways are 1, 2"),
        (["from,to", "X1.1,X8.1"], "line 2, column 2 (to)", '"X8"', "correct the name"),
        (["from,to", "X1.1,X3.1"], "line 2, column 2 (to)", "two halves", "X3.1.a or X3.1.b"),
        (["from,to", "X3.1.a,X1.1.b"], "line 2, column 2 (to)", "sits on B1.1", "Write X1.1.a"),
        (["from,to", "X3.1.a,"], "line 2, column 2 (to)", "missing", "X2.3 or earth"),
        (["from,to", "X3.1.a,..."], "line 2, column 2 (to)", "no point", "X2.3 or earth"),
        (["from,to", "X1.1,X1.1.a"], "line 2, column 2 (to)", "Both ends", "Correct one end"),
        (["from,to,mm2", "X1.1,X3.1.a,0,75"], "line 2", "4 cells", "quotation marks"),
        (["from,to,mm2", "X1.1,X3.1.a,thick"], "line 2, column 3 (mm2)", "no number", "0.75"),
        (["from,to,mm2", "X1.1,X3.1.a,999"], "line 2, column 3 (mm2)", "at most", "in mm²"),
        (["from,to,length", "X1.1,X3.1.a,0"], "line 2, column 3 (length m)", "above 0", "in m"),
        (
            ["wire,from,to", "B1,X1.1,X3.1.a"],
            "line 2, column 1 (wire)",
            "is a part",
            "another name",
        ),
        (["wire,from,to", "W 6!,X1.1,X3.1.a"], "line 2, column 1 (wire)", "cannot name", "W7"),
        (["from,to", 'X1.1,"X3.1.a'], "line 2", "never closed", "twice"),
        (["from,to"], "the whole list", "no wire in it", "one line a wire"),
        ([""], "the whole list", "no wire in it", "one line a wire"),
    ],
)
def test_what_is_wrong_is_told_with_its_line_its_column_and_what_to_do(
    lines: list[str], where: str, what: str, remedy: str
) -> None:
    (told,) = refused(*lines)
    assert told.startswith(f"{where}: ")
    assert what in told and remedy in told


def test_every_problem_is_told_at_once_and_a_line_after_a_broken_one_keeps_its_number() -> None:
    told = refused("wire,from,to,colour", "", "W6,X1.1,X9.1,RR", "W6,X1.2,X3.2.a,YE")
    assert [each.split(":")[0] for each in told] == [
        "line 3, column 3 (to)",
        "line 3, column 4 (colour)",
        "line 4, column 1 (wire)",
    ]


def test_a_list_that_leaves_a_way_without_its_wire_is_refused_by_the_sheets_own_rules() -> None:
    told = refused("wire,from,to", "W6,X3.1.a,X3.3.a")
    assert all(each.startswith("line 2: ") for each in told)
    assert "nothing is joined to X1.1.a" in told[0]
    assert "Add a line for the wire that ends at X1.1.a, or correct this one." in told[0]


def test_a_wire_beside_one_of_the_sheet_that_is_not_listed_is_told_and_in_a_way_of_its_own_not() -> (
    None
):
    assert "Way X1.2 has 2 wires (W7 and line 2)" in " ".join(
        taken("from,to", "X1.2.a,earth").notices
    )
    assert "has 2 wires" not in " ".join(taken("from,to", "F1.2,earth").notices)


def grown(count: int) -> Sheet:
    """The sensor's sheet with a plug of so many ways in the loom, empty so far."""
    ways = [str(n + 1) for n in range(count)]
    rows = [ways[n : n + 24] for n in range(0, count, 24)]
    names = {"name": "loom plug X50", "half_a": "one loom", "half_b": "other loom"}
    plug = {"id": "X50", **names, "rows": rows}
    data = SENSOR.model_dump(exclude_unset=True)
    return read_data(data | {"connectors": [*data["connectors"], plug]}).sheet


def test_two_hundred_lines_are_taken_over_at_once_and_one_slip_among_them_takes_none() -> None:
    sheet = grown(100)
    ends = chain.from_iterable(
        (f"F1.2,X50.{n}.a,RD,0.5", f"X50.{n}.b,earth,BN,0.5") for n in range(1, 101)
    )
    lines = ["from,to,colour,mm2", *ends]
    after = taken(*lines, sheet=sheet)
    assert len(after.new) == 200 and len(after.sheet.wires) == len(sheet.wires) + 200
    lines[150] = lines[150].replace("0.5", "0.5x")
    (told,) = refused(*lines, sheet=sheet)
    assert told.startswith("line 151, column 4 (mm2)")


def test_more_wires_than_a_sheet_holds_are_refused() -> None:
    (told,) = refused("from,to", *["F1.2,earth"] * 301)
    assert "301 wires" in told


def test_a_wire_of_the_list_that_says_little_keeps_what_the_sheet_knows() -> None:
    (first, *_) = listed(SENSOR)
    said = replace(first, colour=None, mm2=None, metres=None)
    assert with_wires(SENSOR, [said]) == SENSOR
