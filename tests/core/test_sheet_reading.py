"""What is said of a bad sheet, and that its good twin is read."""

from __future__ import annotations

import json
import re

import pytest

from footwell.sheet.errors import MOST_PROBLEMS, SheetError
from footwell.sheet.reading import ReadSheet, read_data, read_sheet
from footwell.sheet.values import PART_KINDS

from .sheet_cases import CASES, Bad
from .sheet_samples import TEXT, Data, also, changed, problems, put, values, without


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_bad_sheet_is_refused_with_place_sentence_and_remedy(case: Bad) -> None:
    told = problems(changed(case.bad))
    fitting = [each for each in told if each.startswith(case.place)]
    assert any(case.sentence in each and case.remedy in each for each in fitting), told


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_its_good_twin_is_read(case: Bad) -> None:
    assert isinstance(read_sheet(changed(case.good)), ReadSheet)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_the_same_is_said_of_a_sheet_inside_a_message(case: Bad) -> None:
    data = json.loads(TEXT)
    case.bad(data)
    with pytest.raises(SheetError) as refused:
        read_data(data)
    assert any(case.sentence in str(problem) for problem in refused.value.problems)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_what_is_wrong_is_named_as_people_name_it_and_not_as_code_counts_it(case: Bad) -> None:
    assert not [each for each in problems(changed(case.bad)) if re.search(r"\w\[\d+\]", each)]


def test_an_element_without_a_name_is_counted_from_one() -> None:
    (told, *_) = problems(changed(lambda data: data["connectors"][1].pop("id")))
    assert told.startswith("connector no. 2, field id (line ")


def test_one_slip_is_told_as_one_problem() -> None:
    single = [case for case in CASES if case.name != "a part is missing"]
    # A control too many hides nothing else, and the wires of a missing part are two.
    assert {case.name: len(problems(changed(case.bad))) for case in single} == {
        case.name: 1 for case in single
    }
    assert len(problems(changed(without("F1")))) == 2


def test_a_way_given_twice_in_one_object_is_told_though_the_parser_keeps_the_last() -> None:
    told = problems(TEXT.replace('"2": "S1.1"', '"1": "S1.1"'))
    assert told[0].startswith("connector X2, field part_ways › 1 (line")
    assert 'The name "1" is given twice in one object, again in line 54.' in told[0]
    assert "Keep one of the two values." in told[0]


def test_the_kinds_listed_are_all_that_a_sheet_may_use() -> None:
    told = problems(changed(put("R1", kind="widget")))
    assert f"Choose the nearest of: {', '.join(PART_KINDS)}." in told[0]


def test_two_parts_of_different_kinds_with_one_name_are_told_apart_first() -> None:
    told = problems(changed(put("F1", id="R1")))
    assert "part R1, field id (line" in told[0]
    assert 'The name "R1" is used twice, first by part no. 2.' in told[0]


def test_slips_of_different_sorts_are_told_together() -> None:
    told = problems(
        changed(
            also(
                put("W3", mm2=-1),
                values("M1", amps=-8),
                put("W4", end="Q1.1"),
                lambda data: data.update(loads=["Z1"]),
            )
        )
    )
    assert len(told) == 4
    assert all(any(part in each for each in told) for part in ("W3", "M1", "Q1", "Z1"))


def test_at_most_twenty_problems_are_listed_and_all_are_counted() -> None:
    def spoil(data: Data) -> None:
        for wire in data["wires"]:
            wire.update(mm2=-1, metres=-1, colour="?")

    with pytest.raises(SheetError) as refused:
        read_sheet(changed(spoil))
    assert len(refused.value.problems) == MOST_PROBLEMS
    assert refused.value.found == 3 * len(json.loads(TEXT)["wires"])
    assert "33 problems, the first 20 are listed" in refused.value.sentence


def test_the_error_is_data_with_a_code_a_sentence_and_details() -> None:
    with pytest.raises(SheetError) as refused:
        read_sheet(changed(put("W3", mm2=-1)))
    assert refused.value.code == "bad_sheet"
    assert refused.value.sentence.startswith("The sheet cannot be used: wire W3")
    assert refused.value.details == tuple(str(each) for each in refused.value.problems)


def test_long_foreign_text_is_quoted_short() -> None:
    told = problems(changed(put("W3", colour="R" * 5000)))
    assert max(map(len, told)) < 1000


def test_colour_names_become_codes() -> None:
    read = read_sheet(changed(put("W3", colour="green/white")))
    assert read.sheet.wires[3].colour == "GN/WH"


def test_values_come_in_the_dataclass_of_their_kind() -> None:
    values = read_sheet(TEXT).values
    assert values["M1"].amps == 8
    assert values["R1"].steps_ohms == (1.8, 1.2)
    assert values["S1"].closes["1"] == (("B", "1"),)
