"""Vehicles that differ from their sheet in one thing: a wire's end, a rating, or a splice nobody drew."""

from __future__ import annotations

import random
from typing import Any

from sheet_jobs import Real

from footwell.checks.catalogue import working_setups
from footwell.circuit.circuit import AS_DRAWN
from footwell.errors import FootwellError
from footwell.job.replay import circuits_of
from footwell.practice.hidden import usual
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import ReadSheet, read_data

RATINGS = ("amps", "watts", "ohms", "coil_ohms")
TIMES = (0.5, 2.0)
"""What a rating may be off by: half or double."""

SPLICE, REST = "SPX", "WX"
TRIES = 40


def differing(read: ReadSheet, kind: str, chance: random.Random) -> Real | None:
    """A vehicle that differs from a sheet in one thing of a kind, drawn until it is a circuit and does,
    without a fault, what the sheet says it should: what it does not do would have been noticed. None
    where there is no such difference."""
    for _ in range(TRIES):
        data = read.sheet.model_dump(mode="json", exclude_unset=True)
        changed = CHANGES[kind](data, chance)
        try:
            found = read_data(data)
        except FootwellError:
            continue
        if _unnoticed(read, found):
            return _real(found, kind, changed)
    return None


def _real(found: ReadSheet, kind: str, changed: str) -> Real:
    if kind == "splice":
        return Real(found, (), changed, (SPLICE, REST))
    wire = next((w for w in found.sheet.wires if w.id == changed), None)
    if kind == "wire end" and wire:
        return Real(found, (changed,), astray=(wire.id, wire.start, wire.end))
    return Real(found, (changed,))


def _unnoticed(read: ReadSheet, real: ReadSheet) -> bool:
    drawn = circuits_of(read)(AS_DRAWN)
    vehicle = Vehicle(circuits_of(real), ())
    return not vehicle.standing and all(
        vehicle.does(setup, load) == usual(drawn, setup, load)
        for setup in working_setups(drawn)
        for load in drawn.sheet.loads
    )


def _wire_end(data: dict[str, Any], chance: random.Random) -> str:
    """One end of a wire sits where another wire ends."""
    wire = chance.choice(data["wires"])
    end = chance.choice(("start", "end"))
    others = [w[e] for w in data["wires"] for e in ("start", "end") if w is not wire]
    wire[end] = chance.choice([p for p in others if p not in (wire["start"], wire["end"])])
    return str(wire["id"])


def _rating(data: dict[str, Any], chance: random.Random) -> str:
    """A part's rating or a wire's cross-section is half or double."""
    rated = [
        (p["id"], p["values"], name)
        for p in data["parts"]
        for name in RATINGS
        if name in p.get("values", {})
    ]
    rated += [(w["id"], w, "mm2") for w in data["wires"] if w.get("mm2")]
    element, where, name = chance.choice(rated)
    where[name] *= chance.choice(TIMES)
    return str(element)


def _splice(data: dict[str, Any], chance: random.Random) -> str:
    """A wire is two wires with a splice between."""
    wire = chance.choice(data["wires"])
    data["parts"].append({"id": SPLICE, "kind": "splice", "name": "splice", "values": {"wires": 2}})
    data["wires"].append({**wire, "id": REST, "start": f"{SPLICE}.2"})
    wire["end"] = f"{SPLICE}.1"
    return str(wire["id"])


CHANGES = {"wire end": _wire_end, "rating": _rating, "splice": _splice}
