"""Which relays and fuses are anywhere near a limit: looked up at every operating point, so it is quick."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import chain
from math import inf, sqrt
from typing import Any

from footwell.circuit.circuit import Circuit
from footwell.electrics.normal import score_of
from footwell.electrics.opening import opening
from footwell.electrics.operating_point import OperatingPoint, acting
from footwell.electrics.turns import LEAST
from footwell.parts.base import Context, Kind, State, Tipping

NEAR = -score_of(LEAST)
ANYHOW = 0.25
"""Share by which what a part feels may be off; only where its limit lies further is it passed over
without a closer look. A resistance known to half a step of the ladder spreads a voltage by a sixth."""


def near(point: OperatingPoint) -> Iterator[str]:
    """Elements with a limit anywhere near to what they feel at a point."""
    for element, zones in _zones(point.circuit).items():
        zone = zones.get(point.states[element])
        if zone is not None:
            flows = point.felt(element).flows
            for tipping, low, high in zone:
                flow = flows.get(tipping.branch)
                if flow and low < abs(flow.volts if tipping.unit == "V" else flow.amps) < high:
                    yield element


Zone = list[tuple[Tipping, float, float]]
"""Limits of a state, each with the quantities (V or A) between which it is in doubt."""


def _zones(circuit: Circuit) -> dict[str, dict[str, Zone]]:
    """By element and state, where it may tip at all."""
    if "zones" not in circuit.cache:
        circuit.cache["zones"] = found = {}
        for element in {e.id: e for e in chain(*acting(circuit))}.values():
            kind, values = element.kind, element.values
            rows = {s: _zone(kind, values, s, circuit.context) for s in kind.states(values)}
            if any(rows.values()):
                found[element.id] = {state: zone for state, zone in rows.items() if zone}
    return circuit.cache["zones"]  # type: ignore[no-any-return]


@lru_cache(maxsize=4096)
def _zone(kind: Kind, values: Any, state: State, context: Context) -> Zone:
    """Kept for all circuits: every order of a plug's wires is a circuit of its own, with the same parts."""
    found = [(t, *_doubtful(t)) for t in kind.tips(values, state, context)]
    if kind.opens is not None and state != kind.opened:
        for branch in kind.branches(values, state, context):
            tipping = opening(kind, values, context, branch.name)
            # A fuse that surely opens may still be beaten by another one.
            found.append((tipping, _doubtful(tipping)[0], inf))
    return found


def _doubtful(tipping: Tipping) -> tuple[float, float]:
    """Between which quantities a limit is in doubt."""
    ends = sorted(_where(tipping, score) for score in (-NEAR, NEAR))
    return ends[0] / (1.0 + ANYHOW), ends[1] / (1.0 - ANYHOW)


def _where(tipping: Tipping, score: float) -> float:
    """The quantity with a score, by halving the interval of its logarithm."""
    low, high = 1e-3, 1e4
    rising = tipping.score(high) > tipping.score(low)
    for _ in range(60):
        middle = sqrt(low * high)
        if (tipping.score(middle) < score) == rising:
            low = middle
        else:
            high = middle
    return sqrt(low * high)
