"""The order of repairs when nothing more can be measured: each is done and tried in turn."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from footwell.diagnosis.planning.search import DIGITS

EXACT = 14
"""Repairs up to which every order is weighed (2^14 sets of repairs)."""


def repair_order(
    shares: Sequence[float], mended: Sequence[Collection[int]], minutes: Sequence[float]
) -> tuple[tuple[int, ...], float]:
    """The order with the least minutes expected until the complaint is gone, and these minutes.

    `mended[r]` are the suspects that repair r mends; `shares` add up to one. Each repair is paid for
    before it is seen to help, the last one too. Beyond `EXACT` repairs that share suspects: always the
    best chance a minute, which is the best order as long as no two repairs mend the same suspect.
    """
    cures = [sum(1 << s for s in sorted(set(suspects))) for suspects in mended]
    apart = sum(map(int.bit_count, cures)) == len({s for suspects in mended for s in suspects})
    trials = _Trials(shares, cures, minutes, every_order=not apart and len(cures) <= EXACT)
    left = (1 << len(shares)) - 1
    order: list[int] = []
    cost = trials.cost(left)
    while (repair := trials.first(left)) is not None:
        order.append(repair)
        left &= ~cures[repair]
    return tuple(order), cost


class _Trials:
    """Sets of suspects that are not mended yet, with the best first repair of each."""

    def __init__(
        self,
        shares: Sequence[float],
        cures: Sequence[int],
        minutes: Sequence[float],
        every_order: bool,
    ) -> None:
        self._shares = shares
        self._cures = cures
        self._minutes = minutes
        self._every_order = every_order
        self._best: dict[int, tuple[float, int | None]] = {}

    def cost(self, left: int) -> float:
        return self._of(left)[0]

    def first(self, left: int) -> int | None:
        return self._of(left)[1]

    def _of(self, left: int) -> tuple[float, int | None]:
        found = self._best.get(left)
        if found is None:
            helping = [r for r, cure in enumerate(self._cures) if self._share(left & cure) > 0.0]
            if not self._every_order:
                helping = sorted(helping, key=lambda r: (-self._worth(left, r), r))[:1]
            share = self._share(left)
            rows = [
                (share * self._minutes[r] + self.cost(left & ~self._cures[r]), r) for r in helping
            ]
            best = min(rows, key=lambda row: (round(row[0], DIGITS), row[1]), default=(0.0, None))
            found = self._best[left] = best
        return found

    def _worth(self, left: int, repair: int) -> float:
        helped = self._share(left & self._cures[repair])
        return round(helped / max(self._minutes[repair], 1e-9), DIGITS)

    def _share(self, suspects: int) -> float:
        return sum(share for s, share in enumerate(self._shares) if suspects >> s & 1)
