"""A small, fixed draw of whole jobs by the simulated electrician; the benchmark does them all."""

from __future__ import annotations

import pytest
from parity.seed import some

from footwell.circuit.fault import Fault
from footwell.diagnosis.elimination import JOINTS
from footwell.practice.orders import half_split, load_to_supply

from .jobs_rig import wired
from .loop_rig import Trial, complaining, pair_trials, sampled, single_trials, tried
from .sample_circuits import MINIBUS, NAMES, TRACTOR, VAN, sample

SEED = 7
SHORTS = [
    Trial(MINIBUS, (Fault("W5", "short_to_earth"),)),
    Trial(MINIBUS, (Fault("M1", "short"),)),
    Trial(TRACTOR, (Fault("W11", "short_to_earth"),)),
]
"""Faults behind a fuse that blows at every trial."""


@pytest.mark.parametrize("name", NAMES)
def test_drawn_single_faults_are_mended_and_no_sound_part_is_bought(name: str) -> None:
    for trial in some(sampled(complaining(single_trials(name, 2)[::5]), 4, SEED), 2):
        done = tried(trial)
        assert done.right, (str(trial), done.why, done.steps)
        assert not bought(trial, done.good_parts), (str(trial), done.steps)


@pytest.mark.parametrize("name", some(NAMES, 2))
def test_drawn_slip_and_break_of_one_job_are_both_put_right(name: str) -> None:
    for trial in sampled(pair_trials(name), 1, SEED):
        done = tried(trial)
        assert done.right, (str(trial), done.why, done.steps)
        assert not bought(trial, done.good_parts), (str(trial), done.steps)


def bought(trial: Trial, parts: tuple[str, ...]) -> list[str]:
    """Sound parts that cost money: joints and wires made anew are left out."""
    return [p for p in parts if sample(trial.sheet).elements[p].kind.name not in JOINTS]


@pytest.mark.parametrize("trial", some(SHORTS, 2), ids=str)
def test_short_is_mended_before_its_fuse_and_one_fuse_is_enough(trial: Trial) -> None:
    done = tried(trial)
    assert done.right, done.steps
    repairs = [s.split()[1] for s in done.steps if s.startswith("repair")]
    fuse = next(r for r in repairs if r.startswith("F"))
    assert repairs.count(fuse) == 1
    assert repairs.index(trial.faults[0].element) < repairs.index(fuse)


def test_slip_that_a_break_hid_is_found_after_the_break_is_mended() -> None:
    exchanged = wired(("X1", "a"), w1="W5", w2="W4", w3="W3")
    done = tried(Trial(MINIBUS, (Fault("X2.1", "open"),), exchanged, "X1"))
    assert done.right and done.good_parts == () and "put right X1" in done.steps


@pytest.mark.parametrize(
    "fault", [Fault("G1", "weak", 0.85), Fault("H1", "high_resistance", 0.632)]
)
def test_lukewarm_screen_is_not_called_well(fault: Fault) -> None:
    done = tried(Trial(VAN, (fault,)))
    assert done.right and done.readings >= 1


def test_other_orders_of_measuring_come_to_the_same_end() -> None:
    trial = Trial(MINIBUS, (Fault("R1", "open:thermal fuse"),))
    ours, split, walked = (tried(trial, order=o) for o in (None, half_split, load_to_supply))
    assert ours.right and split.right and walked.right
