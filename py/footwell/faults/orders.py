"""Every order in which the wires of one half can sit in its ways: told, listed, and put right.

A slip of a known kind is likelier; but where nobody can see which way is which, any order may be there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from itertools import permutations
from math import factorial

from footwell.circuit.circuit import Circuit, HalfId
from footwell.faults.miswiring import (
    OTHER_ORDERS,
    SLIP_ODDS,
    Slip,
    Wiring,
    as_drawn,
    slips,
    without_spares,
)
from footwell.sheet.points import number

OTHER_ORDER = "other order"
"""Kind of an order that no slip gives."""

MOST_WIRES = 6
"""Wires of a half whose orders are all looked at: 720 of them."""


def orders(circuit: Circuit, half: HalfId) -> list[Wiring]:
    """Every order of the wires in the ways that the sheet uses, the sheet's own first; none of more than
    MOST_WIRES."""
    drawn = as_drawn(circuit, half)
    used = [way for way, wires in drawn.items() if wires]
    if not 2 <= len(used) <= MOST_WIRES:
        return []
    return [
        drawn | {way: drawn[source] for way, source in zip(used, order, strict=True)}
        for order in permutations(used)
    ]


def as_suspects(circuit: Circuit, half: HalfId) -> list[Slip]:
    """Every wrong order with its odds before evidence: a slip keeps its own, the others share a rest."""
    named = {s.wiring: s for s in slips(circuit, half)}
    others = [tuple(w.items()) for w in orders(circuit, half)[1:]]
    rare = [key for key in others if key not in named]
    drawn = as_drawn(circuit, half)
    return [
        named.get(key)
        or Slip(
            half,
            OTHER_ORDER,
            order_words(drawn, dict(key), partial(number, circuit.connectors[half[0]])),
            key,
            SLIP_ODDS * OTHER_ORDERS / len(rare),
        )
        for key in others
    ]


def order_words(
    drawn: Wiring, found: Mapping[str, str | None], seen: Callable[[str], str] = str
) -> str:
    """An order of the wires as rings of ways: "the wires of ways 1 and 2 exchanged; those of 3, 4 and 5
    moved round in a ring". Empty where the same wires do not sit in the same ways in another order.
    `seen` gives a way's number."""
    rings = _rings(drawn, without_spares(found))
    if rings is None or not rings:
        return ""
    told = [_ring_words([*map(seen, ring)], first=n == 0) for n, ring in enumerate(rings)]
    return "; ".join(told)


def _ring_words(ring: list[str], first: bool) -> str:
    ways = ", ".join(ring[:-1]) + f" and {ring[-1]}"
    who = f"the wires of ways {ways}" if first else f"those of ways {ways}"
    if len(ring) == 2:
        return f"{who} exchanged"
    road = " → ".join([*ring, ring[0]])
    return f"{who} moved round in a ring ({road})"


def _rings(drawn: Wiring, found: Wiring) -> list[list[str]] | None:
    """Ways whose wires were passed on from each to the next; None where it is no mere change of order."""
    belongs = {wires: way for way, wires in drawn.items() if wires}
    sits = {wires: way for way, wires in found.items() if wires}
    if set(belongs) != set(sits) or {w for w in found if found[w]} != set(belongs.values()):
        return None
    onward = {way: sits[wires] for wires, way in belongs.items() if sits[wires] != way}
    rings: list[list[str]] = []
    while onward:
        start = next(iter(onward))
        ring = [start]
        while (after := onward.pop(ring[-1])) != start:
            ring.append(after)
        rings.append(ring)
    return rings


def how_many(circuit: Circuit, half: HalfId) -> int:
    """Orders that the wires of a half can have."""
    return factorial(sum(1 for wires in as_drawn(circuit, half).values() if wires))
