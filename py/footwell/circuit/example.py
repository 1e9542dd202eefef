"""One lamp behind a fuse and a switch: the circuit that the examples in docstrings speak of."""

from __future__ import annotations

from typing import Any

from footwell.circuit.circuit import Circuit, build
from footwell.parts.battery import Battery
from footwell.parts.fuse import Fuse
from footwell.parts.lamp import Lamp
from footwell.parts.switch import Switch
from footwell.sheet.models import Sheet

_PARTS = {
    "G1": ("battery", "battery", ["+", "-"], Battery(12.5, 0.02)),
    "F1": ("fuse", "fuse F1", ["1", "2"], Fuse(10.0)),
    "S1": ("switch", "switch", ["1", "2"], Switch(("1", "2"), {"off": (), "on": (("1", "2"),)})),
    "H1": ("lamp", "lamp", ["1", "2"], Lamp(55.0, 12.0)),
}
_WIRES = ("G1.- earth", "G1.+ F1.1", "F1.2 S1.1", "S1.2 H1.1", "H1.2 earth")


def work_lamp() -> Circuit:
    """Battery G1 of 12.5 V and 20 mΩ, fuse F1 of 10 A, switch S1, lamp H1 of 55 W at 12 V; wires W0 to
    W4 of 2.5 mm² and 1 m from the negative post to the body, and on from the positive one.

    >>> work_lamp().points
    ('G1.+', 'G1.-', 'F1.1', 'F1.2', 'S1.1', 'S1.2', 'H1.1', 'H1.2')
    """
    sheet: dict[str, Any] = {
        "format": 1,
        "id": "work-lamp",
        "title": "Work lamp",
        "vehicle": "example",
        "system_volts": 12,
        "summary": "One lamp behind a fuse and a switch.",
        "working_amps": 4.6,
        "loads": ["H1"],
        "controls": [{"part": "S1", "name": "switch", "off": "off", "positions": _positions()}],
        "parts": [
            {"id": part, "kind": kind, "name": name, "probe": probe}
            for part, (kind, name, probe, _) in _PARTS.items()
        ],
        "wires": [
            {"id": f"W{n}", "start": start, "end": end, "mm2": 2.5, "metres": 1.0}
            for n, (start, end) in enumerate(ends.split() for ends in _WIRES)
        ],
    }
    return build(Sheet.model_validate(sheet), {part: row[3] for part, row in _PARTS.items()})


def _positions() -> list[dict[str, str]]:
    return [{"id": name, "name": name} for name in ("off", "on")]
