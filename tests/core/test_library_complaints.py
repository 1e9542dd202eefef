"""Usual complaints of the sheets: ready answers that say something is wrong, in words that the sheet has."""

from __future__ import annotations

import json
from typing import Any

import pytest

from footwell.checks.catalogue import working_setups
from footwell.page.job_view import complaints_view
from footwell.practice.hidden import usual
from footwell.sheet.errors import SheetError
from footwell.sheet.reading import read_data

from .sample_circuits import FOLDER, MINIBUS, sample

NAMES = tuple(sorted(file.stem for file in FOLDER.glob("*.json")))
ASKED = [(name, c.words) for name in NAMES for c in sample(name).sheet.complaints]


@pytest.mark.parametrize("name", NAMES)
def test_a_sheet_of_the_library_has_usual_complaints_each_in_words_of_its_own(name: str) -> None:
    words = [c.words for c in sample(name).sheet.complaints]
    assert words and len(set(words)) == len(words)


@pytest.mark.parametrize(("name", "words"), ASKED)
def test_a_ready_answer_speaks_of_a_position_that_is_asked_and_differs_from_what_is_usual(
    name: str, words: str
) -> None:
    circuit = sample(name)
    answer = next(c for c in complaints_view(circuit) if c.words == words)
    setups = {tuple(sorted(s.controls)): s for s in working_setups(circuit, answer.engine)}
    keys = [(tuple(sorted(s.controls.items())), s.load) for s in answer.states]
    assert len(set(keys)) == len(keys)
    lines = next(c for c in circuit.sheet.complaints if c.words == words).states
    for controls, load in keys:
        fits = {x.state for x in lines if x.load == load and x.controls.items() <= set(controls)}
        assert len(fits) == 1, (controls, load)
    said = [
        (state.state, usual(circuit, setups[tuple(sorted(state.controls.items()))], state.load))
        for state in answer.states
    ]
    assert any(now != well for now, well in said)


def minibus(complaints: list[dict[str, Any]]) -> dict[str, Any]:
    data = json.loads((FOLDER / f"{MINIBUS}.json").read_text("utf-8"))
    return data | {"complaints": complaints}


def seen(**changed: Any) -> list[dict[str, Any]]:
    line = {"controls": {"S1": "3"}, "load": "M1", "state": "still"} | changed
    return [{"words": "Dead on top", "states": [line]}]


def test_a_sheet_without_complaints_is_read_as_before() -> None:
    data = minibus([])
    del data["complaints"]
    assert read_data(data).sheet.complaints == []
    assert read_data(minibus(seen())).sheet.complaints[0].states[0].state == "still"


@pytest.mark.parametrize(
    ("changed", "what", "remedy"),
    [
        ({"state": "dark"}, 'Nobody says "dark" of a motor.', "Say one of: still, slow, runs."),
        ({"controls": {"S1": "9"}}, 'No control sets S1 to "9".', "0, 1, 2, 3"),
        ({"controls": {"M1": "1"}}, 'No control sets M1 to "1".', "Leave it out"),
        ({"load": "F1"}, "F1 is no part that people see or hear at work.", "the loads, M1"),
    ],
    ids=str,
)
def test_a_complaint_that_cannot_be_is_told_with_its_place_and_what_to_do(
    changed: dict[str, Any], what: str, remedy: str
) -> None:
    with pytest.raises(SheetError) as refused:
        read_data(minibus(seen(**changed)))
    told = str(refused.value)
    assert what in told and remedy in told and "complaints › no. 1 › states › no. 1" in told


def test_a_complaint_stays_where_a_position_has_gone_from_the_control() -> None:
    data = minibus(seen())
    data["controls"][0]["positions"].pop()
    assert read_data(data).sheet.complaints
