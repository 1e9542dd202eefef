"""A relay on the bench: out of its socket, its coil fed through a fused lead, its contact measured in ohms.

What a relay leaves undone in the circuit its socket may be to blame for: a contact of it looks clean and is
not. By itself the relay tells (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import Fault, broken_branches
from footwell.parts.base import Branch
from footwell.parts.laws import Open, Resistance

BENCHED = ("relay",)
"""Kinds that are pulled out by hand and tried by themselves."""

WELL, POORLY, NEVER, ALWAYS = "closes and opens", "closes poorly", "does not close", "stays closed"
BENCH_WORDS = (WELL, POORLY, NEVER, ALWAYS)
MISTAKEN = 0.03
"""Share of words that are another's, by a lead on the wrong pin (common practice, no source)."""

POOR_OHMS = 0.5
"""From here on a contact is seen to be poor: the meter's leads have 0.2 Ω of their own (common practice, no
source)."""
SHORTED_OHMS = 1.0
"""A coil with less than this across it blows the fuse of the lead, and pulls nothing."""


def on_the_bench(circuit: Circuit, element: str, faults: Sequence[Fault]) -> dict[str, float]:
    """Chance of each word for a relay with the faults that are its own."""
    told = _told(circuit, circuit.elements[element], tuple(faults))
    others = MISTAKEN / (len(BENCH_WORDS) - 1)
    return {word: 1.0 - MISTAKEN if word == told else others for word in BENCH_WORDS}


def _told(circuit: Circuit, relay: Element, faults: tuple[Fault, ...]) -> str:
    def branches(state: str) -> list[Branch]:
        return broken_branches(circuit, relay, state, faults)

    if _ohms(branches("rest"), "contact") is not None:
        return ALWAYS
    shut = _ohms(branches("pulled"), "contact") if _pulls(branches("rest")) else None
    if shut is None:
        return NEVER
    return POORLY if shut >= POOR_OHMS else WELL


def _pulls(branches: Sequence[Branch]) -> bool:
    """Whether the coil is whole and nothing shorts it."""
    across = [b for b in branches if {b.a, b.b} == {"85", "86"} and b.name != "coil"]
    shorted = any(isinstance(b.law, Resistance) and b.law.ohms < SHORTED_OHMS for b in across)
    return _ohms(branches, "coil") is not None and not shorted


def _ohms(branches: Sequence[Branch], name: str) -> float | None:
    """Resistance (Ω) of a branch; None where it is open."""
    law = next(b.law for b in branches if b.name == name)
    if isinstance(law, Open):
        return None
    return law.ohms if isinstance(law, Resistance) else 0.0
