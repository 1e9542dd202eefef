"""Work done ahead of the first answer: what every single fault would do in every position."""

from __future__ import annotations

from footwell.checks.catalogue import working_setups
from footwell.checks.outlook import activities
from footwell.diagnosis.case import Case
from footwell.faults.suspects import single_faults


def prepared(case: Case) -> int:
    """Fill the circuit's memory with the outlook of every single fault; how many there are."""
    faults = [s.fault for s in single_faults(case.now, case.story)]
    for setup in working_setups(case.now, case.engine):
        for fault in faults:
            activities(case.now, setup, (fault,))
    return len(faults)
