"""Our node voltages beside those of ngspice, case by case."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from random import Random

from core.random_circuits import random_circuit

from footwell.circuit.circuit import Circuit
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.spice import netlist, node_names

from .cases import Case, random_cases
from .simulator import Volts, attempt, by_currents, run, started

FLOOR_VOLTS, FLOOR_SHARE = 0.005, 0.001
"""A voltage agrees within 5 mV or 0.1 %, whichever is more."""
GOAL_VOLTS, GOAL_SHARE = 0.001, 0.0001
SHARES_FROM_VOLTS = 1.0
"""Below, a share of the voltage says nothing: it would be that of a rounding."""
FLOATS_FROM_OHMS = 1e8
"""Ten times a meter's resistance: no meter shows the voltage of such a place."""
FEWEST_PARTS, MOST_PARTS = 5, 60

Form = Callable[[str], str]


@dataclass(frozen=True)
class Difference:
    """The node of a case where the two differ most, among those that float or those that do not."""

    case: Case
    node: str
    ours: float
    theirs: float
    """Voltage in V by ngspice."""
    floats: bool = False
    share: float = 0.0
    """Largest difference of any of these nodes as a share of its voltage."""

    @property
    def volts(self) -> float:
        return abs(self.ours - self.theirs)

    @property
    def within_floor(self) -> bool:
        return self.volts <= max(FLOOR_VOLTS, FLOOR_SHARE * abs(self.theirs))

    @property
    def within_goal(self) -> bool:
        return self.volts <= GOAL_VOLTS and self.share <= GOAL_SHARE


def as_exported(deck: str) -> str:
    """The netlist as users get it."""
    return deck


def compare(
    circuit: Circuit, cases: Iterable[Case], form: Form = as_exported
) -> Iterator[Difference]:
    """The largest differences of each case: one where nodes are held, one where they float."""
    points = [(case, operate(circuit, case.setup, case.faults, case.clips)) for case in cases]
    found = run([form(netlist(point)) for _, point in points])
    for (case, point), theirs in zip(points, found, strict=True):
        yield from differences(case, point, theirs)


@dataclass
class Tried:
    """What became of the cases of random circuits: `retried` are those that the simulator solved only
    when it was told where to begin, `unsolved` those that it did not solve then either."""

    found: list[tuple[Difference, OperatingPoint]] = field(default_factory=list)
    cases: int = 0
    retried: int = 0
    unsolved: list[Case] = field(default_factory=list)

    @property
    def differences(self) -> list[Difference]:
        return [difference for difference, _ in self.found]


def try_random(seed: str, tried: Tried, most_cases: int | None = None) -> None:
    """Add what the random circuit of a seed shows, in all of its cases or in some."""
    chance = Random(seed)
    circuit = random_circuit(chance, chance.randint(FEWEST_PARTS, MOST_PARTS))
    cases = random_cases(circuit, chance)
    chosen = cases if most_cases is None else chance.sample(cases, min(len(cases), most_cases))
    points = [operate(circuit, case.setup, case.faults, case.clips) for case in chosen]
    decks = [by_currents(netlist(point)) for point in points]
    for case, point, deck, theirs in zip(chosen, points, decks, attempt(decks)[0], strict=True):
        tried.cases += 1
        if theirs is None:
            tried.retried += 1
            volts = dict(zip(node_names(circuit)[:-1], point.volts, strict=False))
            # Where the currents as unknowns keep it from settling, the netlist as users get it may do.
            others = attempt([started(deck, volts), netlist(point)])[0]
            theirs = next((volts for volts in others if volts is not None), None)
        if theirs is None:
            tried.unsolved.append(case)
        else:
            tried.found += [(d, point) for d in differences(case, point, theirs)]


def differences(case: Case, point: OperatingPoint, theirs: Volts) -> Iterator[Difference]:
    """The largest difference where nodes are held, and where they float."""
    names = node_names(point.circuit)
    ohms = point.seen_resistance[0]
    for floats in (False, True):
        every = [
            Difference(case, names[n], point.volts[n], theirs[names[n].lower()], floats)
            for n in range(point.mesh.n)
            if (ohms[n] > FLOATS_FROM_OHMS) == floats
        ]
        if every:
            worst = max(every, key=lambda d: (d.volts, d.node))
            yield Difference(case, worst.node, worst.ours, worst.theirs, floats, _share(every))


def _share(every: Sequence[Difference]) -> float:
    told = (d.volts / abs(d.theirs) for d in every if abs(d.theirs) > SHARES_FROM_VOLTS)
    return max(told, default=0.0)


def table(found: Sequence[Difference]) -> list[str]:
    """Cases, largest difference, and how many miss the goal: by class, held or floating."""
    lines = [f"{'':12} {'nodes':8} {'cases':>6} {'mV':>10} {'%':>10}  beyond 1 mV or 0.01 %"]
    for kind in dict.fromkeys(d.case.kind for d in found):
        for floats in (False, True):
            rows = [d for d in found if d.case.kind == kind and d.floats == floats]
            if rows:
                most, share = max(d.volts for d in rows), max(d.share for d in rows)
                missed = sum(not d.within_goal for d in rows)
                nodes = "floating" if floats else "held"
                lines.append(
                    f"{kind:12} {nodes:8} {len(rows):6} {most * 1e3:10.6f} {share * 100:10.7f}  {missed}"
                )
    return lines
