"""Sheets with sensors beside a lamp, for `sensor_rig.plugged_sheet`."""

from __future__ import annotations

from typing import Any

PARTS: list[dict[str, Any]] = [
    {"id": "G1", "kind": "battery", "values": {}, "probe": ["+", "-"]},
    {"id": "F1", "kind": "fuse", "values": {"amps": 10}, "probe": ["1", "2"]},
    {"id": "E9", "kind": "earth_point", "values": {}, "probe": ["1"]},
    {
        "id": "S1",
        "kind": "switch",
        "values": {"terminals": ["1", "2"], "closes": {"0": [], "1": [["1", "2"]]}},
        "plug": ["1", "2"],
        "positions": ["0", "1"],
    },
    {"id": "E1", "kind": "lamp", "values": {"watts": 21}, "plug": ["1", "2"]},
    {
        "id": "S2",
        "kind": "switch",
        "values": {"terminals": ["1", "2"], "closes": {"0": [], "1": [["1", "2"]]}},
        "plug": ["1", "2"],
        "positions": ["0", "1"],
    },
    {
        "id": "B1",
        "kind": "ntc",
        "values": {"celsius": [20, 80]},
        "plug": ["1", "2"],
        "positions": ["20 °C", "80 °C"],
    },
    {"id": "A1", "kind": "module_input", "values": {"reads": "sensor"}, "plug": ["in", "+", "-"]},
]
"""A lamp behind a switch, and a sensor behind a switch on an input, on one fuse and one earth point."""
WIRES = [
    ("G1.+", "F1.1"),
    ("G1.-", "E9.1"),
    ("F1.2", "XS1.1.a"),
    ("XS1.2.a", "XE1.1.a"),
    ("XE1.2.a", "E9.1"),
    ("F1.2", "XA1.2.a"),
    ("XA1.1.a", "XS2.1.a"),
    ("XS2.2.a", "XB1.1.a"),
    ("XB1.2.a", "E9.1"),
    ("XA1.3.a", "E9.1"),
]

SHARED: list[dict[str, Any]] = [
    *PARTS,
    {"id": "N1", "kind": "regulator", "values": {}, "plug": ["in", "out", "-"]},
    {
        "id": "B2",
        "kind": "potentiometer",
        "values": {"travels": [0, 100]},
        "plug": ["+", "wiper", "-"],
        "positions": ["0 %", "100 %"],
    },
    {
        "id": "B3",
        "kind": "hall_switch",
        "values": {},
        "plug": ["+", "out", "-"],
        "positions": ["away", "near"],
    },
    {
        "id": "B4",
        "kind": "reed_switch",
        "values": {},
        "plug": ["1", "2"],
        "positions": ["away", "near"],
    },
    {"id": "A2", "kind": "module_input", "values": {}, "plug": ["in", "+", "-"]},
    {"id": "A3", "kind": "module_input", "values": {}, "plug": ["in", "+", "-"]},
    {"id": "A4", "kind": "module_input", "values": {}, "plug": ["in", "+", "-"]},
]
"""Three more inputs, two of whose sensors share a supply of 5 V."""
SHARED_WIRES = [
    *WIRES,
    *((f"X{unit}.2.a", "F1.2") for unit in ("A2", "A3", "A4")),
    *((f"X{unit}.3.a", "E9.1") for unit in ("A2", "A3", "A4")),
    *(("F1.2", "XN1.1.a"), ("XN1.3.a", "E9.1")),
    *(("XN1.2.a", "XB2.1.a"), ("XB2.2.a", "XA2.1.a"), ("XB2.3.a", "E9.1")),
    *(("XN1.2.a", "XB3.1.a"), ("XB3.2.a", "XA3.1.a"), ("XB3.3.a", "E9.1")),
    *(("XA4.1.a", "XB4.1.a"), ("XB4.2.a", "E9.1")),
]

WIPER: list[dict[str, Any]] = [
    *PARTS[:3],
    {
        "id": "S1",
        "kind": "switch",
        "values": {
            "terminals": ["+", "lo", "hi"],
            "closes": {"0": [], "1": [["+", "lo"]], "2": [["+", "hi"]]},
        },
        "plug": ["+", "lo", "hi"],
        "positions": ["0", "1", "2"],
    },
    {
        "id": "M1",
        "kind": "two_speed_motor",
        "values": {"low_amps": 3, "high_amps": 5},
        "plug": ["low", "high", "-"],
    },
    {"id": "E1", "kind": "lamp", "values": {"watts": 21}, "plug": ["1", "2"]},
    {
        "id": "A1",
        "kind": "low_side_output",
        "values": {"limit_amps": 5, "duties": [30, 60, 100]},
        "plug": ["out", "-"],
        "positions": ["off", "30 %", "60 %", "100 %"],
    },
    {"id": "M2", "kind": "reversing_motor", "values": {"amps": 2}, "plug": ["+", "-"]},
]
"""A wiper motor on its switch, a lamp and a small motor on an output to earth."""
WIPER_WIRES = [
    ("G1.+", "F1.1"),
    ("G1.-", "E9.1"),
    ("F1.2", "XS1.1.a"),
    ("XS1.2.a", "XM1.1.a"),
    ("XS1.3.a", "XM1.2.a"),
    ("XM1.3.a", "E9.1"),
    ("F1.2", "XE1.1.a"),
    ("XE1.2.a", "XA1.1.a"),
    ("F1.2", "XM2.1.a"),
    ("XM2.2.a", "XA1.1.a"),
    ("XA1.2.a", "E9.1"),
]

BUS: list[dict[str, Any]] = [
    *PARTS[:3],
    {
        "id": "R2",
        "kind": "rheostat",
        "values": {"ohms_at": {"off": None, "dim": 20, "bright": 0.2}},
        "plug": ["1", "2"],
        "positions": ["off", "dim", "bright"],
    },
    {"id": "E1", "kind": "lamp", "values": {"watts": 5}, "plug": ["1", "2"]},
    {"id": "A1", "kind": "bus_unit", "values": {}, "plug": ["H", "L", "+", "-"]},
    {
        "id": "A2",
        "kind": "bus_unit",
        "values": {"terminated": True},
        "plug": ["H", "L", "+", "-"],
    },
    {"id": "R1", "kind": "bus_termination", "values": {}, "plug": ["H", "L"]},
]
"""Two units and a terminating resistor on a bus, and a dimmed lamp beside them."""
BUS_WIRES = [
    ("G1.+", "F1.1"),
    ("G1.-", "E9.1"),
    ("F1.2", "XR2.1.a"),
    ("XR2.2.a", "XE1.1.a"),
    ("XE1.2.a", "E9.1"),
    *(("F1.2", f"X{unit}.3.a") for unit in ("A1", "A2")),
    *((f"X{unit}.4.a", "E9.1") for unit in ("A1", "A2")),
    *(("XA1.1.a", end) for end in ("XR1.1.a", "XA2.1.a")),
    *(("XA1.2.a", end) for end in ("XR1.2.a", "XA2.2.a")),
]
