"""What the readings themselves allow: every node read, and the likeliest of all fault sets by trying them."""

from __future__ import annotations

import math
from statistics import mean

from family import FAULT_RATE, fault_sets
from family_jobs import Job, Parts, likeliest, named, node_checks

from footwell.checks.outlook import outlook
from footwell.checks.predict import Reading, expected
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import believe
from footwell.diagnosis.case import Sighting, Taken

MOST_FAULTS = 3
HIDDEN = 1e-9
"""Difference of log odds below which two sets count as alike."""


def read_all(job: Job) -> None:
    """Read every node voltage once."""
    for check in node_checks(job.family.circuit):
        job.read(check)


def limits(found: list[Job]) -> dict[str, float]:
    """Share named exactly with every node read: by belief, and by the likeliest of all sets of up to three
    faults, tried one by one, where equal ones share the point between them."""
    rows = []
    for job in found:
        read_all(job)
        by_belief = named(believe(job.case()))[0] == job.truth.parts
        rows.append((by_belief, _best(job)))
    return {"belief": mean(b for b, _ in rows), "likeliest set": mean(x for _, x in rows)}


def _best(job: Job) -> float:
    scores: dict[Parts, float] = {}
    for count in range(1, MOST_FAULTS + 1):
        for faults in fault_sets(job.family.circuit, count):
            if _says_the_same(job, faults):
                parts = frozenset(f.element for f in faults)
                fit = _log_fit(job, faults) + count * math.log(FAULT_RATE / 2 / (1 - FAULT_RATE))
                scores[parts] = _added(scores.get(parts, -math.inf), fit)
    top = max(scores.values(), default=-math.inf)
    best = [parts for parts, score in scores.items() if score >= top - HIDDEN]
    return (job.truth.parts in best) / max(len(best), 1)


def _added(a: float, b: float) -> float:
    top = max(a, b)
    return top + math.log(math.exp(a - top) + math.exp(b - top)) if top > -math.inf else top


def _says_the_same(job: Job, faults: tuple[Fault, ...]) -> bool:
    """Whether every load would do what it does."""
    circuit = job.family.circuit
    key = ("words", faults)
    if key not in circuit.cache:
        now = outlook(circuit, job.setup, faults).activity
        usual = outlook(circuit, job.setup, ()).activity
        circuit.cache[key] = {
            load: likeliest(job.words(load, now[load], usual[load])) for load in circuit.sheet.loads
        }
    seen = {e.load: e.word for e in job.evidence if isinstance(e, Sighting)}
    return bool(circuit.cache[key] == seen)


def _log_fit(job: Job, faults: tuple[Fault, ...]) -> float:
    """Log density of all readings, each with the meter's scatter."""
    circuit = job.family.circuit
    total = 0.0
    for item in job.evidence:
        if isinstance(item, Taken) and item.value is not None:
            key = ("limit", item.check.red, faults)
            if key not in circuit.cache:
                circuit.cache[key] = expected(circuit, item.check, faults)
            reading = circuit.cache[key]
            assert isinstance(reading, Reading)
            z = (item.value - reading.mean) / reading.instrument_sigma
            total -= 0.5 * z * z + math.log(reading.instrument_sigma)
    return total
