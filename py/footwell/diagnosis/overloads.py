"""The cause behind an effect: a part that protects or that heat has spoilt (a fuse, a thermal fuse, a burnt
contact) was overloaded by something, and a reading must have been able to show it before a job is done."""

from __future__ import annotations

from collections.abc import Iterable

from footwell.checks.catalogue import catalogue, fuses
from footwell.checks.check import CLAMP, FEED, VOLTS, Check
from footwell.checks.minutes import minutes
from footwell.checks.predict import expected
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.choose import Choice, distinct
from footwell.diagnosis.damage import Stress, stresses
from footwell.diagnosis.hypotheses import overloads, used_setups
from footwell.diagnosis.proof import Proven

EFFECTS = {
    "fuse": ("open",),
    "resistor_pack": ("open:thermal fuse",),
    "contact": ("high_resistance",),
}
"""Faults, by kind of part, that ask for a cause of their own."""


def overloads_behind(case: Case, fault: Fault) -> list[tuple[Fault, Stress]]:
    """Faults of the loads that would have overloaded the faulty part in the positions used."""
    suspects = (
        Fault(load, mode.name, size)
        for load in case.now.sheet.loads
        for mode in case.now.elements[load].modes.values()
        for size in (mode.factors or (0.0,))
    )
    return overloading(case, fault, suspects)


def overloading(case: Case, fault: Fault, suspects: Iterable[Fault]) -> list[tuple[Fault, Stress]]:
    """Those of some faults that would have overloaded the faulty part in the positions used, each with the
    stress that it puts on it; none where the fault is no effect of an overload."""
    if fault.mode not in EFFECTS.get(case.now.elements[fault.element].kind.name, ()):
        return []
    return [
        (suspect, stress)
        for suspect in suspects
        if overloads(suspect) and suspect.element != fault.element
        for (element, _), stress in stresses(case.now, used_setups(case), (suspect,)).items()
        if element == fault.element
    ]


def cause_check(case: Case, found: tuple[Proven, ...]) -> Choice | None:
    """A check that would show the overload behind a proven effect, while none has been made."""
    for one in found:
        for suspect, _ in overloads_behind(case, one.fault):
            if suspect.element in {p.fault.element for p in found} or _was_shown(case, suspect):
                continue
            standing = tuple(p.fault for p in found if not p.mended)
            quick = _showing(case, suspect, standing)
            if quick is not None:
                return quick
    return None


def _was_shown(case: Case, suspect: Fault) -> bool:
    """Whether some reading would have shown the suspect, had it been there."""
    for item in case.evidence:
        if isinstance(item, Taken) and item.check.instrument in (VOLTS, CLAMP, FEED):
            circuit = case.circuit(item.epoch, None)
            if _measures_load(circuit, item.check) and distinct(
                expected(circuit, item.check, (suspect,)), expected(circuit, item.check, ())
            ):
                return True
    return False


def _measures_load(circuit: Circuit, check: Check) -> bool:
    """Whether a check measures the current that a load draws: by clamp, or by the drop over the fuse. A lamp
    in the way limits it."""
    if check.setup.stand_in:
        return False
    over_fuse = check.instrument == VOLTS and {check.red.split(".")[0]} == {
        check.black.split(".")[0]
    } <= {*fuses(circuit)}
    return check.instrument == CLAMP or over_fuse


def _showing(case: Case, suspect: Fault, standing: tuple[Fault, ...]) -> Choice | None:
    options = [
        Choice(check, None, 0.0, minutes(case.now, check, case.last_check))
        for check in catalogue(case.now, case.tools, case.engine)
        if check.id not in case.skipped
        and _measures_load(case.now, check)
        and _would_show(case, check, suspect, standing)
    ]
    options.sort(
        key=lambda c: (
            c.check.instrument != CLAMP if c.check else True,
            c.minutes,
            c.check.id if c.check else "",
        )
    )
    return options[0] if options else None


def _would_show(case: Case, check: Check, suspect: Fault, standing: tuple[Fault, ...]) -> bool:
    return distinct(
        expected(case.now, check, tuple(sorted((*standing, suspect)))),
        expected(case.now, check, standing),
    )
