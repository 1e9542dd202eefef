"""What a check's outcomes promise is counted among the suspects that the person can see."""

from __future__ import annotations

import re

import pytest

from footwell.circuit.fault import Fault
from footwell.page.job_view import job_view
from footwell.practice.electrician import Run, begin

from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from .sample_circuits import MINIBUS, VAN

CLEARS = re.compile(r"Clears (\d+) of (\d+) suspects\.")
TRIALS = [
    Trial(MINIBUS, (Fault("R1", "open:thermal fuse"),)),
    Trial(VAN, (Fault("F1", "open"),)),
]


def begun(trial: Trial) -> Run:
    return begin(read(trial.sheet).sheet, vehicle_of(trial), ALL_TOOLS)


@pytest.mark.parametrize("trial", TRIALS, ids=["minibus", "van"])
def test_outcomes_clear_some_of_the_suspects_shown_and_never_more(trial: Trial) -> None:
    view = job_view(begun(trial).events)
    assert view.step.kind == "check"
    counts = [m for o in view.step.check.outcomes for m in CLEARS.findall(o.means)]
    assert counts
    for cleared, of in counts:
        assert 0 < int(cleared) <= int(of)
        assert view.suspects.left_words.startswith(f"{of} suspects left")


@pytest.mark.parametrize(
    ("trial", "several"),
    [(TRIALS[0], True), (Trial("estate-coolant-sensor", (Fault("B1", "drifted", 2.0),)), False)],
    ids=["minibus", "sensor"],
)
def test_who_is_left_tells_how_many_are_several_faults_at_once(trial: Trial, several: bool) -> None:
    suspects = job_view(begun(trial).events).suspects
    titles = [s.title for group in suspects.groups for s in group.suspects]
    told = re.search(r"left, (\d+) of them several faults at once$", suspects.left_words)
    together = sum(" and " in title for title in titles)
    assert (int(told[1]) if told else 0) == together and bool(together) == several
