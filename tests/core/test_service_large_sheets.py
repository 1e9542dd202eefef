"""A sheet as large as sheets may be is answered like any other."""

from __future__ import annotations

from itertools import product

import pytest

from footwell.checks.catalogue import MOST_SETUPS, working_setups
from footwell.circuit.circuit import AS_DRAWN
from footwell.circuit.setup import set_up
from footwell.job.replay import circuits_of
from footwell.page.words import controls_words
from footwell.sheet.models import Sheet
from footwell.sheet.reading import read_data

from .job_rig import MINIBUS, Data, Job, asked, compact, sheet
from .sample_circuits import NAMES, sample

POSITIONS = [str(n) for n in range(12)]


def with_eight_controls() -> Data:
    """The minibus with seven more switches of twelve positions each: 143 million combinations."""
    data = sheet(MINIBUS)
    for n in range(2, 9):
        closes = {p: [] if p == "0" else [["1", "2"]] for p in POSITIONS}
        values = {"terminals": ["1", "2"], "closes": closes}
        part = {"id": f"S{n}", "kind": "switch", "name": f"switch {n}", "spare": ["1", "2"]}
        data["parts"].append(part | {"values": values})
        named = [{"id": p, "name": p} for p in POSITIONS]
        control = {"part": f"S{n}", "name": f"switch {n}", "off": "0", "positions": named}
        data["controls"].append(control)
    return data


def test_a_sheet_of_eight_controls_is_worked_on() -> None:
    data = with_eight_controls()
    assert asked("read_sheet", {"text": compact(data)})["parts"] == 14
    job = Job()
    job.events = []
    view = job.add("job opened", title="eight", sheet=data).tools("meter").dead().look()
    assert len(view["asked_positions"]) == MOST_SETUPS
    assert view["step"]["kind"] == "check"


def in_order(plan: Sheet) -> list[dict[str, str]]:
    """All combinations with some control on, fewest on first: the plain way, for small sheets."""
    names = [c.part for c in plan.controls]
    every = [
        dict(zip(names, ids, strict=True))
        for ids in product(*([p.id for p in c.positions] for c in plan.controls))
    ]
    off = {c.part: c.off for c in plan.controls}
    some = [row for row in every if row != off]
    return sorted(some, key=lambda row: sum(row[n] != off[n] for n in names))


@pytest.mark.parametrize("name", NAMES)
def test_positions_are_asked_in_the_plain_order(name: str) -> None:
    found = [dict(setup.controls) for setup in working_setups(sample(name))]
    assert found == in_order(sample(name).sheet)[:MOST_SETUPS]


def behind_the_ignition() -> Data:
    """Seven lamps, each behind a switch of its own, all behind the ignition switch."""
    values = {"terminals": ["1", "2"], "closes": {"off": [], "on": [["1", "2"]]}}
    parts: list[Data] = [
        {"id": "G1", "kind": "battery", "name": "battery"},
        {"id": "E1", "kind": "earth_point", "name": "earth"},
        {"id": "SP1", "kind": "splice", "name": "splice", "values": {"wires": 8}},
    ]
    ends = [("G1.-", "E1.1"), ("G1.+", "S0.1"), ("S0.2", "SP1.1")]
    for n in range(8):
        parts.append({"id": f"S{n}", "kind": "switch", "name": f"switch {n}", "values": values})
    for n in range(1, 8):
        lamp = {"id": f"L{n}", "kind": "lamp", "name": f"lamp {n}"}
        parts.append(lamp | {"values": {"watts": 21, "volts": 13.5}, "probe": ["1", "2"]})
        ends += [(f"SP1.{n + 1}", f"S{n}.1"), (f"S{n}.2", f"L{n}.1"), (f"L{n}.2", "E1.1")]
    positions = [{"id": "off", "name": "off"}, {"id": "on", "name": "on"}]
    return {
        "format": 1,
        "id": "lamps",
        "title": "lamps",
        "vehicle": "car",
        "system_volts": 12,
        "summary": "lamps",
        "working_amps": 12,
        "loads": [f"L{n}" for n in range(1, 8)],
        "controls": [
            {"part": f"S{n}", "name": f"switch {n}", "off": "off", "positions": positions}
            for n in range(8)
        ],
        "parts": parts,
        "connectors": [],
        "wires": [
            {"id": f"W{n}", "start": start, "end": end} for n, (start, end) in enumerate(ends)
        ],
    }


def lamps_seen(dark: tuple[str, ...]) -> Data:
    """The view of a job where in all positions asked each lamp shines that should, but for the dark ones."""
    job = Job()
    job.events = []
    view = job.add("job opened", title="lamps", sheet=behind_the_ignition()).tools("meter").look()
    seen = []
    for controls in view["asked_positions"]:
        for n in range(1, 8):
            shines = {controls["S0"], controls[f"S{n}"]} == {"on"} and f"L{n}" not in dark
            state = "bright" if shines else "dark"
            seen.append({"controls": controls, "load": f"L{n}", "state": state})
    return job.add("positions tried", states=seen, seen_by="me").look()


def test_of_very_many_positions_some_are_asked_in_which_each_load_works() -> None:
    asked_for = [
        dict(setup.controls)
        for setup in working_setups(circuits_of(read_data(behind_the_ignition()))(AS_DRAWN))
    ]
    assert len(asked_for) == MOST_SETUPS
    for n in range(1, 8):
        assert any(row["S0"] == row[f"S{n}"] == "on" for row in asked_for)


def test_a_dark_lamp_behind_two_of_eight_switches_is_suspected_and_one_that_shines_is_not() -> None:
    one, all_well = lamps_seen(("L5",)), lamps_seen(())
    named = {s["element"] for g in one["suspects"]["groups"] for s in g["suspects"]}
    assert "L5" in named and not named & {"L1", "L2", "L3", "L4", "L6", "L7", "S0"}
    assert one["step"]["kind"] == "check"
    assert all_well["suspects"]["groups"] == []


def test_a_long_name_of_every_control_fits_into_a_reading() -> None:
    """A check is named with all its controls; its name must not be too long to be stored."""
    job = Job()
    job.events = []
    text = compact(with_eight_controls())
    for n in range(2, 9):
        text = text.replace(f'"S{n}"', f'"SWITCH-OF-MANY-WORDS-{n}"')
    job.add_text("job opened", f'{{"title":"long","sheet":{text}}}').tools("meter").dead()
    record = job.ask("check_at", instrument="volts", red="X4.1.a")["record"]
    kept = job.ask("weigh", record=record, typed="24", unit="V")["record"]
    assert job.add("reading taken", **kept).look()["problems"] == []


def test_of_many_controls_those_that_are_off_are_told_together_and_the_others_by_name() -> None:
    data = with_eight_controls()
    for control in data["controls"]:
        control["positions"][0]["name"] = "off"
    circuit = circuits_of(read_data(data))(AS_DRAWN)
    said = [
        controls_words(circuit, set_up(circuit, dict.fromkeys(on, "1")))
        for on in ([], ["S3"], ["S1", "S2", "S3", "S4", "S5", "S6"])
    ]
    assert said[:2] == ["everything off", "switch 3 at 1 · everything else off"]
    assert said[2].endswith("switch 6 at 1 · switch 7 off · switch 8 off")
