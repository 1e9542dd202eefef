"""Vehicles that differ from their sheet in one thing: a wire's end, a rating, or a splice nobody drew."""

from __future__ import annotations

import random
from typing import Any

from sheet_jobs import Real

from footwell.checks.works import works_alike
from footwell.circuit.circuit import AS_DRAWN, Arrangement, astray
from footwell.errors import FootwellError
from footwell.job.replay import circuits_of
from footwell.sheet.reading import ReadSheet, read_data

RATINGS = ("amps", "watts", "ohms", "coil_ohms")
TIMES = (0.5, 2.0)
"""What a rating may be off by: half or double."""

WIRE_END = "wire end"
SPLICE, REST = "SPX", "WX"
TRIES = 40


def differing(read: ReadSheet, kind: str, chance: random.Random) -> Real | None:
    """A vehicle that differs from a sheet in one thing of a kind, drawn until it is a circuit and does,
    without a fault, what the sheet says it should. None where there is no such difference."""
    for _ in range(TRIES):
        data = read.sheet.model_dump(mode="json", exclude_unset=True)
        changed = CHANGES[kind](data, chance)
        try:
            found = read_data(data)
        except FootwellError:
            continue
        # What such a vehicle did not do would have been noticed, and the sheet corrected.
        if works_alike(circuits_of(read)(AS_DRAWN), circuits_of(found)(AS_DRAWN)):
            inside = (SPLICE, REST) if kind == "splice" else ()
            return Real(found, () if inside else (changed,), changed if inside else "", inside)
    return None


def joined_elsewhere(read: ReadSheet, chance: random.Random) -> Arrangement | None:
    """One wire that ends where it does harm: with all else sound, something is not as on the sheet."""
    drawn = circuits_of(read)
    for _ in range(TRIES):
        data = read.sheet.model_dump(mode="json", exclude_unset=True)
        moved = _wire_end(data, chance)
        wire = next(w for w in data["wires"] if w["id"] == moved)
        run = astray(AS_DRAWN, moved, wire["start"], wire["end"])
        if not works_alike(drawn(AS_DRAWN), drawn(run)):
            return run
    return None


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


CHANGES = {WIRE_END: _wire_end, "rating": _rating, "splice": _splice}
