"""Which orders of a connector's wires fit what was told and measured, where nobody can see the numbers.

Each order is taken by itself, with nothing else wrong. It fits as long as no single piece of evidence
speaks against it clearly; those that fit are not told apart further than their likelihoods say. Readings at
the connector itself have no say: with the numbers unseen, a way and the colour in it do not go together.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from footwell.circuit.circuit import Circuit, HalfId
from footwell.diagnosis.case import Case, Evidence, Hypothesis, Taken
from footwell.diagnosis.course import Track
from footwell.diagnosis.likelihood import Piece, any_log, joint_log, log_chance
from footwell.faults.miswiring import SLIP_ODDS, Slip, Wiring, as_drawn
from footwell.faults.orders import OTHER_ORDER, as_suspects

CLEARLY = 0.1
"""An order is out when a piece of evidence is this much less likely under it than by mere chance."""


@dataclass(frozen=True, slots=True)
class Order:
    """An order that fits, with its share among those that do; `slip` None is the sheet's own."""

    wiring: Wiring
    slip: Slip | None
    share: float

    def hypothesis(self, half: HalfId) -> Hypothesis:
        """The order as a suspect whose name stands for its repair, so that orders count apart."""
        name = ",".join(f"{way}:{wires}" for way, wires in self.wiring.items())
        return Hypothesis((), 1.0, ((f"{half[0]}.{half[1]}", name),), self.slip)


@dataclass(frozen=True, slots=True)
class Fitting:
    """How many orders there were to begin with, and those that fit, the likeliest first."""

    total: int
    fit: tuple[Order, ...]


def fitting(case: Case, half: HalfId, seen: Mapping[str, str | None] | None = None) -> Fitting:
    """The orders of a half that hold what was `seen` in some ways and fit the evidence. None are looked at
    where the half has more wires than `orders.MOST_WIRES`."""
    circuit = case.circuit_for(())
    wrong = as_suspects(circuit, half)
    if not wrong:
        return Fitting(0, ())
    drawn = as_drawn(circuit, half)
    every: list[tuple[Wiring, Slip | None, float]] = [(drawn, None, 1.0 - SLIP_ODDS)]
    every += [(dict(slip.wiring), slip, slip.odds) for slip in wrong]
    open_ways = [row for row in every if all(row[0][w] == x for w, x in (seen or {}).items())]
    evidence = tuple(item for item in case.evidence if not at_connector(item, half[0]))
    out = _Against(circuit, evidence)
    weights = [
        (wiring, slip, math.log(odds) + said)
        for wiring, slip, odds in open_ways
        if (said := _log_of(case, evidence, slip, out)) is not None
    ]
    top = max((w for _, _, w in weights), default=0.0)
    total = sum(math.exp(w - top) for _, _, w in weights)
    rows = [Order(wiring, slip, math.exp(w - top) / total) for wiring, slip, w in weights]
    rows.sort(key=lambda row: (-round(row.share, 9), str(row.wiring)))
    return Fitting(len(open_ways), tuple(rows))


def at_connector(item: Evidence, connector: str) -> bool:
    """Whether a reading was held to a connector."""
    if not isinstance(item, Taken):
        return False
    return connector in {p.split(".")[0] for p in (item.check.red, item.check.black)}


class _Against:
    """Orders that some beginning of the evidence spoke against: they are out as long as it stays."""

    def __init__(self, circuit: Circuit, evidence: tuple[Evidence, ...]) -> None:
        kept: dict[tuple[Evidence, ...], set[Slip | None]] = circuit.cache.setdefault(
            "orders against", {}
        )
        beginnings = (evidence[: n + 1] for n in range(len(evidence)))
        self._by_length = [kept.setdefault(beginning, set()) for beginning in beginnings]
        self.known: set[Slip | None] = set().union(*self._by_length)

    def add(self, slip: Slip | None, length: int) -> None:
        self._by_length[length].add(slip)


def _log_of(
    case: Case, evidence: tuple[Evidence, ...], slip: Slip | None, out: _Against
) -> float | None:
    """Log chance of all evidence under an order; None from the first piece that speaks against it."""
    if slip in out.known:
        return None
    alone = Hypothesis((), 1.0, (), slip)
    track = Track()
    for n, item in enumerate(evidence):
        if log_chance(case, alone, Piece((item,)), track) < any_log(item) + math.log(CLEARLY):
            out.add(slip, n)
            return None
    return joint_log(track)


MOST_SUSPECTS = 40
"""Orders that take part in the belief one by one; where more fit they stand for the rest."""


def unseen_orders(case: Case, half: HalfId) -> list[Slip]:
    """Orders that no kind of slip gives, as suspects of a half that cannot be looked into."""
    rare = [
        order.slip
        for order in fitting(case, half).fit
        if order.slip is not None and order.slip.kind == OTHER_ORDER
    ]
    step = max(1, -(-len(rare) // MOST_SUSPECTS))
    kept = rare[::step]
    odds = sum(s.odds for s in rare) / max(len(kept), 1)
    return [replace(slip, odds=odds) for slip in kept]
