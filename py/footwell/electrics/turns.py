"""A part that may or may not have tipped, what its having done so tells, and what it changes.

Whether a relay has pulled in is asked again with every reading. What one reading supposes holds for the
next: the number that a doubt hangs on is drawn once for the part, and each turn narrows where it lies.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from math import inf, sqrt
from typing import Protocol, TypeVar

from footwell.electrics.normal import below, cut
from footwell.electrics.spread import Leans, Nuisance
from footwell.parts.base import Tipping

LEAST = 0.02
"""Chance below which a state is left out."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """An element that may tip: it has where a standard normal number, drawn for it, is at most `score`.

    That number takes in all that is uncertain: one standard deviation of a tolerance takes its `leans`
    from it, and its limit all the rest. `quantity` is what the element feels, in the tipping's unit.
    """

    element: str
    tipping: Tipping
    score: float
    leans: Leans
    quantity: float

    @property
    def key(self) -> tuple[str, str]:
        """What the number belongs to: the element and the state it tips to."""
        return self.element, self.tipping.to


@dataclass(frozen=True, slots=True)
class Turn:
    """How a doubt has turned out."""

    doubt: Doubt
    tipped: bool

    @property
    def words(self) -> str:
        """Completes "the part ...": "has dropped out", "holds"."""
        return self.doubt.tipping.done if self.tipped else self.doubt.tipping.spared


Known = tuple[tuple[tuple[str, str], tuple[float, float]], ...]
"""Between which numbers that of a doubt lies, by its key, in the order of keys."""

NOTHING: Known = ()


def chance(turns: Sequence[Turn], known: Known) -> float:
    """Chance that the doubts turn out so, given what is known already."""
    limits = dict(known)
    found = 1.0
    for turn in turns:
        low, high = limits.get(turn.doubt.key, (-inf, inf))
        edge = min(max(turn.doubt.score, low), high)
        kept = below(edge) - below(low) if turn.tipped else below(high) - below(edge)
        every = below(high) - below(low)
        found *= kept / every if every > 0.0 else 0.0
    return found


def learned(known: Known, turns: Sequence[Turn]) -> Known:
    """What is known after the doubts have turned out so."""
    limits = dict(known)
    for turn in turns:
        low, high = limits.get(turn.doubt.key, (-inf, inf))
        edge = min(max(turn.doubt.score, low), high)
        limits[turn.doubt.key] = (low, edge) if turn.tipped else (edge, high)
    return tuple(sorted(limits.items()))


def forgotten(known: Known, elements: Collection[str]) -> Known:
    """What is still known after elements have been renewed."""
    return tuple(row for row in known if row[0][0] not in elements)


class State(Protocol):
    """One of the states that can be: its chance, and how doubts have turned out for it."""

    @property
    def weight(self) -> float: ...
    @property
    def turns(self) -> tuple[Turn, ...]: ...


S = TypeVar("S", bound=State)


def possible(states: Sequence[S], known: Known) -> list[tuple[float, S]]:
    """The states with their chances given what is known; those hardly possible are left out."""
    if len(states) == 1 or not known:
        return [(s.weight, s) for s in states]
    every = [(chance(s.turns, known), s) for s in states]
    likely = [row for row in every if row[0] >= LEAST] or [max(every, key=lambda row: row[0])]
    total = sum(weight for weight, _ in likely)
    return [(weight / total if total > 0.0 else 1.0, s) for weight, s in likely]


def given(mean: float, leans: Leans, turns: Sequence[Turn]) -> tuple[float, dict[Nuisance, float]]:
    """A figure and its leans, given how doubts turned out.

    A relay that has pulled in all the same speaks for a good supply: the tolerances on that side of
    the limit are the likelier ones. Their mean moves, and their spread along the doubt's own leans
    shrinks, both as those of a normal distribution that is cut at the score.
    """
    own = dict(leans)
    for turn in turns:
        along = turn.doubt.leans
        share = sum(x * x for x in along.values())
        if share <= 0.0:
            continue
        shift, variance = cut(turn.doubt.score, turn.tipped)
        held = sum(x * own.get(key, 0.0) for key, x in along.items())
        mean -= held * shift
        shrunk = (1.0 - sqrt(max(1.0 - share * (1.0 - variance), 0.0))) * held / share
        for key, x in along.items():
            own[key] = own.get(key, 0.0) - shrunk * x
    return mean, own
