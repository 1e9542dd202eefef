"""The fuse that protects a load: no lead that feeds the load may have a larger one."""

from __future__ import annotations

from footwell.checks.catalogue import working_setups
from footwell.circuit.circuit import Circuit
from footwell.electrics.operating_point import OperatingPoint, operate

LEAST_SHARE = 0.5
"""A fuse that carries this share of a load's current protects it; those of coils carry far less."""


def own_fuse_amps(circuit: Circuit, load: str) -> float | None:
    """Rating (A) of the smallest fuse that carries the load's current in some working set-up; of the
    smallest of all where none does; None in a circuit without a fuse."""
    fuses = _ratings(circuit)
    points = [operate(circuit, setup, hold_fuses=True) for setup in working_setups(circuit)]
    own = [
        rating
        for fuse, rating in fuses.items()
        if any(_amps(p, fuse) >= LEAST_SHARE * _amps(p, load) > 0.0 for p in points)
    ]
    return min(own or fuses.values(), default=None)


def _ratings(circuit: Circuit) -> dict[str, float]:
    found: dict[str, float] = {}
    for element in circuit.elements.values():
        if element.kind.opens is not None:
            ratings = [b.rating_amps for b in circuit.branches(element, element.rest)]
            found[element.id] = min(r for r in ratings if r)
    return found


def _amps(point: OperatingPoint, element: str) -> float:
    """The largest current (A) in any branch of an element."""
    return max((abs(f.amps) for f in point.felt(element).flows.values()), default=0.0)
