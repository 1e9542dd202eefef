"""Figures of circuits and jobs, computed from text alone: the same file runs in the browser's Python.

It imports nothing but the core and the standard library.
"""

from __future__ import annotations

import json
from math import isinf
from typing import Any

from pydantic import TypeAdapter

from footwell.checks.catalogue import catalogue
from footwell.checks.predict import expected, readings
from footwell.circuit.circuit import Circuit, build
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.belief import believe
from footwell.diagnosis.choose import choices
from footwell.electrics.operating_point import operate
from footwell.job.replay import replay
from footwell.messages import Job
from footwell.page.expected import EVERYTHING
from footwell.parts import KINDS
from footwell.sheet.models import Sheet

Figures = list[list[Any]]
"""Rows of a name and a number, or a name and a word; the names say where two answers part."""

CHECKS, FAULTS = 20, 4
"""At most so many of a circuit's checks and faults, evenly picked."""


def figures(text: str) -> str:
    """Of {"circuits": [{"sheet", "values"}], "jobs": [events]} all figures, as JSON."""
    asked = json.loads(text)
    rows: Figures = []
    for n, written in enumerate(asked["circuits"]):
        rows += _of_circuit(f"circuit {n}", _circuit(written))
    for n, events in enumerate(asked["jobs"]):
        rows += _of_job(f"job {n}", events)
    return json.dumps(rows)


def _circuit(written: dict[str, Any]) -> Circuit:
    sheet = Sheet.model_validate_json(json.dumps(written["sheet"]))
    values = {
        part.id: TypeAdapter(KINDS[part.kind].values).validate_json(
            json.dumps(written["values"][part.id])
        )
        for part in sheet.parts
    }
    return build(sheet, values)


def _picked(every: list[Any], most: int) -> list[Any]:
    step = max(1, -(-len(every) // most))
    return every[::step]


def _of_circuit(name: str, circuit: Circuit) -> Figures:
    """Node voltages at rest and in every control's last position, sound and under faults."""
    last = {c.part: c.positions[-1].id for c in circuit.sheet.controls}
    every = [
        Fault(e.id, mode.name, mode.factors[0] if mode.factors else 2.0 if mode.sized else 0.0)
        for e in circuit.elements.values()
        for mode in e.modes.values()
    ]
    rows: Figures = []
    for setup in (set_up(circuit), set_up(circuit, last), set_up(circuit, last, engine="on")):
        for faults in [(), *((fault,) for fault in _picked(every, FAULTS))]:
            point = operate(circuit, setup, faults)
            at = f"{name} {setup.controls} {setup.engine} {faults}"
            rows += [[f"{at} node {n}", volts] for n, volts in enumerate(point.volts)]
            rows.append([f"{at} states", " ".join(point.states.values())])
    return rows


def _of_job(name: str, events: list[Any]) -> Figures:
    """Readings foretold with their leans, the belief, and what is worth doing next."""
    case = replay(Job.model_validate_json(json.dumps({"events": events})).events).case
    rows: Figures = []
    for check in _picked(list(catalogue(case.now, EVERYTHING, case.engine)), CHECKS):
        for n, (weight, reading) in enumerate(readings(expected(case.now, check, ()))):
            at = f"{name} {check.id} {n}"
            numbers = {"weight": weight, "mean": reading.mean, "meter": reading.instrument_sigma}
            leans = {" ".join(key): lean for key, lean in reading.leans.items()}
            rows += [
                [f"{at} {key}", "no end" if isinf(x) else x] for key, x in (numbers | leans).items()
            ]
    belief = believe(case)
    rows += [[f"{name} none", belief.none]]
    rows += [[f"{name} share {n} {w.faults}", w.share] for n, w in enumerate(belief.suspects)]
    for n, choice in enumerate(choices(case, belief)):
        told = choice.check.id if choice.check else str(choice.half)
        rows += [[f"{name} choice {n}", told], [f"{name} bits {n} {told}", choice.bits]]
    return rows
