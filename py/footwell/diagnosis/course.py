"""How things may have gone under one suspect, up to a piece of evidence."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from footwell.checks.predict import Reading
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case, Hypothesis, Taken
from footwell.electrics.spread import Leans
from footwell.electrics.turns import NOTHING, Known, Turn, forgotten, learned


@dataclass(slots=True)
class Course:
    """One way that things may have gone under a suspect: `odds` is the log chance that relays and fuses in
    doubt turned out so, `known` what that supposes of them, `words` the log chance of all words, `log` that
    of everything in the order taken. Numbers are kept with their predictions, with how the next number
    leans on those before it (`leans` with the sitting of each); `blown` are fuses that have opened."""

    odds: float = 0.0
    known: Known = NOTHING
    words: float = 0.0
    log: float = 0.0
    numbers: list[tuple[Taken, Reading]] = field(default_factory=list)
    residuals: list[float] = field(default_factory=list)
    leans: list[tuple[int, Leans]] = field(default_factory=list)
    factor: list[list[float]] = field(default_factory=list)
    epoch: int = 0
    blown: set[str] = field(default_factory=set)
    ever_blown: set[str] = field(default_factory=set)

    def reach(self, case: Case, epoch: int) -> None:
        """Go on to an epoch: what was renewed on the way is whole again."""
        while self.epoch < epoch:
            self.epoch += 1
            renewed = case.epochs[self.epoch].renewed
            self.blown -= renewed
            self.known = forgotten(self.known, renewed)

    def turned(self, weight: float, turns: tuple[Turn, ...], blown: tuple[str, ...]) -> Course:
        """This course where doubts turned out so, with the fuses that opened."""
        if not turns:
            self.blow(blown)
            return self
        odds = math.log(max(weight, 1e-12))
        found = replace(
            self,
            odds=self.odds + odds,
            known=learned(self.known, turns),
            log=self.log + odds,
            numbers=[*self.numbers],
            residuals=[*self.residuals],
            leans=[*self.leans],
            factor=[*self.factor],
            blown={*self.blown},
            ever_blown={*self.ever_blown},
        )
        found.blow(blown)
        return found

    def blow(self, fuses: tuple[str, ...]) -> None:
        self.blown.update(fuses)
        self.ever_blown.update(fuses)


@dataclass(slots=True)
class Track:
    """What is remembered of one suspect on the way through the evidence: nearly always one course."""

    courses: list[Course] = field(default_factory=lambda: [Course()])

    def reach(self, case: Case, epoch: int) -> None:
        for course in self.courses:
            course.reach(case, epoch)


def standing(case: Case, h: Hypothesis, course: Course) -> tuple[Fault, ...]:
    """The faults that are there now under a suspect, blown fuses with them."""
    faults = case.standing(h, course.epoch)
    if not course.blown:
        return faults
    return tuple(sorted({*faults, *(Fault(fuse, "open") for fuse in course.blown)}))
