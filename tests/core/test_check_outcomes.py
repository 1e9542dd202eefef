"""What a check's outcomes promise is counted among the suspects that the person can see."""

from __future__ import annotations

import re

import pytest

from footwell.circuit.fault import Fault
from footwell.page.job_view import job_view
from footwell.practice.electrician import begin

from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from .sample_circuits import MINIBUS, VAN

CLEARS = re.compile(r"Clears (\d+) of (\d+) suspects\.")
TRIALS = [
    Trial(MINIBUS, (Fault("R1", "open:thermal fuse"),)),
    Trial(VAN, (Fault("F1", "open"),)),
]


@pytest.mark.parametrize("trial", TRIALS, ids=["minibus", "van"])
def test_outcomes_clear_some_of_the_suspects_shown_and_never_more(trial: Trial) -> None:
    run = begin(read(trial.sheet).sheet, vehicle_of(trial), ALL_TOOLS)
    view = job_view(run.events)
    assert view.step.kind == "check"
    counts = [m for o in view.step.check.outcomes for m in CLEARS.findall(o.means)]
    assert counts
    for cleared, of in counts:
        assert 0 < int(cleared) <= int(of)
        assert view.suspects.left_words == f"{of} suspects left"
