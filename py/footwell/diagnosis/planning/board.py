"""A planning problem in sets of worlds, each world a suspect for whom every outcome is settled.

A suspect whose outcomes are all but certain is one world. One that may show this or that is several: the
outcomes are settled by a few draws that all suspects share, so that two suspects with equal chances look
equal in every draw and nothing is learnt from the draw itself. A check repeated says the same again.
Worlds that no option tells apart are one world. Sets are whole numbers, one bit a world. Where the draws
make too many worlds, every suspect shows its likeliest outcome.
"""

from __future__ import annotations

import random
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from footwell.diagnosis.planning.problem import Problem

CERTAIN = 0.97
"""Chance from which an outcome is taken as certain: a slip in thirty changes no plan."""

DRAWS = 8
"""Draws that settle uncertain outcomes, an eighth of the share each."""

MOST_WORLDS = 160

World = tuple[int, ...]
"""Outcome of each option."""

Mend = Hashable
"""What is to be repaired in a world: a repair, or several that cannot be told apart, each with its part
of the share in hundredths."""


@dataclass(frozen=True, slots=True)
class Board:
    """`weights` sum to one; `repairs` are the sets of worlds with one repair each; `parts[j]` the sets of
    worlds with one outcome of option j each. `minutes` and `station` belong to the options. `ends[n][a]` are
    the minutes that follow at station a in world n, once the repair is known; () where nothing follows."""

    weights: tuple[float, ...]
    repairs: tuple[int, ...]
    parts: tuple[tuple[int, ...], ...]
    minutes: tuple[float, ...]
    station: tuple[int, ...]
    travel: tuple[tuple[float, ...], ...]
    start: int
    ends: tuple[tuple[float, ...], ...] = ()

    @property
    def all(self) -> int:
        return (1 << len(self.weights)) - 1


def board(problem: Problem) -> Board:
    """The problem in worlds, in the order in which the suspects bring them up."""
    suspects = _worlds(problem, DRAWS)
    if len(suspects) > MOST_WORLDS:
        suspects = _worlds(problem, 1)
    worlds = {world: _by_repair(problem, shares) for world, shares in suspects.items()}
    total = sum(sum(shares.values()) for shares in worlds.values())
    mends: dict[Mend, int] = {}
    for bit, shares in enumerate(worlds.values()):
        mend = _mend(shares)
        mends[mend] = mends.get(mend, 0) | 1 << bit
    return Board(
        tuple(sum(shares.values()) / total for shares in worlds.values()),
        tuple(mends.values()),
        tuple(_parts(worlds, j) for j in range(len(problem.options))),
        tuple(option.minutes for option in problem.options),
        tuple(option.station for option in problem.options),
        problem.travel,
        problem.start,
        tuple(_ends(problem, shares) for shares in suspects.values()) if problem.ends else (),
    )


def _by_repair(problem: Problem, suspects: Mapping[int, float]) -> dict[Hashable, float]:
    shares: dict[Hashable, float] = {}
    for s, share in suspects.items():
        shares[problem.repairs[s]] = shares.get(problem.repairs[s], 0.0) + share
    return shares


def _ends(problem: Problem, suspects: Mapping[int, float]) -> tuple[float, ...]:
    """Minutes that follow at each station, the mean over the suspects of a world."""
    total = sum(suspects.values())
    columns = zip(*(problem.ends[s] for s in suspects), strict=True)
    return tuple(
        sum(p * x for p, x in zip(suspects.values(), column, strict=True)) / total
        for column in columns
    )


def _worlds(problem: Problem, draws: int) -> dict[World, dict[int, float]]:
    """Share of each suspect in each world."""
    points = [_points(j, draws) for j in range(len(problem.options))]
    worlds: dict[World, dict[int, float]] = {}
    for s, share in enumerate(problem.shares):
        if share > 0.0:
            seen = _worlds_of([option.chances[s] for option in problem.options], points)
            for world in seen:
                shares = worlds.setdefault(world, {})
                shares[s] = shares.get(s, 0.0) + share / len(seen)
    return worlds


def _worlds_of(rows: Sequence[Sequence[float]], points: Sequence[Sequence[float]]) -> list[World]:
    """The worlds of one suspect, equally likely; `rows` are its chances under each option."""
    likeliest = [max(range(len(row)), key=row.__getitem__) for row in rows]
    unsure = [j for j, row in enumerate(rows) if row[likeliest[j]] < CERTAIN]
    draws = len(points[0]) if unsure else 1
    if draws == 1:
        return [tuple(likeliest)]
    worlds: list[World] = []
    for k in range(draws):
        world = list(likeliest)
        for j in unsure:
            world[j] = _drawn(rows[j], points[j][k])
        worlds.append(tuple(world))
    return worlds


def _points(option: int, draws: int) -> list[float]:
    """Points of the unit interval for the draws of an option, evenly spread, in an order of its own."""
    shuffled = random.Random(option)
    return sorted(((k + 0.5) / draws for k in range(draws)), key=lambda _: shuffled.random())


def _drawn(row: Sequence[float], at: float) -> int:
    """The outcome that a point of the unit interval falls on."""
    for outcome, chance in enumerate(row):
        at -= chance
        if at < 0.0:
            return outcome
    return len(row) - 1


def _mend(shares: dict[Hashable, float]) -> Mend:
    if len(shares) == 1:
        return next(iter(shares))
    total = sum(shares.values())
    return frozenset((repair, round(100.0 * share / total)) for repair, share in shares.items())


def _parts(worlds: Iterable[World], option: int) -> tuple[int, ...]:
    """The sets of worlds with one outcome of an option each."""
    found: dict[int, int] = {}
    for bit, world in enumerate(worlds):
        found[world[option]] = found.get(world[option], 0) | 1 << bit
    return tuple(found.values())
