"""Which relays and fuses are anywhere near a limit: looked up at every operating point, so it is quick."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from math import inf, sqrt

from footwell.circuit.circuit import Circuit, Element
from footwell.electrics.normal import score_of
from footwell.electrics.opening import opening
from footwell.electrics.operating_point import OperatingPoint, acting
from footwell.electrics.turns import LEAST
from footwell.parts.base import Tipping

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
            states = element.kind.states(element.values)
            rows = {state: _zone(circuit, element, state) for state in states}
            if any(rows.values()):
                found[element.id] = {state: zone for state, zone in rows.items() if zone}
    return circuit.cache["zones"]  # type: ignore[no-any-return]


def _zone(circuit: Circuit, element: Element, state: str) -> Zone:
    found = [(t, *_doubtful(t)) for t in tips(circuit, element, state)]
    if element.kind.opens is not None and state != element.kind.opened:
        for branch in circuit.branches(element, state):
            tipping = opening(circuit, element, branch.name)
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


def tips(circuit: Circuit, element: Element, state: str) -> tuple[Tipping, ...]:
    """The limits by which an element leaves a state by itself, but for a fuse's."""
    return element.kind.tips(element.values, state, circuit.context)
