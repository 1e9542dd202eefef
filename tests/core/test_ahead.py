"""Work ahead of the first answer is done in pieces, all of it, and changes nothing of what is answered."""

from __future__ import annotations

from footwell.diagnosis import ahead
from footwell.job import replay as replaying

from .job_rig import TRACTOR, VAN, Job


def pieces(job: Job) -> list[int]:
    """Asks for piece after piece until none is left; what was left after each."""
    left: list[int] = []
    while not left or left[-1]:
        answer = job.ask("prepare", done=len(left))
        left.append(answer["left"])
        assert answer["done"] == len(left)
    return left


def test_pieces_come_to_an_end_and_after_it_nothing_is_left_to_do() -> None:
    job = Job(TRACTOR)
    found = pieces(job)
    assert len(found) > 2 and found == [*reversed(range(len(found)))]
    assert job.ask("prepare", done=len(found) + 5)["left"] == 0


def test_each_piece_works_out_other_faults_and_the_last_leaves_none() -> None:
    replaying._CIRCUITS.clear()
    job = Job(VAN)
    cache = replaying.replay(job.stored()).case.now.cache

    def known() -> int:
        return sum(1 for key in cache if isinstance(key, tuple) and key[0] == "outside")

    job.ask("prepare")
    assert 0 < known() <= ahead.PIECE
    whole = len(pieces(job))
    every = known()
    assert (whole - 1) * ahead.PIECE < every <= whole * ahead.PIECE
    pieces(job)
    assert known() == every


def test_a_story_told_half_way_through_is_answered_as_without_the_work_ahead() -> None:
    answers = []
    for some in (0, 1):
        replaying._CIRCUITS.clear()
        job = Job()
        for n in range(some):
            job.ask("prepare", done=n)
        answers.append(job.tools("meter").dead().look())
    assert answers[0] == answers[1]
