"""Small circuits for tests: parts whose terminals lie on named nets, without writing a sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from footwell.circuit.circuit import Circuit, build
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.mesh import LEAK_SIEMENS
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.sheet.models import Sheet

EARTH = "earth"
JOINT_METRES = 0.1
"""Length of the wires that join terminals to a net, of 2.5 mm²: 0.7 mΩ."""


@dataclass(frozen=True)
class Part:
    """A part of a kind, with its values, and the net of each of its terminals."""

    id: str
    kind: str
    values: Any
    nets: Mapping[str, str]


def circuit_of(
    parts: Sequence[Part],
    controls: Mapping[str, Sequence[str]] | None = None,
    joint_metres: float = JOINT_METRES,
    joint_mm2: float = 2.5,
) -> Circuit:
    """The circuit of some parts at 12 V. `controls` names parts and their positions, rest first."""
    wires = [
        {"id": f"J{n}", "start": start, "end": end, "mm2": joint_mm2, "metres": joint_metres}
        for n, (start, end) in enumerate(_joints(parts))
    ]
    sheet = Sheet.model_validate(
        {
            "format": 1,
            "id": "test",
            "title": "test",
            "vehicle": "test",
            "system_volts": 12,
            "summary": "test",
            "working_amps": 5.0,
            "loads": [parts[0].id],
            "controls": [_control(part, ids) for part, ids in (controls or {}).items()],
            "parts": [{"id": p.id, "kind": p.kind, "name": f"part {p.id}"} for p in parts],
            "wires": wires,
        }
    )
    return build(sheet, {p.id: p.values for p in parts})


def _control(part: str, positions: Sequence[str]) -> dict[str, Any]:
    listed = [{"id": position, "name": position} for position in positions]
    return {"part": part, "name": part, "positions": listed, "off": positions[0]}


def _joints(parts: Sequence[Part]) -> list[tuple[str, str]]:
    """Pairs of points to join: each terminal to the first of its net, or to the body."""
    first = {EARTH: EARTH}
    pairs = []
    for part in parts:
        for terminal, net in part.nets.items():
            point = f"{part.id}.{terminal}"
            start = first.setdefault(net, point)
            if start != point:
                pairs.append((start, point))
    return pairs


def run(
    circuit: Circuit, controls: Mapping[str, str] | None = None, *faults: Fault
) -> OperatingPoint:
    return operate(circuit, set_up(circuit, controls), faults)


def residual_amps(point: OperatingPoint) -> list[float]:
    """Sum of the currents (A) that leave each node, leak included; nought by Kirchhoff's law."""
    total = [volts * LEAK_SIEMENS for volts in point.volts]
    for slot in point.slots:
        amps, _ = slot.branch.law.at(point.across(slot))
        total[slot.a] += amps
        total[slot.b] -= amps
    return total[:-1]


def leak_watts(point: OperatingPoint) -> float:
    return sum(volts * volts * LEAK_SIEMENS for volts in point.volts)


def exact_volts(point: OperatingPoint) -> list[float]:
    """Node voltages (V) of a linear circuit by elimination in fractions, without any rounding."""
    n = point.mesh.n
    rows = [[Fraction(0)] * (n + 1) for _ in range(n)]
    for node in range(n):
        rows[node][node] += Fraction(LEAK_SIEMENS)
    for slot in point.slots:
        law: Any = slot.branch.law
        g, amps = 1 / Fraction(law.ohms), Fraction(getattr(law, "volts", 0.0)) / Fraction(law.ohms)
        for one, other, sign in ((slot.a, slot.b, 1), (slot.b, slot.a, -1)):
            if one != n:
                rows[one][one] += g
                rows[one][n] += sign * amps
                if other != n:
                    rows[one][other] -= g
    return [float(volts) for volts in _eliminate(rows)]


def _eliminate(rows: list[list[Fraction]]) -> list[Fraction]:
    n = len(rows)
    for k in range(n):
        pivot = rows[k]
        for row in rows[k + 1 :]:
            if row[k]:
                factor = row[k] / pivot[k]
                for j in range(k, n + 1):
                    if pivot[j]:
                        row[j] -= factor * pivot[j]
    volts = [Fraction(0)] * n
    for k in reversed(range(n)):
        known = sum((rows[k][j] * volts[j] for j in range(k + 1, n)), Fraction(0))
        volts[k] = (rows[k][n] - known) / rows[k][k]
    return volts
