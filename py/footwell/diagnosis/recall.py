"""What suspects have said of a job's evidence, kept between two looks so that only what is new is weighed.

Weighing depends on nothing but the case, so what is kept changes no figure. It is kept with the circuit as
drawn, for one job at a time, and thrown away where the job does not go on from there: something was
withdrawn, a connector looked into later turns out to have been wired otherwise all along, another job begins.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field

from footwell.checks.memory import spare
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Epoch, Hypothesis
from footwell.diagnosis.course import Track
from footwell.diagnosis.likelihood import Piece, log_chance, pieces
from footwell.faults.miswiring import Slip

Name = tuple[tuple[Fault, ...], Slip | None]


@dataclass(slots=True)
class Told:
    """One suspect on its way: the log chance of each piece of evidence up to where its track stands."""

    track: Track = field(default_factory=Track)
    chances: array[float] = field(default_factory=lambda: array("d"))

    def of(self, case: Case, h: Hypothesis, n: int, piece: Piece) -> float:
        """Log chance of the `n`th piece of evidence; those before it have been asked for."""
        if n == len(self.chances):
            self.chances.append(log_chance(case, h, piece, self.track))
        return self.chances[n]


Row = tuple[Hypothesis, float, Told]
"""A suspect with its log weight so far and its way."""


@dataclass
class Standing:
    """Where suspects stand after so many pieces of evidence: those left (`rows`), those that fell, the first
    first, and how well the best explained each piece (`fits`, log chance)."""

    rows: list[Row]
    pieces: int = 0
    fell: list[Hypothesis] = field(default_factory=list)
    fits: list[float] = field(default_factory=list)


@dataclass
class Recall:
    """The memory of one job up to a look. `start` are the suspects before the evidence that `singles`
    were."""

    epochs: tuple[Epoch, ...]
    pieces: list[Piece]
    start: list[Hypothesis] = field(default_factory=list)
    singles: Standing | None = None
    now: dict[Name, Told] = field(default_factory=dict)
    before: dict[Name, Told] = field(default_factory=dict)

    def begun(self, suspects: Sequence[Hypothesis]) -> Standing:
        """Suspects before the evidence."""
        return Standing([(h, math.log(h.odds), self._told(h)) for h in suspects])

    def _told(self, h: Hypothesis) -> Told:
        """What a suspect has said so far. One that a look does not ask for is forgotten after it."""
        name = (h.faults, h.slip)
        found = self.now.get(name)
        if found is None:
            found = self.now[name] = self.before.get(name) or Told()
        return found

    def standing_of(self, every: Sequence[Hypothesis]) -> Standing:
        """Where the suspects of a case stood at the last look; before the evidence where they are others, or
        have other odds, than then."""
        fresh = self.begun(every)
        if self.singles is None or self.start != every:
            self.start, self.singles = list(every), fresh
        return self.singles

    def leads_to(self, epochs: tuple[Epoch, ...], every: list[Piece]) -> bool:
        """Whether a job is this one some events later."""
        gone_by = epochs[: len(self.epochs)], every[: len(self.pieces)]
        return gone_by == (self.epochs, self.pieces)


@contextmanager
def recalled(case: Case) -> Iterator[Recall]:
    """What is kept of the job so far, to be moved on to the case. A look that ends in an error keeps nothing:
    it may have stopped half way."""
    every = pieces(case.evidence)
    kept = case.drawn.cache.pop("recall", None)
    if not isinstance(kept, Recall) or not kept.leads_to(case.epochs, every):
        kept = Recall((), [])
    found = Recall(case.epochs, every, kept.start, kept.singles, {}, kept.now)
    yield found
    case.drawn.cache["recall"] = found
    spare(case.now)
