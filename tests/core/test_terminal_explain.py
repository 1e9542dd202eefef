"""From a terminal: readings as CSV, their explanations, and words for what cannot be read."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from footwell.messages import Explanation
from footwell.terminal.csv_text import HEADING
from footwell.terminal.shapes import Expectations

from .job_rig import Job, compact
from .terminal_rig import MINIBUS_FILE, VAN_FILE, answer, printed, refused, run

AT_2 = (MINIBUS_FILE, "--control", "S1=2")


def rows(*arguments: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(printed("expect", *arguments, "--csv"), newline="")))


def test_csv_has_a_heading_and_one_line_for_each_reading_of_every_set_up() -> None:
    text = printed("expect", MINIBUS_FILE, "--csv")
    tables = answer(Expectations, "expect", MINIBUS_FILE).tables
    lines = text.split("\r\n")
    assert lines[0] == ",".join(HEADING) and lines[-1] == ""
    assert len(lines) == 2 + sum(len(table.rows) for table in tables)
    assert text.count("\n") == text.count("\r\n")


def test_csv_and_json_say_the_same() -> None:
    (table,) = answer(Expectations, "expect", *AT_2).tables
    for told, row in zip(rows(*AT_2), table.rows, strict=True):
        assert (told["place"], told["black"], told["name"]) == (row.place, row.black, row.name)
        assert told["set-up"] == table.title and told["instrument"] == "volts"
        assert row.value is not None
        assert float(told["value"]) == pytest.approx(row.value, rel=1e-5, abs=1e-9)
        assert told["text"] == row.text and told["unit"] == "V"


def test_csv_quotes_commas_and_quotation_marks_in_names(tmp_path: Path) -> None:
    text = Path(MINIBUS_FILE).read_text("utf-8")
    quoted = tmp_path / "quoted.json"
    quoted.write_text(text.replace("motor plug X4", r"plug \"M\", X4"), encoding="utf-8")
    out = printed("expect", str(quoted), "--control", "S1=2", "--csv")
    assert '"way 1 (GN/RD, BU) of plug ""M"", X4, wire side"' in out
    names = [row["name"] for row in rows(str(quoted), "--control", "S1=2")]
    assert 'way 1 (GN/RD, BU) of plug "M", X4, wire side' in names


def test_a_word_has_no_numbers_in_csv() -> None:
    (row,) = [r for r in rows(*AT_2, "--instrument", "test lamp") if r["place"] == "F1.1"]
    assert (row["low"], row["value"], row["high"], row["unit"]) == ("", "", "", "")
    assert row["text"].startswith("bright")


def test_with_the_engine_on_the_supply_is_higher_in_every_set_up() -> None:
    off, on = (rows(MINIBUS_FILE, "--engine", engine) for engine in ("off", "on"))
    for row, higher in zip(off, on, strict=True):
        assert "engine off" in row["set-up"] and "engine running" in higher["set-up"]
        if (row["place"], row["black"]) == ("F1.1", "earth"):
            assert float(higher["value"]) > float(row["value"]) + 1.0


def test_a_value_is_explained_as_text_and_as_json() -> None:
    text = printed("expect", *AT_2, "--explain", "X2.3.a")
    told = answer(Explanation, "expect", *AT_2, "--explain", "X2.3.a")
    assert all(line in text for line in told.lines)
    assert all(step.name in text for step in told.steps)
    assert "← red lead" in text and "the supply" in text


def test_the_terminal_and_the_page_explain_the_same() -> None:
    page = Job().ask("explain", red="X2.3.a", controls={"S1": "2"}, engine="off")
    told = answer(Explanation, "expect", *AT_2, "--explain", "X2.3.a")
    assert told.model_dump(mode="json") == page


def test_a_drop_between_two_places_is_explained() -> None:
    told = answer(
        Explanation, "expect", *AT_2, "--explain", "X4.1.a", "--black", "X4.2.a", "--engine", "on"
    )
    marks = [mark for step in told.steps for mark in step.marks]
    assert marks == ["red", "black", "body"]
    assert "engine running" in told.condition


def test_an_explanation_is_not_csv() -> None:
    assert "leave out --csv" in refused("expect", *AT_2, "--explain", "X2.3.a", "--csv")


def test_help_says_where_sample_sheets_are() -> None:
    assert "fixtures/circuits" in printed("--help")
    assert "fixtures/circuits" in printed("expect", "--help")


def test_an_error_is_told_once(tmp_path: Path) -> None:
    no_json = tmp_path / "no.json"
    no_json.write_text("# not a sheet", encoding="utf-8")
    for command in ("sheet", "expect", "netlist"):
        lines = run(command, str(no_json)).err.splitlines()
        assert len(lines) == 1 and "The file is not JSON" in lines[0]


def test_every_further_problem_of_a_sheet_is_still_listed(tmp_path: Path) -> None:
    text = Path(VAN_FILE).read_text("utf-8").replace('"kind": "fuse"', '"kind": "toaster"')
    spoilt = tmp_path / "spoilt.json"
    spoilt.write_text(text, encoding="utf-8")
    first, *others = run("sheet", str(spoilt)).err.splitlines()
    assert "toaster" in first and any("toaster" in line for line in others)
    assert not any(line.strip() in first for line in others)


RAW = ("Invalid JSON", "expected value at line", "Field required", "Input should be")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("# no job", "line 1, column 1: No value of JSON stands here."),
        ("[{]", "line 1, column 3: A field's name in double quotes must stand here."),
        ("[{}]", "0.device is missing."),
        ('[{"device": 3}]', "0.device must be a text."),
        ('{"footwell": "events", "format": 1, "count": 1}\n{oops', "entry 1: line 1, column"),
    ],
)
def test_what_is_no_job_is_told_in_our_own_words(tmp_path: Path, text: str, sentence: str) -> None:
    spoilt = tmp_path / "job.json"
    spoilt.write_text(text, encoding="utf-8")
    told = run("job", str(spoilt)).err
    assert sentence in told
    assert not any(raw in told for raw in RAW)


def test_a_sound_job_is_still_read(tmp_path: Path) -> None:
    job = tmp_path / "job.json"
    job.write_text(compact(Job().dead().events), encoding="utf-8")
    assert "Next: " in printed("job", str(job))
