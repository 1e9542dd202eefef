"""A check is not proposed twice in one state of the circuit, and may come again after a change."""

from __future__ import annotations

from dataclasses import replace

from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import Belief, believe
from footwell.diagnosis.case import Case, Epoch
from footwell.diagnosis.choose import choices
from footwell.diagnosis.conclude import conclude
from footwell.job.replay import replay
from footwell.practice.electrician import begin, take

from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from .sample_circuits import TRACTOR

WIRE_BROKEN = Trial(TRACTOR, (Fault("W2", "open"),))


def worth_doing(case: Case, belief: Belief) -> list[str]:
    return [c.check.id for c in choices(case, belief) if c.check]


def test_a_check_made_is_passed_over_until_the_circuit_is_changed() -> None:
    vehicle = vehicle_of(WIRE_BROKEN)
    run = begin(read(TRACTOR).sheet, vehicle, ALL_TOOLS)
    before = replay(run.events).case
    belief = believe(before)
    step = conclude(before).step
    assert step.choice is not None and step.choice.check is not None
    check = step.choice.check
    assert check.id in worth_doing(before, belief)
    take(run, vehicle, check, step.choice.minutes, step.purpose)
    after = replay(run.events).case
    assert check.id not in worth_doing(after, belief)
    changed = replace(after, epochs=(*after.epochs, Epoch()))
    assert check.id in worth_doing(changed, belief)
