"""Two wires in one way and one colour twice in a plug are told of a sheet, and are no reason to refuse it."""

from __future__ import annotations

from typing import Any

from .job_rig import MINIBUS, Job, asked, compact, sheet
from .terminal_rig import printed


def with_wire(**fields: Any) -> dict[str, Any]:
    """The minibus's sheet with one more wire, beside W7 in way 2 of X1, where nothing is said otherwise."""
    data = sheet(MINIBUS)
    wire = {"id": "W90", "start": "X1.2.b", "end": "E1.1", "colour": "PK"}
    return data | {"wires": [*data["wires"], wire | fields]}


def told_of(data: dict[str, Any]) -> str:
    return " ".join(asked("read_sheet", {"text": compact(data)})["notices"])


def test_two_wires_in_one_way_of_a_sheet_are_told_by_the_number_of_the_way() -> None:
    told = told_of(with_wire())
    assert "Way X1.2 has 2 wires (W7 and W90): right if they are crimped together" in told
    assert "X1.2" not in told_of(sheet(MINIBUS))


def test_the_way_has_the_number_that_people_see() -> None:
    data = with_wire()
    next(each for each in data["connectors"] if each["id"] == "X1")["numbers"] = {"2": "B"}
    assert "Way X1.B has 2 wires" in told_of(data)


def test_one_colour_twice_in_a_half_of_a_plug_is_told_and_another_colour_is_not() -> None:
    colour = next(each["colour"] for each in sheet(MINIBUS)["wires"] if each["id"] == "W7")
    assert f"X1 {colour} (W7 and W90)" in told_of(with_wire(colour=colour, start="X1.1.b"))
    assert "(W7 and W90). Tell" not in told_of(with_wire(start="X1.1.b"))


def test_two_wires_of_one_colour_in_one_way_are_not_told_apart_by_ways() -> None:
    colour = next(each["colour"] for each in sheet(MINIBUS)["wires"] if each["id"] == "W7")
    told = told_of(with_wire(colour=colour))
    assert "Way X1.2 has 2 wires (W7 and W90)" in told
    assert "One colour more than once" not in told


def test_a_job_and_the_terminal_tell_it_too(tmp_path: Any) -> None:
    job = Job()
    job.events = []
    view = job.add("job opened", title="two", sheet=with_wire()).look()
    assert [each for each in view["odd"] if each.startswith("Way X1.2 has 2 wires")]
    file = tmp_path / "two.json"
    file.write_text(compact(with_wire()), "utf-8")
    told = printed("sheet", str(file))
    assert "The sheet is sound." in told and "Way X1.2 has 2 wires (W7 and W90)" in told
