"""The job command: belief and next check of a job's events."""

from __future__ import annotations

from argparse import Namespace

from footwell import messages as m
from footwell import service
from footwell.diagnosis.belief import Belief, Weighed
from footwell.diagnosis.case import Case
from footwell.job.events import Event
from footwell.page import words as say
from footwell.page.concluded import concluded
from footwell.terminal import texts
from footwell.terminal.files import text_of
from footwell.terminal.job_files import events_of, is_link
from footwell.terminal.options import half_named, said
from footwell.terminal.shapes import FaultSaid, JobState, SuspectSaid

LEAST_SHARE = 0.001


def job(asked: Namespace) -> tuple[JobState, str]:
    """Belief and next step of a job."""
    text = asked.file if is_link(asked.file) else text_of(asked.file)
    state = job_state(events_of(text, asked.job))
    return state, texts.job(state)


def job_state(events: list[Event]) -> JobState:
    """What a job amounts to, in the terminal's form. Raises JobError, SheetError."""
    view = service.look(m.Job(events=events))
    replayed, conclusion = concluded(events)
    return JobState(
        title=view.title,
        vehicle=view.vehicle,
        release=view.release,
        suspects=_suspects(replayed.case, conclusion.belief),
        all_well=_share_of_nothing(conclusion.belief),
        none_of_these=conclusion.belief.none,
        groups=view.suspects,
        next=view.step,
        others=view.others,
        problems=view.problems,
    )


def _suspects(case: Case, belief: Belief) -> list[SuspectSaid]:
    """The sets of faults that may be there now; none before anything was told."""
    if not case.evidence:
        return []
    rows = [w for w in belief.suspects if w.left and w.share >= LEAST_SHARE]
    return [SuspectSaid(faults=_faults(case, w), share=w.share) for w in rows]


def _faults(case: Case, one: Weighed) -> list[FaultSaid]:
    found = said(case.now, one.now)
    slip = one.hypothesis.slip
    if slip is None:
        return found
    connector = case.now.connectors[slip.half[0]]
    where = say.side_named(connector, slip.half[1])
    wired = FaultSaid(
        part=half_named(slip.half), mode=slip.kind, where=f"{connector.name}, {where}", size=None
    )
    return [wired, *found]


def _share_of_nothing(belief: Belief) -> float:
    return sum(w.share for w in belief.suspects if not w.left)
