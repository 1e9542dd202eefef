"""A control unit with one sensor line, and sheets of a few plugged parts for tests of safety."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from footwell.circuit.circuit import Circuit, build
from footwell.parts.battery import Battery
from footwell.parts.module_input import ModuleInput
from footwell.sheet.models import Sheet
from footwell.sheet.reading import read_data

from .electrics_rig import EARTH, Part, circuit_of

BATTERY = Part("G1", "battery", Battery(12.6, 0.01), {"+": "30", "-": EARTH})


def unit(values: ModuleInput, **nets: str) -> Part:
    """A unit fed from the battery whose input lies on the net "line"."""
    return Part("A1", "module_input", values, {"in": "line", "+": "30", "-": EARTH} | nets)


def line_to_earth(sensor: Part, values: ModuleInput, positions: Sequence[str]) -> Circuit:
    """A sensor between the line of a unit and earth."""
    return circuit_of([BATTERY, sensor, unit(values)], {sensor.id: positions})


def plugged_sheet(parts: Sequence[Mapping[str, Any]], wires: Sequence[tuple[str, str]]) -> Circuit:
    """A sheet as the app reads it: every part but battery, fuse and earth point has a plug "X<id>" whose
    way n is its terminal n; wires join ways ("XB1.1") and terminals ("F1.2")."""
    connectors, controls = [], []
    for part in parts:
        if "plug" in part:
            ways = {str(n + 1): f"{part['id']}.{t}" for n, t in enumerate(part["plug"])}
            named = {"id": f"X{part['id']}", "name": f"plug X{part['id']}"}
            halves = {"half_a": "harness", "half_b": "part"}
            connectors.append(named | halves | {"rows": [list(ways)], "part_ways": ways})
        if "positions" in part:
            listed = [{"id": p, "name": p} for p in part["positions"]]
            controls.append(
                {
                    "part": part["id"],
                    "name": part["id"],
                    "positions": listed,
                    "off": listed[0]["id"],
                }
            )
    data = {
        "format": 1,
        "id": "test",
        "title": "test",
        "vehicle": "test",
        "system_volts": 12,
        "summary": "test",
        "working_amps": 5.0,
        "loads": [p["id"] for p in parts if p["kind"] == "lamp"],
        "controls": controls,
        "parts": [
            {k: v for k, v in p.items() if k not in ("plug", "positions")}
            | {"name": f"part {p['id']}"}
            for p in parts
        ],
        "connectors": connectors,
        "wires": [
            {"id": f"W{n}", "start": start, "end": end, "mm2": 1.5, "metres": 0.5}
            for n, (start, end) in enumerate(wires)
        ],
    }
    read = read_data(data)
    assert isinstance(read.sheet, Sheet)
    return build(read.sheet, read.values)
