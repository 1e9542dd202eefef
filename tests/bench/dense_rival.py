"""The rival: a dense inverse of the sound network, and each suspect an update of low rank.

Woodbury's formula for the changed edges, then one step of refinement on what is left over. For circuits
without laws that bend; in the benchmark alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from operator import mul

from footwell.electrics.mesh import LEAK_SIEMENS
from footwell.electrics.network import Slot

Edge = tuple[int, int]


def _sums(n: int, slots: Iterable[Slot]) -> tuple[dict[Edge, float], list[float]]:
    """Conductance (S) of each pair of nodes, earth being n, and the current (A) into each node."""
    g: dict[Edge, float] = {(node, n): LEAK_SIEMENS for node in range(n)}
    amps = [0.0] * (n + 1)
    for slot in slots:
        law = slot.branch.law
        key = (min(slot.a, slot.b), max(slot.a, slot.b))
        g[key] = g.get(key, 0.0) + law.siemens  # type: ignore[attr-defined]
        amps[slot.a] -= law.amps_at_zero  # type: ignore[attr-defined]
        amps[slot.b] += law.amps_at_zero  # type: ignore[attr-defined]
    return g, amps


def _inverse(n: int, g: dict[Edge, float]) -> list[list[float]]:
    rows = [[0.0] * n + [float(i == j) for j in range(n)] for i in range(n)]
    for (a, b), value in g.items():
        for one, other in ((a, b), (b, a)):
            if one < n:
                rows[one][one] += value
                if other < n:
                    rows[one][other] -= value
    for k in range(n):
        pivot = 1.0 / rows[k][k]
        rows[k] = [x * pivot for x in rows[k]]
        for i in range(n):
            factor = rows[i][k]
            if i != k and factor:
                rows[i] = [x - factor * y for x, y in zip(rows[i], rows[k], strict=True)]
    return [row[n:] for row in rows]


class Dense:
    """The sound network, inverted once."""

    def __init__(self, n: int, slots: Sequence[Slot]) -> None:
        self.n = n
        self.g, self.amps = _sums(n, slots)
        self.inverse = _inverse(n, self.g)
        self.volts = self._times(self.amps)

    def _times(self, amps: Sequence[float]) -> list[float]:
        return [sum(map(mul, row, amps)) for row in self.inverse]

    def suspect(self, old: Iterable[Slot], new: Iterable[Slot]) -> list[float]:
        """Voltages (V) with some slots in place of others."""
        gone, gone_amps = _sums(self.n, old)
        come, come_amps = _sums(self.n, new)
        change = {key: come.get(key, 0.0) - gone.get(key, 0.0) for key in {**gone, **come}}
        changed = [(key, value) for key, value in change.items() if value != 0.0]
        amps = [x - y + z for x, y, z in zip(self.amps, gone_amps, come_amps, strict=True)]
        lifts = [self._lift(a, b) for (a, b), _ in changed]
        base = self.volts if amps == self.amps else self._times(amps)
        volts = self._updated(base, changed, lifts)
        left = self._left_over(volts, amps, changed)
        more = self._updated(self._times(left), changed, lifts)
        return [v + move for v, move in zip(volts, more, strict=True)]

    def _lift(self, a: int, b: int) -> list[float]:
        if b == self.n:
            return self.inverse[a]
        return [x - y for x, y in zip(self.inverse[a], self.inverse[b], strict=True)]

    def _updated(
        self,
        base: list[float],
        changed: list[tuple[Edge, float]],
        lifts: list[list[float]],
    ) -> list[float]:
        rows = [
            [_across(lift, key) + (1.0 / value if i == j else 0.0) for j, lift in enumerate(lifts)]
            + [_across(base, key)]
            for i, (key, value) in enumerate(changed)
        ]
        volts = base
        for factor, lift in zip(_solved(rows), lifts, strict=True):
            volts = [v - factor * x for v, x in zip(volts, lift, strict=True)]
        return volts

    def _left_over(
        self, volts: list[float], amps: list[float], changed: list[tuple[Edge, float]]
    ) -> list[float]:
        left = list(amps)
        at = [*volts, 0.0]
        for (a, b), value in [*self.g.items(), *changed]:
            flow = value * (at[a] - at[b])
            left[a] -= flow
            left[b] += flow
        return left


def _across(volts: Sequence[float], key: Edge) -> float:
    a, b = key
    return volts[a] - (volts[b] if b < len(volts) else 0.0)


def _solved(rows: list[list[float]]) -> list[float]:
    n = len(rows)
    for k in range(n):
        for i in range(n):
            if i != k:
                factor = rows[i][k] / (rows[k][k] or 1e-300)
                rows[i] = [x - factor * y for x, y in zip(rows[i], rows[k], strict=True)]
    return [rows[k][n] / (rows[k][k] or 1e-300) for k in range(n)]
