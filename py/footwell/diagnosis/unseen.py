"""What nothing has been learnt of yet: parts that may be faulty as well, where one suspect is true.

A break hides what lies behind it: a lamp that gets no current is dark whether it is whole or not. Such parts
are neither cleared nor accused until the break is mended and every position was tried again.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import Weighed
from footwell.diagnosis.case import Case, Hypothesis
from footwell.diagnosis.complaint import noticed
from footwell.diagnosis.course import Track
from footwell.diagnosis.likelihood import Piece, joint_log, log_chance, pieces

ALIKE = 0.1
"""Chance of all evidence with a further fault, as a share of that without, from which the evidence says
nothing of it."""


def unseen(case: Case, suspect: Weighed) -> tuple[str, ...]:
    """Elements of which some fault that people would notice by itself could be there beside the suspect's,
    with everything seen and measured so far as it is; in the sheet's order."""
    every = pieces(case.evidence)
    plain = _log_of(case, every, suspect.hypothesis)
    held = {f.element for f in suspect.faults} | case.epochs[-1].mended
    found: list[str] = []
    for element in case.now.elements:
        if element not in held and any(
            _log_of(case, every, _with(suspect.hypothesis, fault)) - plain >= math.log(ALIKE)
            for fault in plain_faults(case.now, element)
            if noticed(case.now, fault, case.engine)
        ):
            found.append(element)
    return tuple(found)


def plain_faults(circuit: Circuit, element: str) -> Iterable[Fault]:
    """The faults of an element whose sizes are known."""
    return (
        Fault(element, mode.name, size)
        for mode in circuit.elements[element].modes.values()
        for size in (() if mode.sized else mode.factors or (0.0,))
    )


def _with(h: Hypothesis, fault: Fault) -> Hypothesis:
    return Hypothesis(tuple(sorted((*h.faults, fault))), h.odds, h.repairs, h.slip)


def _log_of(case: Case, every: Iterable[Piece], h: Hypothesis) -> float:
    """Log chance of all evidence under a suspect."""
    track = Track()
    for piece in every:
        log_chance(case, h, piece, track)
    return joint_log(track)
