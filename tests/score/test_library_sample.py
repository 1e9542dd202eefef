"""A sample of whole jobs on the library, by a seed from the commit; the whole is library_score.py."""

from __future__ import annotations

import random

from core.loop_rig import Trial, single_trials
from library_score import SHEETS, index, indexed, outcome
from parity.seed import commit
from sheet_jobs import shows

JOBS = 4


def drawn(chance: random.Random) -> Trial:
    """A single fault that somebody would bring the vehicle in for, on a sheet drawn like all others."""
    every = single_trials(chance.choice(SHEETS), 2)
    chance.shuffle(every)
    return next(trial for trial in every if shows(trial))


def test_single_faults_of_the_library_are_found_and_mended() -> None:
    chance = random.Random(commit())
    found = [outcome((drawn(chance), 1)) for _ in range(JOBS)]
    # Of the whole all should be solved; of four one may fail, by a rare draw of the scatter.
    assert sum(job.solved for job in found) >= JOBS - 1, [(str(j.trial), j.why) for j in found]


def test_index_has_every_sheet_once_and_a_row_written_anew_leaves_the_others() -> None:
    rows = indexed()
    assert set(rows) == set(SHEETS)
    one = SHEETS[0]
    changed = rows | {one: [one, "1", "0.000", *rows[one][3:]]}
    lines, before = (index(each).splitlines() for each in (changed, rows))
    assert sum(a != b for a, b in zip(lines, before, strict=True)) == 1
