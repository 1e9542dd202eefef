"""What is proven, what has to be ruled out behind it, and what to do next.

A fault is proven when one repair stands alone and a check held to the faulty place itself read as the
fault predicts and not as a sound part would. A part that protects or that heat has spoilt (a fuse, a
thermal fuse, a burnt contact) is an effect as well: before the job is finished, a reading must have been
able to show the overload that would have caused it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from footwell.checks.catalogue import catalogue, minutes
from footwell.checks.check import CLAMP, FEED, VOLTS, Check
from footwell.checks.predict import Reading, expected
from footwell.circuit.circuit import Circuit, HalfId
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import Belief, Weighed, believe, by_repair
from footwell.diagnosis.case import Case, Sighting, Taken
from footwell.diagnosis.choose import CONFIRM_FROM, Choice, choices, confirming, confirms, distinct
from footwell.diagnosis.complaint import complains
from footwell.diagnosis.damage import Stress, stresses
from footwell.diagnosis.elimination import best_try, fault_behind, repairs_left
from footwell.diagnosis.hypotheses import OVERLOADS, used_setups
from footwell.faults.suspects import Repair

PROVEN_FROM = 0.9
"""Share of all that is possible from which a confirmed fault counts as proven."""

INSPECT_FROM = 0.2
"""Share of wiring slips from which a connector is looked at before anything is measured: readings at
a plug that may be wired wrongly mislead, and looking needs no tool."""

WELL_FROM = 0.85
"""Share of "all is well now" from which nothing more is sought."""

EFFECTS = {
    "fuse": ("open",),
    "resistor_pack": ("open:thermal fuse",),
    "contact": ("high_resistance",),
}
"""Faults, by kind of part, that ask for a cause of their own."""


@dataclass(frozen=True, slots=True)
class Proven:
    """A fault with the reading (number in the history) that confirms it, and whether it is mended.
    `by` is None where nothing was measured at its place: all else is ruled out, or its repair cured it."""

    fault: Fault
    repair: Repair
    share: float
    by: int | None
    mended: bool


@dataclass(frozen=True, slots=True)
class Next:
    """The step to take: `kind` is positions, wiring, check, repair or finished."""

    kind: str
    choice: Choice | None = None
    half: HalfId | None = None
    proven: Proven | None = None
    solved: bool = False
    purpose: str = ""
    """Of a check: "narrow", "confirm" or "cause"; of a repair: "try" where it is not proven."""
    others: tuple[Choice, ...] = ()


@dataclass(frozen=True)
class Conclusion:
    belief: Belief
    proven: tuple[Proven, ...]
    step: Next


def conclude(case: Case) -> Conclusion:
    """Belief, what is proven, and the next step."""
    belief = believe(case)
    found = proven(case, belief)
    return Conclusion(belief, found, _step(case, belief, found))


def proven(case: Case, belief: Belief) -> tuple[Proven, ...]:
    """Faults that stand alone and were confirmed, in the order of their repairs."""
    share: dict[Repair, float] = {}
    left: dict[Repair, float] = {}
    best: dict[Repair, Weighed] = {}
    for w in belief.suspects:
        for repair in w.repairs:
            share[repair] = share.get(repair, 0.0) + w.share
            best.setdefault(repair, w)
        for repair in w.left:
            left[repair] = left.get(repair, 0.0) + w.share
    found: list[Proven] = []
    for repair, total in sorted(share.items()):
        for fault in best[repair].faults if total >= PROVEN_FROM else ():
            if fault.element == repair[0]:
                mended = left.get(repair, 0.0) < total / 2.0
                by = _confirmed_by(case, fault, mended)
                beside = tuple(f for f in best[repair].now if f != fault)
                if by is not None or mended or not confirming(case, fault, beside):
                    found.append(Proven(fault, repair, total, by, mended))
    return tuple(found)


def _confirmed_by(case: Case, fault: Fault, mended: bool = False) -> int | None:
    """History number of the reading that shows the fault at its own place: before its repair, or
    since the last one where it is there again."""
    renewals = [n for n, e in enumerate(case.epochs) if fault.element in e.renewed]
    last = renewals[-1] if renewals else 0
    for item in case.evidence:
        if not isinstance(item, Taken) or (item.epoch >= last) == mended:
            continue
        circuit = case.circuit(item.epoch, None)
        known = fault.element in circuit.elements
        if known and confirms(circuit, item.check, fault) and _shows(circuit, item, fault):
            return item.number
    return None


def _shows(circuit: Circuit, item: Taken, fault: Fault) -> bool:
    """Whether a reading is like the fault and unlike a sound part."""
    bad, good = expected(circuit, item.check, (fault,)), expected(circuit, item.check, ())
    if not isinstance(bad, Reading) or not isinstance(good, Reading):
        assert isinstance(bad, dict) and isinstance(good, dict)
        return bad.get(item.word, 0.0) > 5.0 * good.get(item.word, 1e-3)
    if item.value is None:
        return False
    return _miss(item.value, bad) < 4.0 and _miss(item.value, good) > 4.0


def _miss(value: float, predicted: Reading) -> float:
    if math.isinf(value) or math.isinf(predicted.mean):
        return 0.0 if value == predicted.mean else math.inf
    return abs(value - predicted.mean) / max(predicted.sigma, 1e-9)


def _step(case: Case, belief: Belief, found: tuple[Proven, ...]) -> Next:
    open_now = sorted((p for p in found if not p.mended), key=lambda p: _is_fuse(case, p.fault))
    told = any(isinstance(e, Sighting) for e in case.evidence)
    if (case.positions_due and not open_now) or not told:
        return Next("positions")
    if case.epochs[-1].arrangement:
        return Next("wiring", half=case.epochs[-1].arrangement[0][0], purpose="put right")
    half = _half_to_inspect(case, belief)
    if half is not None:
        return Next("wiring", half=half)
    cause = _cause_check(case, found)
    if cause is not None:
        return Next("check", choice=cause, purpose="cause", others=tuple(choices(case, belief)[:3]))
    classes = by_repair(belief.suspects)
    for one in open_now:
        if _blows_again(case, belief, one.repair) <= MAY_BLOW_AGAIN:
            return Next("repair", proven=one)
    if classes.get((), 0.0) >= WELL_FROM and not complains(case, len(case.epochs) - 1):
        return Next("finished", solved=True)
    return _narrow(case, belief)


def _is_fuse(case: Case, fault: Fault) -> bool:
    return case.now.elements[fault.element].kind.name == "fuse"


MAY_BLOW_AGAIN, EVEN = 0.05, 0.5
"""Share of a cause still there from which a fuse is not renewed: never another fuse to see. Where no check
is left, an even chance."""


def _blows_again(case: Case, belief: Belief, repair: Repair) -> float:
    """Chance that the cause of a blown fuse is still behind it; 0 for other repairs."""
    element = case.now.elements.get(repair[0])
    if element is None or element.kind.name != "fuse":
        return 0.0
    held = [w for w in belief.suspects if repair in w.left]
    behind = sum(w.share for w in held if any(_overloads(f) for f in w.now))
    return behind / max(sum(w.share for w in held), 1e-12)


def _overloads(fault: Fault) -> bool:
    return fault.mode.split(":")[0] in OVERLOADS


def _half_to_inspect(case: Case, belief: Belief) -> HalfId | None:
    for half in case.doubtful:
        share = sum(
            w.share for w in belief.suspects if w.hypothesis.slip and w.hypothesis.slip.half == half
        )
        if share >= INSPECT_FROM:
            return half
    return None


def _narrow(case: Case, belief: Belief) -> Next:
    taken = _taken(case)
    ranked = [c for c in choices(case, belief) if not (c.check and c.check.id in taken)]
    shares = repairs_left(belief)
    for repair, share in shares.items():
        confirm = _to_confirm(case, belief, repair, taken) if share >= CONFIRM_FROM else None
        if confirm is not None:
            return Next("check", choice=confirm, purpose="confirm", others=tuple(ranked[:3]))
    if not ranked:
        return _last_resort(case, belief, shares)
    best = ranked[0]
    rest = tuple(c for c in ranked[1:] if c.check is not None)[:3]
    if best.half is not None:
        return Next("wiring", half=best.half, choice=best)
    return Next("check", choice=best, purpose="narrow", others=rest)


def _to_confirm(case: Case, belief: Belief, repair: Repair, taken: set[str]) -> Choice | None:
    """The quickest check that would confirm the fault behind a repair, where none has been made."""
    fault, beside = fault_behind(belief, repair)
    if fault is None or _confirmed_by(case, fault) is not None:
        return None
    quick = confirming(case, fault, beside)
    return next((c for c in quick if c.check and c.check.id not in taken), None)


def _last_resort(case: Case, belief: Belief, shares: Mapping[Repair, float]) -> Next:
    """No check tells the rest apart: the repair to try, or the end."""
    safe = {r: s for r, s in shares.items() if _blows_again(case, belief, r) < EVEN}
    repair = best_try(case.now, safe)
    fault = fault_behind(belief, repair)[0] if repair else None
    if repair is None or fault is None:
        return Next("finished", solved=False)
    tried = Proven(fault, repair, shares[repair], _confirmed_by(case, fault), False)
    return Next("repair", proven=tried, purpose="try")


def _taken(case: Case) -> set[str]:
    """Checks already done in the circuit as it stands now."""
    now = len(case.epochs) - 1
    return {e.check.id for e in case.evidence if isinstance(e, Taken) and e.epoch == now}


def overloads_behind(case: Case, fault: Fault) -> list[tuple[Fault, Stress]]:
    """Faults of the loads that would have overloaded the faulty part in the positions used."""
    kind = case.now.elements[fault.element].kind.name
    if fault.mode not in EFFECTS.get(kind, ()):
        return []
    found: list[tuple[Fault, Stress]] = []
    for load in case.now.sheet.loads:
        for mode in case.now.elements[load].modes.values():
            for size in (mode.factors or (0.0,)) if mode.name in OVERLOADS else ():
                suspect = Fault(load, mode.name, size)
                hurt = stresses(case.now, used_setups(case), (suspect,))
                found += [
                    (suspect, s) for (element, _), s in hurt.items() if element == fault.element
                ]
    return found


def _cause_check(case: Case, found: tuple[Proven, ...]) -> Choice | None:
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
    """Whether a check measures the current that a load draws: by clamp, or by the drop over the fuse."""
    fuses = {e.id for e in circuit.elements.values() if e.kind.name == "fuse"}
    over_fuse = (
        check.instrument == VOLTS
        and {check.red.split(".")[0]} == {check.black.split(".")[0]} <= fuses
    )
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
