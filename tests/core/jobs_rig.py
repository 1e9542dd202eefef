"""A job worked to its end, with what the page shows before every step."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from footwell.circuit.circuit import AS_DRAWN, Arrangement, arranged
from footwell.circuit.fault import Fault
from footwell.diagnosis.conclude import conclude
from footwell.job.events import Event
from footwell.job.replay import circuits_of, replay
from footwell.messages import JobView, WiringFinding
from footwell.page.job_view import job_view
from footwell.practice.electrician import MOST_STEPS, Run, begin, do
from footwell.practice.vehicle import Vehicle

from .loop_rig import read


@dataclass
class Road:
    """What was shown before each step, the run, and the vehicle as it stands at the end."""

    views: list[JobView] = field(default_factory=list)
    run: Run = field(default_factory=Run)
    left: tuple[Fault, ...] = ()

    @property
    def last(self) -> JobView:
        return self.views[-1]

    @property
    def kinds(self) -> list[str]:
        """Kind of every step, in order."""
        return [view.step.kind for view in self.views]

    def at(self, kind: str) -> JobView:
        """The view before the first step of a kind."""
        return next(view for view in self.views if view.step.kind == kind)

    def finding(self, connector: str) -> WiringFinding:
        """What was first said of a connector's wiring as found."""
        return next(
            c.finding
            for view in self.views
            for c in view.connectors
            if c.id == connector and c.finding is not None
        )

    @property
    def words(self) -> str:
        """Causes with their proof and reasons, as one text."""
        rows = [[c.title, *c.proof, *c.reasons, *c.open_questions] for c in self.last.causes]
        return "\n".join(line for row in rows for line in row)


def wired(half: tuple[str, str], **ways: str | None) -> Arrangement:
    """One half of a connector wired so; ways are written w1, w30."""
    return arranged(AS_DRAWN, half, {way[1:]: wires for way, wires in ways.items()})


def vehicle(sheet: str, *faults: Fault, arrangement: Arrangement = AS_DRAWN) -> Vehicle:
    return Vehicle(circuits_of(read(sheet)), faults, arrangement)


def road(sheet: str, truth: Vehicle, tools: Sequence[str], **story: object) -> Road:
    """Open a job and go its road to the end."""
    return gone(Road(run=begin(read(sheet).sheet, truth, tools, **story)), truth)


def gone(found: Road, truth: Vehicle) -> Road:
    """Go the rest of a job's road."""
    for _ in range(MOST_STEPS):
        events: list[Event] = list(found.run.events)
        found.views.append(job_view(events))
        replayed = replay(events)
        conclusion = conclude(replayed.case)
        if conclusion.step.kind == "finished":
            break
        truth = do(found.run, replayed, conclusion, truth)
    found.left = truth.standing
    return found
