"""What finding the repair must cost at least, by counting: measures of a set of worlds.

All figures are weighted with the share of the set, so that those of disjoint sets add up.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence

from footwell.diagnosis.planning.board import Board

Split = tuple[int, tuple[int, ...], float]
"""An option, the sets into which its outcomes divide a set of worlds, and what it tells of the repair
(bits, times the probability of the set)."""

STEP = 8
"""Worlds whose sums are tabled together."""


class Bounds:
    """Share, entropy and least cost of sets of worlds, each worked out once."""

    def __init__(self, board: Board) -> None:
        self._alone = sum(repair for repair in board.repairs if repair & (repair - 1) == 0)
        self._shared = [repair for repair in board.repairs if repair & (repair - 1)]
        self._weight = {1 << n: weight for n, weight in enumerate(board.weights)}
        self._tables = [
            _sums(board.weights[first : first + STEP])
            for first in range(0, len(board.weights), STEP)
        ]
        self._ways = max((len(parts) for parts in board.parts), default=2)
        self.floor = [_least(board, j) for j in range(len(board.parts))]
        self._cheapest = min(self.floor, default=0.0)
        self._share: dict[int, float] = {}
        self._bits: dict[int, float] = {}
        self._least: dict[int, float] = {}
        self._closer: set[int] = set()

    def share(self, worlds: int) -> float:
        """Probability of a set."""
        found = self._share.get(worlds)
        if found is None:
            found = 0.0
            rest = worlds
            for table in self._tables:
                found += table[rest & 255]
                rest >>= STEP
            self._share[worlds] = found
        return found

    def by_repair(self, worlds: int) -> list[float]:
        """Probability of each repair that is left in a set."""
        found = [self.share(left) for repair in self._shared if (left := worlds & repair)]
        rest = worlds & self._alone
        while rest:
            lowest = rest & -rest
            found.append(self._weight[lowest])
            rest ^= lowest
        return found

    def known(self, worlds: int) -> bool:
        """Whether one repair alone is left."""
        return self.bits(worlds) == 0.0

    def bits(self, worlds: int) -> float:
        """Entropy of the repair (bits), times the probability of the set."""
        found = self._bits.get(worlds)
        if found is None:
            self._measure(worlds)
            found = self._bits[worlds]
        return found

    def least(self, worlds: int) -> float:
        """Lower bound by Huffman's code: no tree of checks has shorter branches to its repairs."""
        found = self._least.get(worlds)
        if found is None:
            self._measure(worlds)
            found = self._least[worlds]
        return found

    def _measure(self, worlds: int) -> None:
        shares = self.by_repair(worlds)
        self._bits[worlds] = _bits(shares)
        self._least[worlds] = self._cheapest * _huffman(shares, self._ways)

    def look_closer(self, worlds: int, splits: Sequence[Split]) -> None:
        """Raise the lower bound by what these options, all that divide the set, can do."""
        if worlds not in self._closer:
            self._closer.add(worlds)
            found = max(
                self.least(worlds),
                self._by_information(worlds, splits),
                self._by_largest_part(worlds, splits),
            )
            self._least[worlds] = found

    def _by_information(self, worlds: int, splits: Sequence[Split]) -> float:
        """All uses of an option in a tree together tell no more than the option tells at the root, and
        each use at most the logarithm of its outcomes: fill up with the least minutes a bit."""
        whole = self.share(worlds)
        rows = []
        for j, parts, _ in splits:
            told = _bits([self.share(p) for p in parts], whole)
            rows.append((self.floor[j] / math.log2(len(parts)), told))
        need = self.bits(worlds)
        cost = 0.0
        for minutes, told in sorted(rows):
            cost += minutes * min(need, told)
            need -= told
            if need <= 0.0:
                break
        return cost

    def _by_largest_part(self, worlds: int, splits: Sequence[Split]) -> float:
        """Down the branch of the largest parts an option takes away no more than it does at the root,
        and the branch ends with one repair: take away most a minute first."""
        left = self.share(worlds)
        end = max(self.by_repair(worlds))
        rows = []
        for j, parts, _ in splits:
            away = left - max(map(self.share, parts))
            rows.append((-away / max(self.floor[j], 1e-9), away, self.floor[j]))
        alike = len({minutes for _, _, minutes in rows}) == 1
        cost = 0.0
        for _, away, minutes in sorted(rows):
            if left <= end + 1e-12:
                break
            if alike:
                cost += minutes * left
                left -= away
            else:
                taken = min(away, left - end)
                cost += minutes * taken / away * (left - 0.5 * taken)
                left -= taken
        return cost


def _least(board: Board, option: int) -> float:
    """Minutes of an option after any other, or at the start."""
    here = board.station[option]
    before = {s for j, s in enumerate(board.station) if j != option} | {board.start}
    return board.minutes[option] + min(board.travel[b][here] for b in before)


def _sums(weights: Sequence[float]) -> list[float]:
    """Sum of the weights in each of their sets."""
    table = [0.0]
    for weight in weights:
        table += [x + weight for x in table]
    return table


def _bits(shares: Sequence[float], whole: float | None = None) -> float:
    if len(shares) < 2:
        return 0.0
    total = sum(shares) if whole is None else whole
    return total * math.log2(total) - sum(x * math.log2(x) for x in shares)


def _huffman(shares: list[float], ways: int) -> float:
    """Expected length of the best code with so many signs, times the sum of the shares."""
    if len(shares) < 2:
        return 0.0
    if ways > 2:
        shares += [0.0] * ((1 - len(shares)) % (ways - 1))
    heapq.heapify(shares)
    cost = 0.0
    while len(shares) > 1:
        joined = heapq.heappop(shares)
        for _ in range(ways - 2):
            joined += heapq.heappop(shares)
        joined += shares[0]
        cost += joined
        heapq.heapreplace(shares, joined)
    return cost
