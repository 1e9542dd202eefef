"""Wire colours of IEC 60757 and terminal numbers of DIN 72552 against published lists."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.reference.colours import COLOURS, WireColour, can_be_confused, parse_wire_colour
from footwell.reference.terminals import RELAY_PINS, TRAILER_PINS, relay_terminal, terminal_meaning

CODES = st.sampled_from(sorted(COLOURS))


def test_colours_stand_in_the_order_of_the_standard() -> None:
    # IEC 60757 table 1 (order from memory).
    assert " ".join(COLOURS) == "BK BN RD OG YE GN BU VT GY WH PK GD TQ SR"


# IEC 60757 as a cable assembler prints it.
@pytest.mark.parametrize(
    ("code", "name"),
    [
        ("BK", "black"),
        ("RD", "red"),
        ("OG", "orange"),
        ("BU", "blue"),
        ("VT", "violet"),
        ("TQ", "turquoise"),
    ],
)
def test_code_stands_for_its_colour(code: str, name: str) -> None:
    assert COLOURS[code] == name
    assert parse_wire_colour(name) == WireColour(code)


@pytest.mark.parametrize("text", ["RD/BK", "rd/bk", "RD-BK", " RD / BK ", "red/black"])
def test_base_and_stripe_are_read_however_they_are_written(text: str) -> None:
    assert parse_wire_colour(text) == WireColour("RD", "BK")


def test_base_and_stripe_are_not_interchangeable() -> None:
    # Common practice, no source: BK/WH is not WH/BK.
    assert parse_wire_colour("BK/WH") != parse_wire_colour("WH/BK")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "the base is missing; write base/stripe, for example RD/BK"),
        ("RD/", "the stripe is missing; write base/stripe"),
        ("RDBU", "base and stripe are joined; write RD/BU if red is the base"),
        ("BL", "the base 'BL' is a German code; blue is BU in IEC 60757"),
        ("RD/SW", "the stripe 'SW' is a German code; black is BK in IEC 60757"),
        ("QQ", "the base 'QQ' is no code of IEC 60757; write one of BK, BN"),
        ("RD/BK/WH", "has 3 colours; write base/stripe"),
        ("GN/GN", "has the same base and stripe; write GN alone"),
    ],
)
def test_what_is_no_colour_is_refused_with_the_remedy(text: str, sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence):
        parse_wire_colour(text)


@given(CODES, CODES)
def test_a_colour_written_out_is_read_back(base: str, stripe: str) -> None:
    colour = WireColour(base, None if stripe == base else stripe)
    assert parse_wire_colour(str(colour)) == colour


@given(st.text(max_size=12))
def test_any_text_is_read_or_refused_with_a_sentence(text: str) -> None:
    try:
        assert parse_wire_colour(text).base in COLOURS
    except ValueError as refusal:
        assert "ire colour" in str(refusal) and str(refusal).endswith(".")


@given(CODES, CODES)
def test_confusion_works_both_ways_and_never_with_itself(one: str, other: str) -> None:
    assert can_be_confused(one, other) == can_be_confused(other, one)
    assert not can_be_confused(one, one)


# DIN 72552: seen in a copy of an encyclopaedia list (30, 31, 31b, 33) or from memory.
@pytest.mark.parametrize(
    ("number", "words"),
    [
        ("15", "ignition"),
        ("30", "unswitched"),
        ("31", "earth"),
        ("31b", "switch"),
        ("33", "motor"),
        ("49a", "flasher"),
        ("50", "starter"),
        ("53a", "park"),
        ("56a", "main beam"),
        ("58", "tail"),
        ("61", "charge"),
        ("85", "coil, end"),
        ("86", "coil, start"),
        ("87", "make (NO)"),
        ("87a", "break (NC)"),
        ("D+", "generator"),
    ],
)
def test_terminal_number_means_what_din_72552_says(number: str, words: str) -> None:
    assert words in terminal_meaning(number)


def test_terminal_letters_tell_big_from_small() -> None:
    assert terminal_meaning("L") != terminal_meaning("R")
    with pytest.raises(ValueError, match="Terminal 'l' is not in DIN 72552"):
        terminal_meaning("l")


# ISO 7588-1 (memory, medium): digit moulded beside the DIN number.
@pytest.mark.parametrize(
    ("pin", "number"), [("1", "86"), ("2", "85"), ("3", "30"), ("4", "87a"), ("5", "87")]
)
def test_relay_pin_has_its_din_number(pin: str, number: str) -> None:
    assert relay_terminal(pin) == number
    assert relay_terminal(number) == number


def test_relay_pins_are_all_terminals_of_din_72552() -> None:
    assert all(terminal_meaning(number) for number in RELAY_PINS.values())


def test_trailer_plug_has_seven_pins_with_colours_of_iec_60757() -> None:
    # ISO 1724 (memory, high): 3 is earth, white; 6 is stop, red.
    assert list(TRAILER_PINS) == ["1", "2", "3", "4", "5", "6", "7"]
    assert TRAILER_PINS["3"] == ("31", "earth", "WH")
    assert all(colour in COLOURS for _, _, colour in TRAILER_PINS.values())


@pytest.mark.parametrize("pin", ["6", "88", ""])
def test_a_pin_no_relay_has_is_refused(pin: str) -> None:
    with pytest.raises(ValueError, match=r"Relay pin .* is not known; write 30, 85"):
        relay_terminal(pin)
