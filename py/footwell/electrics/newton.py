"""Working point of laws that bend: Newton's method with a search along each step.

Every law's current rises with its voltage, so the voltages that satisfy Kirchhoff are the lowest
point of a bowl (the co-content of Millar, 1951), and a step that is shortened where it would climb
again cannot fail to get there. Newton's method alone runs in circles between the sides of a knee.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from footwell.electrics.elimination import Factor, carry, eliminate, restore
from footwell.electrics.mesh import Kept, Step
from footwell.parts.laws import Law

ROUNDS = 100
HALVINGS = 60
SETTLED_VOLTS = 1e-9
"""Steps shrink with the square of the one before: after one so short nothing is left to be seen."""
UNSEEN_VOLTS, UNSEEN_WATTS = 1e-3, 1e-15
"""On a stretch that only the leak holds, rounding alone moves more than `SETTLED_VOLTS`; a step so
short, of so little power, would be gone under any meter. One full step more and it is the last."""
ENOUGH = 0.25
"""A step ends where the slope along it has fallen to this share of the slope at its start."""


class Bent(NamedTuple):
    """A law to iterate, from node a to node b, at its edge of the mesh."""

    law: Law
    a: int
    b: int
    edge: int


@dataclass(frozen=True, slots=True)
class Tangents:
    """Voltage (V) at which each law is taken, and its current (A) and slope (S) there."""

    at: list[float]
    lines: list[tuple[float, float]]

    @classmethod
    def touching(cls, bent: Sequence[Bent], at: list[float]) -> Tangents:
        return cls(at, [each.law.at(u) for each, u in zip(bent, at, strict=True)])

    def moved(self, bent: Sequence[Bent], ends: Sequence[float]) -> Tangents:
        """The tangents at other voltages; a law that has come to rest keeps its own."""
        at, lines = self.at[:], self.lines[:]
        for n, (u, end) in enumerate(zip(at, ends, strict=True)):
            if not -SETTLED_VOLTS <= end - u <= SETTLED_VOLTS:
                at[n], lines[n] = end, bent[n].law.at(end)
        return Tangents(at, lines)

    def turned(self, before: Tangents, bent: Sequence[Bent]) -> set[int]:
        """Edges where the slope of some tangent is another than before."""
        rows = zip(bent, self.lines, before.lines, strict=True)
        return {each.edge for each, (_, now), (_, then) in rows if now != then}


@dataclass(frozen=True, slots=True)
class Stride:
    """A way to go from some tangents: the voltage (V) that each law moves on the whole of it."""

    bent: Sequence[Bent]
    start: Tangents
    moves: list[float]

    def fall(self, straight_watts: float) -> float:
        """How steeply the bowl falls at the start (W), given what the straight part adds to it."""
        lines = zip(self.moves, self.start.lines, strict=True)
        return straight_watts + sum([move * move * slope for move, (_, slope) in lines])

    def to(self, share: float) -> Tangents:
        ends = [u + share * move for u, move in zip(self.start.at, self.moves, strict=True)]
        return self.start.moved(self.bent, ends)

    def bend(self, share: float, end: Tangents) -> float:
        """What the laws add to the slope on the way, beyond what their tangents foretold (W)."""
        rows = zip(self.moves, self.start.lines, end.lines, strict=True)
        return sum(
            [move * (now - amps - share * move * slope) for move, (amps, slope), (now, _) in rows]
        )

    def search(self, fall: float, full: Tangents) -> tuple[float, Tangents]:
        """The share of the way after which the bowl hardly falls any more, by halving, and the tangents
        there; `full` are those at its end."""
        low, high, share, end = 0.0, 1.0, 1.0, full
        for _ in range(HALVINGS):
            slope = self.bend(share, end) - (1.0 - share) * fall
            if abs(slope) <= ENOUGH * fall:
                break
            low, high = (low, share) if slope > 0.0 else (share, high)
            share = 0.5 * (low + high)
            end = self.to(share)
        return share, end


def iterate(
    kept: Kept,
    factor: Factor,
    current: Sequence[float],
    bent: Sequence[Bent],
    start: Sequence[float],
) -> tuple[list[float], bool, float]:
    """Voltages (V) by node, found for those kept, whether they came to rest, and the highest resistance
    (Ω) that a current met on the way to earth.

    factor and current come with all nodes but the kept ones removed; factor leaves with those
    removed too, at the working point found. `start` holds voltages (V) of all nodes to begin with:
    any will do, near ones are quicker.
    """
    straight_g = factor.g[:]
    volts = list(start)
    here = Tangents.touching(bent, [volts[a] - volts[b] for _, a, b, _ in bent])
    settled = False
    steps: Sequence[Step] = kept.steps
    for _ in range(ROUNDS):
        before, touched = list(volts), here
        most = _touch(kept, steps, factor, straight_g, current, bent, here, volts)
        moves = [volts[a] - volts[b] - u for (_, a, b, _), u in zip(bent, here.at, strict=True)]
        if settled or max(map(abs, moves)) <= SETTLED_VOLTS:
            return volts, True, most
        here, settled = _follow(kept, straight_g, Stride(bent, here, moves), before, volts)
        # Only slopes are eliminated: where none is another, steps would come out bit for bit alike.
        steps = kept.after(here.turned(touched, bent))
    return volts, False, most


def _touch(
    kept: Kept,
    steps: Sequence[Step],
    factor: Factor,
    straight_g: Sequence[float],
    current: Sequence[float],
    bent: Sequence[Bent],
    here: Tangents,
    volts: list[float],
) -> float:
    """Solve with the tangents in place of the laws, each a conductance beside a current; `steps` are those
    that the factor does not hold yet."""
    laid, flows = list(straight_g), list(current)
    for (_, a, b, edge), u, (amps, slope) in zip(bent, here.at, here.lines, strict=True):
        flow = amps - slope * u
        laid[edge] += slope
        flows[a] -= flow
        flows[b] += flow
    eliminate(steps, laid, factor)
    most = carry(kept.steps, factor, flows, volts)
    restore(kept.terms, factor.share, volts)
    return most


def _follow(
    kept: Kept,
    straight_g: Sequence[float],
    stride: Stride,
    before: Sequence[float],
    volts: list[float],
) -> tuple[Tangents, bool]:
    """The tangents to go on from, and whether one more step is the last.

    `volts` goes back to where the step was cut short.
    """
    longest = max(map(abs, stride.moves))
    full = stride.to(1.0)
    if longest > UNSEEN_VOLTS and stride.bend(1.0, full) <= 0.0:
        return full, False
    fall = stride.fall(_straight_watts(kept, straight_g, before, volts))
    if longest <= UNSEEN_VOLTS and fall <= UNSEEN_WATTS:
        return full, True
    share, end = stride.search(fall, full)
    if share == 1.0:
        return full, False
    volts[:] = [x + share * (y - x) for x, y in zip(before, volts, strict=True)]
    return end, False


def _straight_watts(
    kept: Kept, g: Sequence[float], before: Sequence[float], after: Sequence[float]
) -> float:
    ends = kept.ends
    moves = [(after[a] - before[a]) - (after[b] - before[b]) for _, a, b in ends]
    return sum([g[e] * move * move for (e, _, _), move in zip(ends, moves, strict=True)])
