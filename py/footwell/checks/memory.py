"""What is kept of predictions between two looks: those of sets of faults are hundreds a look, and a phone's
memory is small."""

from __future__ import annotations

from footwell.circuit.circuit import Circuit

PREDICTED = ("expected", "outlook", "outside")
"""What is predicted under faults and kept with the circuit: its name, what was done, and the faults."""

MOST_OF_SETS = 6_000
"""Predictions of sets of faults that are kept, some 2 kB each. A job of two faults makes up to 45,000: three
such jobs took 159 MB of CPython instead of 278, in about the same time."""


def spare(circuit: Circuit, most: int = MOST_OF_SETS) -> None:
    """Forget the oldest predictions of sets of faults beyond so many. What is forgotten is made anew when
    it is asked for."""
    sets = [key for key in circuit.cache if _is_of_a_set(key)]
    for key in sets[: max(len(sets) - most, 0)]:
        del circuit.cache[key]


def _is_of_a_set(key: object) -> bool:
    return isinstance(key, tuple) and key[0] in PREDICTED and len(key) == 3 and len(key[2]) > 1
