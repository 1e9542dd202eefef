"""What is proven: one repair stands alone, and a check held to the faulty place itself read as the fault
predicts and not as a sound part would."""

from __future__ import annotations

import math
from dataclasses import dataclass

from footwell.checks.check import LOOK
from footwell.checks.predict import Prediction, Reading, expected, readings
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import Belief, Weighed
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.choose import confirming, confirms
from footwell.faults.suspects import Repair

PROVEN_FROM = 0.9
"""Share of all that is possible from which a confirmed fault counts as proven."""


@dataclass(frozen=True, slots=True)
class Proven:
    """A fault with the reading (number in the history) that confirms it, and whether it is mended.
    `by` is None where nothing was measured at its place: all else is ruled out, or its repair cured it."""

    fault: Fault
    repair: Repair
    share: float
    by: int | None
    mended: bool


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
                by = confirmed_by(case, fault, mended)
                beside = tuple(f for f in best[repair].now if f != fault)
                if by is not None or mended or not _can_be_shown(case, fault, beside):
                    found.append(Proven(fault, repair, total, by, mended))
    return tuple(found)


def _can_be_shown(case: Case, fault: Fault, beside: tuple[Fault, ...]) -> bool:
    """Whether some check would show a fault at its own place, now or once the others are mended."""
    return bool(confirming(case, fault, beside) or (beside and confirming(case, fault)))


def confirmed_by(case: Case, fault: Fault, mended: bool = False) -> int | None:
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


def was_seen(case: Case, one: Proven) -> bool:
    """Whether a fault was confirmed by a look at its place."""
    taken = (e for e in case.evidence if isinstance(e, Taken))
    return any(e.number == one.by and e.check.instrument == LOOK for e in taken)


def _shows(circuit: Circuit, item: Taken, fault: Fault) -> bool:
    """Whether a reading is like the fault and unlike a sound part."""
    bad, good = expected(circuit, item.check, (fault,)), expected(circuit, item.check, ())
    if isinstance(bad, dict) and isinstance(good, dict):
        return bad.get(item.word, 0.0) > 5.0 * good.get(item.word, 1e-3)
    if item.value is None:
        return False
    return _least_miss(item.value, bad) < 4.0 and _least_miss(item.value, good) > 4.0


def _least_miss(value: float, predicted: Prediction) -> float:
    return min(_miss(value, reading) for _, reading in readings(predicted))


def _miss(value: float, predicted: Reading) -> float:
    if math.isinf(value) or math.isinf(predicted.mean):
        return 0.0 if value == predicted.mean else math.inf
    return abs(value - predicted.mean) / max(predicted.sigma, 1e-9)
