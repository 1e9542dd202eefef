"""Jobs with a horn, a magnet, an LED lamp and what protects them, worked to the end on a vehicle whose
fault is hidden."""

from __future__ import annotations

import json
from typing import Any

import pytest

from footwell.circuit.fault import Fault
from footwell.job.replay import circuits_of, replay
from footwell.practice.electrician import Run, begin, work
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import read_sheet

TOOLS = ["meter", "test lamp", "clamp", "fused jumper"]
ENDS = {"horn": "+-", "solenoid": "12", "led_lamp": "+-"}
VALUES = {"led_lamp": {"watts": 3.0}}


def sheet(load: str, protector: str) -> str:
    """Battery, a link or breaker, a switch, and a load on a plug."""
    a, b = ENDS[load]
    switch = {"terminals": ["1", "2"], "closes": {"off": [], "on": [["1", "2"]]}}
    parts: list[dict[str, Any]] = [
        {"id": "G1", "kind": "battery", "name": "battery", "probe": ["+", "-"], "minutes": 2},
        {"id": "Q1", "kind": protector, "name": "protector", "probe": ["1", "2"], "minutes": 1},
        {"id": "S1", "kind": "switch", "name": "switch", "probe": ["1", "2"], "values": switch},
        {"id": "P1", "kind": load, "name": "load", "values": VALUES.get(load, {})},
        {"id": "E1", "kind": "earth_point", "name": "earth", "probe": ["1"], "minutes": 2},
    ]
    plug = {
        "id": "X1",
        "name": "plug",
        "half_a": "loom",
        "half_b": "load",
        "rows": [["1", "2"]],
        "part_ways": {"1": f"P1.{a}", "2": f"P1.{b}"},
    }
    ends = [
        *(("G1.+", "Q1.1"), ("Q1.2", "S1.1"), ("S1.2", "X1.1.a")),
        *(("X1.2.a", "E1.1"), ("G1.-", "earth")),
    ]
    wires = [
        {"id": f"W{n}", "start": start, "end": end, "colour": "RD", "mm2": 2.5, "metres": 1.0}
        for n, (start, end) in enumerate(ends)
    ]
    positions = [{"id": "off", "name": "off"}, {"id": "on", "name": "on"}]
    return json.dumps(
        {
            "format": 1,
            "id": "loads",
            "title": "loads",
            "vehicle": "none",
            "system_volts": 12,
            "summary": "loads",
            "working_amps": 8.0,
            "loads": ["P1"],
            "controls": [{"part": "S1", "name": "switch", "off": "off", "positions": positions}],
            "parts": parts,
            "connectors": [plug],
            "wires": wires,
        }
    )


def worked(load: str, protector: str, fault: Fault) -> Run:
    found = read_sheet(sheet(load, protector))
    vehicle = Vehicle(circuits_of(found), (fault,))
    run = begin(found.sheet, vehicle, TOOLS)
    work(run, vehicle)
    return run


@pytest.mark.parametrize(
    ("load", "protector", "fault"),
    [
        ("solenoid", "breaker", Fault("P1", "sticking")),
        ("solenoid", "fusible_link", Fault("P1", "shorted_turns")),
        ("horn", "breaker", Fault("P1", "sticking")),
        ("horn", "breaker", Fault("Q1", "open")),
        ("led_lamp", "fusible_link", Fault("P1", "reversed")),
        ("led_lamp", "fusible_link", Fault("Q1", "open")),
    ],
)
def test_the_faulty_part_alone_is_renewed_and_the_complaint_is_gone(
    load: str, protector: str, fault: Fault
) -> None:
    run = worked(load, protector, fault)
    assert run.solved and run.replaced == [fault.element] and not run.good_parts


def test_no_entry_of_such_a_job_is_left_unused() -> None:
    assert replay(worked("solenoid", "breaker", Fault("P1", "sticking")).events).problems == ()
