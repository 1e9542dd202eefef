"""Of very many positions of the controls those to ask for: each load works in one of them, where it can.

A lamp behind the ignition switch and a switch of its own is dark with either alone. Where all positions
asked were such, nothing would ever be expected of it, and nothing learnt.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import islice

from footwell.checks.outlook import activities
from footwell.checks.sights import ALWAYS_OFF
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import SetupState

MOST_TRIED = 100
"""As many positions are looked through: one, two and three of eight plain switches on."""


def showing(circuit: Circuit, setups: Iterable[SetupState], most: int) -> list[SetupState]:
    """At most so many of the set-ups, in their order: those in which some load is the first time seen at
    work with all well, and the first of the others."""
    tried = list(islice(setups, MOST_TRIED))
    if len(tried) <= most:
        return tried
    working = _at_work_first(circuit, tried)[:most]
    others = [setup for setup in tried if setup not in working]
    kept = {*working, *others[: most - len(working)]}
    return [setup for setup in tried if setup in kept]


def _at_work_first(circuit: Circuit, setups: Sequence[SetupState]) -> list[SetupState]:
    idle = {*circuit.sheet.loads}
    found: list[SetupState] = []
    for setup in setups:
        if not idle:
            break
        doing = activities(circuit, setup, ())
        at_work = {load for load in idle if abs(doing[load]) > ALWAYS_OFF}
        if at_work:
            found.append(setup)
            idle -= at_work
    return found
