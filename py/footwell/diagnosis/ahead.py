"""Work done ahead of the first answer: what every single fault would do in every position, piece by piece."""

from __future__ import annotations

from footwell.checks.catalogue import working_setups
from footwell.checks.outlook import activities
from footwell.diagnosis.case import Case
from footwell.faults.suspects import single_faults

PIECE = 200
"""Faults of a piece, each in one position: a second or two where each has to be solved on a large sheet."""


def prepared(case: Case, done: int) -> int:
    """Fill the circuit's memory with the outlook of the faults of one piece, after so many pieces; how many
    pieces are left."""
    faults = [s.fault for s in single_faults(case.now, case.story)]
    setups = working_setups(case.now, case.engine)
    every = len(faults) * len(setups)
    for n in range(done * PIECE, min((done + 1) * PIECE, every)):
        activities(case.now, setups[n // len(faults)], (faults[n % len(faults)],))
    return max(-(-every // PIECE) - done - 1, 0)
