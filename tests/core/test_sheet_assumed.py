"""What a sheet leaves open is said, with what is taken instead."""

from __future__ import annotations

import pytest

from footwell.sheet.reading import read_sheet

from .sheet_samples import TEXT, Change, changed, put, values


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        (put("W3", mm2=None), "W3: cross-section not known, 0.5 mm² assumed."),
        (put("W3", metres=None), "W3: length not known, 2 m assumed."),
        (put("W3", colour=None), "W3: colour not known."),
        (
            put("W3", colour=None, mm2=None, metres=None),
            "W3: colour not known; cross-section not known, 0.5 mm² assumed; "
            "length not known, 2 m assumed.",
        ),
        # 8 A at 75 % of a fuse is 10.7 A, and the next standard rating is 15 A.
        (values("F1", amps=None), "F1: rating not known, 15 A assumed."),
        # The tables' figures for a plug whose terminals nobody has seen, and for 6.3 mm blades.
        (put("X1", terminal_mm=None), "X1: terminal width not known, 2 mΩ a contact assumed."),
        (put("X1", rating_amps=None), "X1: current rating not known, 40 A assumed."),
        (values("S1", rating_amps=None), "S1: current rating not known, so not judged."),
        (put("M1", assumed=["ohms"]), "M1: resistance 0.6 Ω is assumed."),
    ],
)
def test_what_is_left_open_is_said_with_what_is_taken_instead(
    change: Change, sentence: str
) -> None:
    before, after = read_sheet(TEXT).assumed, read_sheet(changed(change)).assumed
    assert sentence not in before
    assert [each for each in after if each not in before] == [sentence]
