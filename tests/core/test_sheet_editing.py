"""What is found on the vehicle goes into the sheet, or is refused with a sentence."""

from __future__ import annotations

import json

import pytest

from footwell.sheet.editing import Value, apply_change
from footwell.sheet.errors import ChangeError
from footwell.sheet.models import Sheet
from footwell.sheet.reading import read_again, read_sheet
from footwell.sheet.writing import write_sheet

from .sheet_samples import TEXT, changed, put


def sheet() -> Sheet:
    return read_sheet(TEXT).sheet


def refusal(element: str, field: str, value: Value) -> str:
    before = sheet()
    with pytest.raises(ChangeError) as refused:
        apply_change(before, element, field, value)
    assert before == sheet()
    assert (refused.value.element, refused.value.field) == (element, field)
    return refused.value.sentence


@pytest.mark.parametrize(
    ("element", "field", "value", "kept"),
    [
        ("W3", "colour", "RD/BK", "RD/BK"),
        ("W3", "colour", "red/black", "RD/BK"),
        ("W3", "colour", None, None),
        ("W3", "mm2", 1.5, 1.5),
        ("W3", "mm2", 4, 4),
        ("W3", "metres", None, None),
        ("W3", "moves", True, True),
        ("X3", "rating_amps", 16, 16),
        ("X3", "terminal_mm", 2.8, 2.8),
        ("X3", "landmark", "notch on the left", "notch on the left"),
        ("M1", "name", "blower motor", "blower motor"),
        ("M1", "minutes", 6, 6),
    ],
)
def test_a_field_of_an_element_is_replaced(
    element: str, field: str, value: Value, kept: Value
) -> None:
    after = json.loads(write_sheet(apply_change(sheet(), element, field, value)))
    elements = [*after["parts"], *after["connectors"], *after["wires"]]
    assert [each[field] for each in elements if each["id"] == element] == [kept]


@pytest.mark.parametrize(
    ("element", "field", "value"),
    [
        ("F1", "amps", 20),
        ("F1", "amps", None),
        ("F1", "type", "F"),
        ("M1", "amps", 9.5),
        ("M1", "ohms", None),
        ("R1", "rating_amps", 8),
        ("S1", "rating_amps", 10),
        ("S1", "momentary", True),
        ("E1", "ohms", 0.002),
    ],
)
def test_a_value_of_a_part_is_replaced(element: str, field: str, value: Value) -> None:
    after = apply_change(sheet(), element, field, value)
    assert getattr(read_again(after).values[element], field) == value


@pytest.mark.parametrize(
    ("element", "field", "value", "sentence"),
    [
        ("W99", "colour", "RD", 'There is no part, connector or wire "W99" on this sheet.'),
        ("W3", "color", "RD", 'W3: No value "color" can be changed; there are colour, mm2,'),
        ("W3", "start", "F1.1", 'W3: No value "start" can be changed'),
        ("X3", "rows", "1", 'X3: No value "rows" can be changed'),
        ("X3", "part_ways", None, 'X3: No value "part_ways" can be changed'),
        ("M1", "watts", 50, 'M1: No value "watts" can be changed; there are name, at, minutes,'),
        ("S1", "closes", None, 'S1: No value "closes" can be changed'),
        ("R1", "cooled_by", "F1", 'R1: No value "cooled_by" can be changed'),
        ("W3", "colour", "SW", "W3: In wire colour 'SW' the base 'SW' is a German code;"),
        ("W3", "colour", 5, "W3: colour must be a text, not 5."),
        ("W3", "mm2", "1,5", 'W3: The cross-section must be a number, not "1,5".'),
        ("W3", "mm2", -1.5, "W3: The cross-section is -1.5; it must be at least 0.13."),
        ("W3", "metres", float("nan"), "W3: The value is NaN (not a number)."),
        ("W3", "moves", "yes", 'W3: moves must be true or false, not "yes".'),
        ("X3", "terminal_mm", 3.3, "X3: No terminal class is 3.3 mm wide"),
        ("M1", "amps", None, "M1: The current must be a number, not null."),
        ("M1", "amps", float("inf"), "M1: The value is infinite or too large for a number."),
        ("M1", "ohms", 5, "M1: At 8 A an armature of 5 Ω takes 40 V"),
        ("F1", "amps", 0, "F1: The rating is 0; it must be above 0."),
        ("F1", "type", "Z", "F1: type is \"Z\"; it must be 'C', 'F' or 'E'."),
    ],
)
def test_a_change_that_cannot_be_is_refused_with_a_sentence(
    element: str, field: str, value: Value, sentence: str
) -> None:
    assert refusal(element, field, value).startswith(sentence)


def test_a_refusal_says_what_to_write_instead() -> None:
    assert refusal("W3", "mm2", -1.5).endswith(
        "Write the number, in mm², or null where it is not known."
    )


def test_a_value_that_decides_the_terminals_is_left_to_the_file() -> None:
    relay = {"id": "K1", "kind": "relay", "name": "relay", "spare": ["30", "87", "86", "85"]}
    text = changed(lambda data: data["parts"].append(relay))
    with pytest.raises(ChangeError, match="K1: changeover decides which terminals there are"):
        apply_change(read_sheet(text).sheet, "K1", "changeover", True)
    with_diode = apply_change(read_sheet(text).sheet, "K1", "diode", True)
    assert read_again(with_diode).values["K1"].diode is True


def test_a_value_found_no_longer_counts_as_assumed() -> None:
    assumed = read_sheet(changed(put("M1", assumed=["ohms", "amps"])))
    after = read_again(apply_change(assumed.sheet, "M1", "ohms", 0.55))
    assert "M1: current 8 A is assumed; resistance 0.6 Ω is assumed." in assumed.assumed
    assert "M1: current 8 A is assumed." in after.assumed


def test_what_was_left_open_is_no_longer_said_once_it_was_found() -> None:
    open_colour = read_sheet(changed(put("W3", colour=None)))
    after = read_again(apply_change(open_colour.sheet, "W3", "colour", "green"))
    assert "W3: colour not known." in open_colour.assumed
    assert all(not sentence.startswith("W3") for sentence in after.assumed)


def test_a_changed_sheet_is_written_and_read_again_as_it_is() -> None:
    after = apply_change(apply_change(sheet(), "W3", "colour", None), "F1", "amps", 20)
    assert read_sheet(write_sheet(after)).sheet == after
