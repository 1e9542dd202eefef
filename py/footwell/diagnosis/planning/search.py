"""The best order of checks: branch and bound over sets of worlds, ended by a count of states.

A state is a set of worlds and the station of the check done last. The tree of all answers is searched depth
first, options with the least lower bound first, each state from an upper bound by rollout. When the count
is used up, the best way found stands, and is not called exact. After Martelli & Montanari (1978), and/or
graphs with costs, and Pattipati & Alexandridis (1990), who plan tests of faults with Huffman's bound (both
named from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from heapq import nsmallest

from footwell.diagnosis.planning.board import Board
from footwell.diagnosis.planning.bounds import Bounds, Split

State = tuple[int, int]
"""Worlds and station."""

SAME = 1e-9
"""Costs closer than this are equal."""

DIGITS = 9
"""Digits after the point to which scores are rounded before they are compared."""

LOOKS, FIRST_LOOKS = 3, 6
"""Options that a rollout follows at each state, and at the root."""


class Search:
    """Costs of states in minutes, each weighted with the probability of its worlds."""

    def __init__(self, board: Board, states: int) -> None:
        self.bounds = Bounds(board)
        self.weighed = 0
        self._most = states
        self._board = board
        self._splits: dict[int, tuple[Split, ...]] = {}
        self._rollouts: dict[State, float] = {}
        self._greedies: dict[State, float] = {}
        self._proven: dict[State, float] = {}
        self._low: dict[State, float] = {}

    @property
    def spent(self) -> bool:
        """Whether as many states were weighed as may be."""
        return self.weighed >= self._most

    def best(self) -> tuple[int, float, bool] | None:
        """First option, expected minutes, and whether it is proven that nothing costs less; None where
        the repair is known as well as any option can tell it."""
        worlds, station = self._board.all, self._board.start
        if self.bounds.known(worlds):
            return None
        splits = self._divided(worlds)
        self.bounds.look_closer(worlds, splits)
        chosen, cost = self._by_rollout(worlds, station, splits)
        for low, j, parts in self._by_bound(worlds, station, splits):
            if low >= cost - SAME or self.spent:
                break
            found = self._through(j, parts, worlds, station, cost, splits)
            if found < cost - SAME:
                chosen, cost = j, found
        return chosen, cost, not self.spent or cost <= self.bounds.least(worlds) + SAME

    def _by_rollout(self, worlds: int, station: int, splits: Sequence[Split]) -> tuple[int, float]:
        """The best of the most telling options, each followed by the gain a minute alone."""
        share = self.bounds.share(worlds)
        found = []
        for _, j, row in sorted(self._by_gain(station, splits))[:FIRST_LOOKS]:
            parts = splits[row][1]
            after = sum(self._rollout(p, self._board.station[j], splits) for p in parts)
            found.append((round(share * self._minutes(j, station) + after, DIGITS), j))
        cost, option = min(found)
        return option, cost

    def _solved(self, worlds: int, station: int, limit: float, among: Sequence[Split]) -> float:
        """The least cost of a state where it lies below the limit, else a bound from the limit up.
        Once the count is used up: the cost of the best way found."""
        if self.bounds.known(worlds):
            return self._end(worlds, station)
        state = worlds, station
        proven = self._proven.get(state)
        if proven is not None:
            return proven
        low = self._lower(state)
        if low >= limit - SAME:
            return low
        rollout = self._rollout(worlds, station, among)
        if rollout > low + SAME:
            if self.spent:
                return rollout
            splits = self._divided(worlds, among)
            self.bounds.look_closer(worlds, splits)
            least = self._searched(state, min(limit, rollout), splits)
            if self.spent:
                return least
            if least >= limit - SAME and rollout > limit:
                self._low[state] = limit
                return limit
            rollout = least
        self._proven[state] = rollout
        return rollout

    def _searched(self, state: State, best: float, splits: Sequence[Split]) -> float:
        """The least cost through any option, where it lies below the best that is known."""
        worlds, station = state
        if self._lower(state) >= best - SAME:
            return best
        for low, j, parts in self._by_bound(worlds, station, splits):
            if low >= best - SAME or self.spent:
                break
            found = self._through(j, parts, worlds, station, best, splits)
            if found < best - SAME:
                best = found
        return best

    def _through(
        self,
        option: int,
        parts: Sequence[int],
        worlds: int,
        station: int,
        limit: float,
        splits: Sequence[Split],
    ) -> float:
        """Cost of a state through one option, given up once it is sure to reach the limit."""
        there = self._board.station[option]
        lows = [self._lower((p, there)) for p in parts]
        cost = self.bounds.share(worlds) * self._minutes(option, station) + sum(lows)
        for part, low in zip(parts, lows, strict=True):
            if cost >= limit - SAME:
                break
            cost += self._solved(part, there, limit - (cost - low), splits) - low
        return cost

    def _rollout(self, worlds: int, station: int, among: Sequence[Split]) -> float:
        """Cost when at each state the most telling options are weighed by what following the best gain a
        minute would cost after each."""
        if self.bounds.known(worlds):
            return self._end(worlds, station)
        found = self._rollouts.get((worlds, station))
        if found is None:
            greedy = self._greedy(worlds, station, among)
            if self.spent or greedy <= self.bounds.least(worlds) + SAME:
                return greedy
            splits = self._divided(worlds, among)
            share, stations = self.bounds.share(worlds), self._board.station
            rows = []
            for _, j, row in nsmallest(LOOKS, self._by_gain(station, splits)):
                cost = share * self._minutes(j, station)
                after = sum(self._greedy(p, stations[j], splits) for p in splits[row][1])
                rows.append((round(cost + after, DIGITS), j, row))
            _, j, row = min(rows)
            found = share * self._minutes(j, station)
            for part in splits[row][1]:
                found += self._rollout(part, stations[j], splits)
            self._rollouts[worlds, station] = found
        return found

    def _greedy(self, worlds: int, station: int, among: Sequence[Split]) -> float:
        """Cost when always the option with the best gain a minute is taken."""
        if self.bounds.known(worlds):
            return self._end(worlds, station)
        found = self._greedies.get((worlds, station))
        if found is None:
            splits = self._divided(worlds, among)
            _, j, row = min(self._by_gain(station, splits))
            found = self.bounds.share(worlds) * self._minutes(j, station)
            for part in splits[row][1]:
                found += self._greedy(part, self._board.station[j], splits)
            self._greedies[worlds, station] = found
        return found

    def _by_gain(self, station: int, splits: Iterable[Split]) -> list[tuple[float, int, int]]:
        """What options tell of the repair a minute, the sign turned round; option; its row in the splits."""
        self.weighed += 1
        return [
            (-round(told / (self._minutes(j, station) or SAME), DIGITS), j, row)
            for row, (j, _, told) in enumerate(splits)
        ]

    def _by_bound(
        self, worlds: int, station: int, splits: Iterable[Split]
    ) -> list[tuple[float, int, tuple[int, ...]]]:
        """Options with the least that a tree through them can cost, rising."""
        self.weighed += 1
        share, least = self.bounds.share(worlds), self.bounds.least
        return sorted(
            (round(share * self._minutes(j, station) + sum(map(least, parts)), DIGITS), j, parts)
            for j, parts, _ in splits
        )

    def _end(self, worlds: int, station: int) -> float:
        """What follows once the repair is known."""
        ends, weights = self._board.ends, self._board.weights
        if not ends:
            return 0.0
        return sum(w * ends[n][station] for n, w in enumerate(weights) if worlds >> n & 1)

    def _lower(self, state: State) -> float:
        return max(self.bounds.least(state[0]), self._low.get(state, 0.0))

    def _minutes(self, option: int, station: int) -> float:
        return (
            self._board.minutes[option] + self._board.travel[station][self._board.station[option]]
        )

    def _divided(self, worlds: int, among: Sequence[Split] | None = None) -> tuple[Split, ...]:
        """The options that divide a set, without those for which a quicker one at the same station does.

        `among` are those of a larger set: what does not divide it divides no part of it.
        """
        found = self._splits.get(worlds)
        if found is None:
            if among is None:
                wider = list(enumerate(self._board.parts))
            else:
                wider = [(j, parts) for j, parts, _ in among]
            bits = self.bounds.bits
            whole = bits(worlds)
            found = self._splits[worlds] = tuple(
                (j, parts, whole - sum(map(bits, parts)))
                for j, parts in self._quickest(worlds, wider)
            )
        return found

    def _quickest(
        self, worlds: int, wider: Iterable[tuple[int, tuple[int, ...]]]
    ) -> Iterator[tuple[int, tuple[int, ...]]]:
        minutes, station = self._board.minutes, self._board.station
        kept: dict[tuple[int, ...], int] = {}
        for j, among in wider:
            parts = [x for p in among if (x := worlds & p)]
            if len(parts) > 1:
                parts.sort()
                key = (station[j], *parts)
                before = kept.setdefault(key, j)
                if minutes[j] < minutes[before]:
                    kept[key] = j
        return ((j, key[1:]) for key, j in kept.items())
