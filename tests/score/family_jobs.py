"""Jobs on drawn circuits: a vehicle with hidden faults, node voltages read until the fault is named."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace

from family import SWITCHES, Family

from footwell.checks import sights
from footwell.checks.catalogue import working_setups
from footwell.checks.check import VOLTS, Check
from footwell.checks.hands import Tools
from footwell.checks.outlook import outlook
from footwell.checks.predict import Reading, Words, expected, seen_as
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState, set_up
from footwell.diagnosis.belief import Belief, believe, by_repair
from footwell.diagnosis.case import Case, Epoch, Evidence, Sighting, Taken
from footwell.diagnosis.choose import choices
from footwell.diagnosis.likelihood import SLIP_SHARE
from footwell.diagnosis.unseen import unseen
from footwell.parts.base import EARTH

NAMED_FROM = 0.95
"""Share of one set of parts from which it counts as named."""

SURE = 0.9
"""Chance of a part being at fault from which it is renewed."""

MOST_CHECKS = 20
METER = Tools(("meter",))

Parts = frozenset[str]
Choose = Callable[[Case, Belief, random.Random], Check | None]


@dataclass
class Truth:
    """The vehicle: its circuit with the faults that stand now, and the chance that scatters readings. Who
    `errs` reads the wrong node and says the wrong word as often as belief counts on."""

    circuit: Circuit
    faults: tuple[Fault, ...]
    chance: random.Random
    errs: bool = False

    @property
    def parts(self) -> Parts:
        return frozenset(f.element for f in self.faults)

    def reads(self, check: Check, slip: bool = False) -> float:
        """A node voltage (V) with the meter's scatter; a slip reads another node."""
        if slip or (self.errs and self.chance.random() < SLIP_SHARE):
            wrong = [p for p in self.circuit.points if p != check.red]
            check = replace(check, red=self.chance.choice(wrong))
        predicted = expected(self.circuit, check, self.faults)
        reading = predicted if isinstance(predicted, Reading) else predicted[0].said
        assert isinstance(reading, Reading)
        return reading.mean + self.chance.gauss(0.0, reading.instrument_sigma)

    def says(self, said: Words) -> str:
        """The likeliest word, or one drawn by its chance."""
        if not self.errs:
            return likeliest(said)
        (word,) = self.chance.choices([*said], [*said.values()])
        return word


@dataclass
class Job:
    """A job under way: the circuit as drawn, evidence so far, parts renewed in each epoch."""

    family: Family
    truth: Truth
    evidence: list[Evidence] = field(default_factory=list)
    epochs: list[Epoch] = field(default_factory=lambda: [Epoch()])
    checks: int = 0

    @property
    def setup(self) -> SetupState:
        return working_setups(self.family.circuit)[0]

    def case(self) -> Case:
        return Case(
            lambda _: self.family.circuit, tuple(self.epochs), tuple(self.evidence), tools=METER
        )

    def look(self) -> bool:
        """Write down what every load does; whether some load does not do what it should."""
        complaint = False
        now = outlook(self.truth.circuit, self.setup, self.truth.faults).activity
        usual = outlook(self.family.circuit, self.setup, ()).activity
        for load in self.family.circuit.sheet.loads:
            said, well = (
                self.words(load, share, usual[load]) for share in (now[load], usual[load])
            )
            complaint |= likeliest(said) != likeliest(well)
            word = self.truth.says(said)
            epoch = len(self.epochs) - 1
            self.evidence.append(Sighting(epoch, 0, self.setup, load, word, "me"))
        return complaint

    def words(self, load: str, share: float, usual: float) -> Words:
        """Chances of what is said of a load."""
        slip = sights.SLIP["me"] if self.truth.errs else 0.0
        return sights.chances(seen_as(self.family.circuit, load), share, usual, slip)

    def read(self, check: Check, slip: bool = False) -> None:
        value = self.truth.reads(check, slip)
        self.checks += 1
        self.evidence.append(Taken(len(self.epochs) - 1, 0, check, value, "", self.checks))

    def renew(self, parts: Parts) -> None:
        self.truth.faults = tuple(f for f in self.truth.faults if f.element not in parts)
        self.epochs.append(Epoch((), self.epochs[-1].mended | parts, parts))


def likeliest(said: Words) -> str:
    return max(said, key=lambda word: said[word])


def node_checks(circuit: Circuit) -> list[Check]:
    """The voltage of every node against earth, everything switched on."""
    return [Check(VOLTS, p, EARTH, set_up(circuit, {SWITCHES: "on"})) for p in circuit.points]


def prepared(family: Family) -> Family:
    """The family's circuit with node voltages as its only checks."""
    family.circuit.cache["catalogue", METER, "off"] = node_checks(family.circuit)
    return family


def begun(
    family: Family, faults: tuple[Fault, ...], chance: random.Random, errs: bool = False
) -> Job | None:
    """A job on a vehicle that is brought in; None where nobody would complain. What scatters its readings is
    its own: however it is worked, the same jobs come after it."""
    own = random.Random(chance.random())
    job = Job(family, Truth(family.vehicle, faults, own, errs))
    return job if job.look() else None


def named(belief: Belief) -> tuple[Parts, float]:
    """The likeliest set of parts to renew, and its share."""
    for repairs, share in by_repair(belief.suspects).items():
        return frozenset(r[0] for r in repairs), share
    return frozenset(), 0.0


ALIKE = 0.1
"""Likelihood, as a share of that of the named set, from which a set explains the readings as well."""


def group(belief: Belief) -> list[Parts]:
    """The sets of parts that cannot be told from the named one by the readings, whatever their odds
    beforehand: an open feed hides what lies behind it."""
    best: dict[Parts, float] = {}
    for w in belief.suspects:
        parts = frozenset(r[0] for r in w.left)
        best[parts] = max(best.get(parts, 0.0), w.share / w.hypothesis.odds)
    limit = ALIKE * best.get(named(belief)[0], 0.0)
    return [parts for parts, likelihood in best.items() if likelihood >= limit]


def reported(case: Case, belief: Belief, truth: Parts) -> bool:
    """Whether the truth is what Footwell reports before a repair: a set of the group, with parts beside it
    that it calls not judged yet because nothing so far could show a fault of them."""
    apart = group(belief)
    if truth in apart:
        return True
    every = {frozenset(r[0] for r in w.left): w for w in reversed(belief.suspects)}
    return any(truth - parts <= {*unseen(case, every[parts])} for parts in apart if parts < truth)


def to_renew(belief: Belief, parts: Sequence[str]) -> Parts:
    """Parts that are at fault beyond doubt; where none is, the likeliest."""
    chances = marginals(belief, parts)
    sure = frozenset(part for part, chance in chances.items() if chance >= SURE)
    return sure or frozenset([max(chances, key=lambda part: (round(chances[part], 9), part))])


def marginals(belief: Belief, parts: Sequence[str]) -> dict[str, float]:
    """Chance of every part that it is at fault now."""
    found = dict.fromkeys(parts, 0.0)
    for w in belief.suspects:
        for part in {r[0] for r in w.left}:
            found[part] += w.share
    return found


def not_taken(case: Case, checks: Iterable[Check]) -> list[Check]:
    """Checks not made since the last repair."""
    return [c for c in checks if c.id not in case.taken]


def ours(case: Case, belief: Belief, chance: random.Random) -> Check | None:
    """Footwell's choice."""
    return next((c.check for c in choices(case, belief)), None)


def confirmed(job: Job, slip_at: int = -1) -> Parts:
    """The parts to renew, once the voltages at their own ends have been read."""
    while True:
        parts = to_renew(narrowed(job, slip_at=slip_at), job.family.parts)
        ends = [_node_check(job, point) for part in sorted(parts) for point in _points(job, part)]
        missing = not_taken(job.case(), ends)
        if not missing:
            return parts
        for check in missing:
            job.read(check, slip=job.checks == slip_at)


def _points(job: Job, part: str) -> list[str]:
    circuit = job.family.circuit
    element = circuit.elements[part]
    nodes = {element.nodes[t] for t in element.kind.terminals(element.values)}
    return [p for p in circuit.points if circuit.node_of[p] in nodes]


def _node_check(job: Job, point: str) -> Check:
    return Check(VOLTS, point, EARTH, job.setup)


def narrowed(job: Job, choose: Choose = ours, slip_at: int = -1) -> Belief:
    """Read until a set of parts is named or nothing is worth reading."""
    start = job.checks
    while True:
        case = job.case()
        belief = believe(case)
        if named(belief)[1] >= NAMED_FROM or job.checks - start >= MOST_CHECKS:
            return belief
        check = choose(case, belief, job.truth.chance)
        if check is None:
            return belief
        job.read(check, slip=job.checks == slip_at)
