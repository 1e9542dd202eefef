"""A case: what is known of one job, in the form that belief is computed from.

Time in a job is cut into epochs at every wiring move and repair. In each epoch the circuit stood in a
known way, except where a suspect says otherwise: a connector nobody has looked at may be wired wrongly,
a fault not mended is still there. Every reading is predicted in the circuit as it stood when it was
taken.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from footwell.checks.check import Check
from footwell.checks.hands import Tools
from footwell.circuit.circuit import AS_DRAWN, Arrangement, Circuit, HalfId, arranged
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.faults.miswiring import Slip
from footwell.faults.suspects import Circumstances, Repair

CircuitFor = Callable[[Arrangement], Circuit]


@dataclass(frozen=True, slots=True)
class Epoch:
    """The circuit between two changes: arrangement of the halves looked at, elements mended by then,
    and those renewed at its very beginning."""

    arrangement: Arrangement = AS_DRAWN
    mended: frozenset[str] = frozenset()
    renewed: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Sighting:
    """What a load did in a set-up, in a word; `told_by` is "me" or "customer"."""

    epoch: int
    sitting: int
    setup: SetupState
    load: str
    word: str
    told_by: str


@dataclass(frozen=True, slots=True)
class Taken:
    """A reading: `value` in V, A or Ω (inf is over range), or a word."""

    epoch: int
    sitting: int
    check: Check
    value: float | None
    word: str
    number: int
    """Where it stands in the job's history."""


def look_id(half: HalfId) -> str:
    """Stands for a look into a half among the checks that were passed over."""
    return f"look into {half[0]}.{half[1]}"


def ends_id(wire: str) -> str:
    """Stands for finding both ends of a wire among the checks that were passed over."""
    return f"ends of {wire}"


Evidence = Sighting | Taken


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """Faults that are there from the start, with at most one wiring slip not yet looked at."""

    faults: tuple[Fault, ...]
    odds: float
    repairs: tuple[Repair, ...]
    slip: Slip | None = None


@dataclass(frozen=True)
class Case:
    """`epochs[-1]` is now. `doubtful` lists halves that somebody has wired lately and nobody has looked at,
    `untold` the others that nobody has looked at, as far as a plug may be opened at all."""

    circuit_for: CircuitFor
    epochs: tuple[Epoch, ...]
    evidence: tuple[Evidence, ...]
    story: Circumstances = field(default_factory=Circumstances)
    doubtful: tuple[HalfId, ...] = ()
    untold: tuple[HalfId, ...] = ()
    tools: Tools = field(default_factory=Tools)
    engine: str = "off"
    sitting: int = 0
    last_check: Check | None = None
    skipped: frozenset[str] = frozenset()
    positions_due: bool = False
    unreachable: frozenset[str] = field(default=frozenset())
    followed: frozenset[str] = field(default=frozenset())
    """Wires both ends of which somebody has found."""
    misplaced: tuple[HalfId, ...] = ()
    """Halves in which a wire was found in another way than the sheet's, and that nobody has looked into."""

    @property
    def now(self) -> Circuit:
        """The circuit as it is known to stand now."""
        return self.circuit_for(self.epochs[-1].arrangement)

    @property
    def drawn(self) -> Circuit:
        """The circuit as its sheet has it, with every wire in its place."""
        return self.circuit_for(AS_DRAWN)

    def circuit(self, epoch: int, slip: Slip | None) -> Circuit:
        """The circuit in an epoch, under a suspected slip."""
        arrangement = self.epochs[epoch].arrangement
        if slip is not None:
            arrangement = arranged(arrangement, slip.half, dict(slip.wiring))
        return self.circuit_for(arrangement)

    def standing(self, hypothesis: Hypothesis, epoch: int) -> tuple[Fault, ...]:
        """The hypothesis' faults that are still there in an epoch."""
        mended = self.epochs[epoch].mended
        return tuple(f for f in hypothesis.faults if f.element not in mended)

    def left_to_mend(self, hypothesis: Hypothesis) -> tuple[Repair, ...]:
        """What still has to be mended now if the hypothesis is true."""
        mended = self.epochs[-1].mended
        return tuple(sorted(r for r in hypothesis.repairs if r[0] not in mended))

    def may_look_into(self, half: HalfId) -> bool:
        """Whether nobody has said that a half cannot be looked into or its connector is out of reach."""
        return look_id(half) not in self.skipped and half[0] not in self.unreachable

    @property
    def taken_now(self) -> tuple[Taken, ...]:
        """Readings taken in the circuit as it stands now."""
        now = len(self.epochs) - 1
        return tuple(e for e in self.evidence if isinstance(e, Taken) and e.epoch == now)

    @property
    def taken(self) -> frozenset[str]:
        """Checks, by id and so in one set-up each, made in the circuit as it stands now."""
        return frozenset(e.check.id for e in self.taken_now)

    @property
    def supply_measured(self) -> bool:
        battery = self.now.supply_element.id
        return any(
            isinstance(e, Taken) and e.sitting == self.sitting and e.check.red == f"{battery}.+"
            for e in self.evidence
        )


def started(case: Case, check: Check) -> Literal["on"] | None:
    """ "on" where the engine stands still and is started for a check."""
    return "on" if case.engine == "off" and check.setup.engine == "on" else None
