"""Where a relay may or may not pull in and a fuse may or may not open: the states that can be, weighed.

The limits at which parts tip differ from vehicle to vehicle, and so does what the parts feel. Far from a
limit there is one operating point. Near it there are two, each with its chance; what lies between
them is a reading that cannot be, so it is never a mean of the two that is foretold.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from math import sqrt

from footwell.circuit.circuit import Element
from footwell.electrics.normal import below, score_of, spread_over
from footwell.electrics.opening import opening, opening_before
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.spread import amps_leans, volts_leans
from footwell.electrics.turns import LEAST, Doubt, Turn
from footwell.electrics.zones import ANYHOW, NEAR, near
from footwell.parts.base import Felt, Tipping

MOST_DOUBTS = 2
"""Elements that are told apart, the most doubtful first: four states at most."""


@dataclass(frozen=True, slots=True)
class Alternative:
    """One of the states that can be, with its chance, and what has to be so for it."""

    weight: float
    point: OperatingPoint
    turns: tuple[Turn, ...] = ()


def alternatives(point: OperatingPoint) -> tuple[Alternative, ...]:
    """The states that can be beside one found with the middle of all limits, which comes first.

    Nearly always there is only it. The weights sum to one.
    """
    fork = _most_doubtful(point, {})
    if fork is None:
        return (Alternative(1.0, point),)
    found = [a for a in _split(point, fork, {}) if a.weight >= LEAST]
    total = sum(a.weight for a in found)
    return tuple(replace(a, weight=a.weight / total) for a in found)


def doubts(point: OperatingPoint) -> list[Doubt]:
    """What may tip at an operating point, the most doubtful first."""
    found = [fork.doubt for fork in _forks(point, {})]
    return sorted(found, key=lambda d: (abs(d.score), d.element))


Held = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class _Fork:
    """A doubt, whether it has tipped at the point looked at, and the point where it is otherwise."""

    doubt: Doubt
    tipped: bool
    there: OperatingPoint


def _split(point: OperatingPoint, fork: _Fork, held: Held) -> Iterator[Alternative]:
    chance = below(fork.doubt.score)
    element = fork.doubt.element
    for each, tipped in ((point, fork.tipped), (fork.there, not fork.tipped)):
        weight = chance if tipped else 1.0 - chance
        turn = Turn(fork.doubt, tipped)
        inside = {**held, element: each.states[element]}
        further = _most_doubtful(each, inside) if len(inside) < MOST_DOUBTS else None
        if further is None:
            yield Alternative(weight, each, (turn,))
            continue
        for a in _split(each, further, inside):
            yield Alternative(weight * a.weight, a.point, (turn, *a.turns))


def _most_doubtful(point: OperatingPoint, held: Held) -> _Fork | None:
    found = _forks(point, held)
    return min(found, key=lambda f: (abs(f.doubt.score), f.doubt.element), default=None)


def _forks(point: OperatingPoint, held: Held) -> list[_Fork]:
    close = dict.fromkeys(e for visited in (*point.trail, point) for e in near(visited))
    if not close:
        return []
    fixed = {*held, *point.setup.apart}
    elements = point.circuit.elements
    found = [_fork(point, elements[e], held) for e in close if e not in fixed]
    return [f for f in found if f is not None and abs(f.doubt.score) <= NEAR]


@dataclass(frozen=True, slots=True)
class _Visit:
    """A point on the way. Where nothing moves any more it `rests` long enough for a fuse to open;
    `opened` is the one that did, or ""."""

    point: OperatingPoint
    rests: bool
    opened: str


def _visits(point: OperatingPoint) -> list[_Visit]:
    found: list[_Visit] = []
    for now, after in pairwise((*point.trail, point)):
        opened = after.blown[len(now.blown) :]
        found.append(_Visit(now, bool(opened), "".join(opened)))
    return [*found, _Visit(point, True, "")]


def _tippings(visit: _Visit, element: Element) -> tuple[Tipping, ...]:
    """What may take an element out of its state at a point on the way."""
    circuit, state = visit.point.circuit, visit.point.states[element.id]
    found = element.kind.tips(element.values, state, circuit.context)
    if element.kind.opens is None or not visit.rests or state == element.kind.opened:
        return found
    felt = visit.point.felt(element.id)
    branch = max(felt.flows, key=felt.amps, default="")
    if visit.opened in ("", element.id):
        return (*found, opening(element.kind, element.values, circuit.context, branch))
    rival = circuit.elements[visit.opened]
    return (*found, opening_before(visit.point, element, branch, rival))


def _felt(felt: Felt, tipping: Tipping) -> float:
    return felt.across(tipping.branch) if tipping.unit == "V" else felt.amps(tipping.branch)


def _fork(point: OperatingPoint, element: Element, held: Held) -> _Fork | None:
    """An element between the state it starts from and the one it tips to.

    It ends in the other one if it goes there and does not go back.
    """
    start, now = (*point.trail, point)[0].states[element.id], point.states[element.id]
    out = _furthest(point, element, start, None)
    if out is None or out.score < -NEAR:
        return None
    other = out.tipping.to
    back = _furthest(point, element, other, start)
    sure = now == other and out.score > NEAR and (back is None or back.score < -NEAR)
    if sure or now not in (start, other):
        return None
    wanted = {**held, element.id: start if now == other else other}
    there = operate(point.circuit, point.setup, point.faults, point.clips, held=wanted)
    out = _worse(out, _furthest(there, element, start, other)) or out
    back = _worse(back, _furthest(there, element, other, start))
    stays = 1.0 - below(back.score) if back else 1.0
    chance = min(max(below(out.score) * stays, 1e-12), 1.0 - 1e-12)
    if back is None or abs(out.score) <= abs(back.score):
        return _Fork(replace(out, score=score_of(chance)), now == other, there)
    return _Fork(replace(back, score=score_of(1.0 - chance)), now == start, there)


def _furthest(point: OperatingPoint, element: Element, state: str, to: str | None) -> Doubt | None:
    """The doubt of an element in a state where it came nearest to leaving it, or went furthest beyond."""
    found = [
        _doubt(visit.point, element, tipping)
        for visit in _visits(point)
        if visit.point.states[element.id] == state
        for tipping in _tippings(visit, element)
        if to in (None, tipping.to)
    ]
    return max(found, key=lambda d: d.score, default=None)


def _worse(a: Doubt | None, b: Doubt | None) -> Doubt | None:
    return max((d for d in (a, b) if d), key=lambda d: d.score, default=None)


def _doubt(point: OperatingPoint, element: Element, tipping: Tipping) -> Doubt:
    """The tipping's score with the spread of what the element feels taken into it."""
    quantity = _felt(point.felt(element.id), tipping)
    slot = next(
        (s for s in point.slots if (s.element, s.branch.name) == (element.id, tipping.branch)), None
    )
    ends = [tipping.score(quantity * (1.0 + off)) for off in (-ANYHOW, ANYHOW)]
    if slot is None or min(ends) > NEAR or max(ends) < -NEAR:
        return Doubt(element.id, tipping, tipping.score(quantity), {}, quantity)
    own = (volts_leans if tipping.unit == "V" else amps_leans)(point, slot)
    sigma = sqrt(sum(x * x for x in own.values()))
    score, pull = spread_over(tipping.score, quantity, sigma)
    share = pull if point.across(slot) >= 0.0 else -pull
    leans = {key: share * x / sigma for key, x in own.items()} if sigma > 0.0 else {}
    return Doubt(element.id, tipping, score, leans, quantity)
