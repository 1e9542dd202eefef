"""Horizontal stretches: one track a net and channel, so that no two nets run into each other.

Where a wire comes down in a lane in which another one goes on, its track must lie above the
other's. Two wires that change places would each have to lie above the other: one of them then takes
a side-step between two lanes.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from footwell.drawing.grid import Node, Piece, Tip

Joint = tuple[float, int]
"""A corner: (lane, track of the channel)."""

SIDE_STEPS = (0.5, -0.5, 0.25, -0.25, 0.75, -0.75)
"""Where between the lanes a side-step may run, as it is tried."""


@dataclass
class Net:
    """Wires of one channel that meet at pins. `tips` are (lane, above); tracks count from 0."""

    tips: set[tuple[float, bool]]
    track: int = 0

    @property
    def low(self) -> float:
        return min(lane for lane, _ in self.tips)

    @property
    def high(self) -> float:
        return max(lane for lane, _ in self.tips)


@dataclass
class Channel:
    """The nets of a channel; `of` leads from a tip to its net, `steps` to its side-step."""

    of: dict[tuple[float, bool], Net] = field(default_factory=dict)
    steps: dict[tuple[float, bool], tuple[float, Net]] = field(default_factory=dict)

    def nets(self) -> list[Net]:
        """Nets that need a track, from left to right."""
        every = [*self.of.values(), *(net for _, net in self.steps.values())]
        distinct = {id(net): net for net in every}.values()
        return sorted((n for n in distinct if n.low < n.high), key=lambda n: (n.low, n.high))

    def corners(self, start: tuple[float, bool], end: tuple[float, bool]) -> list[Joint]:
        """Corners of a piece of wire between two of its net's tips; none where it runs straight."""
        if start[0] == end[0]:
            return []
        return [*self._out(start), *self._out(end)[::-1]]

    def _out(self, tip: tuple[float, bool]) -> list[Joint]:
        main = self.of[tip].track
        if tip not in self.steps:
            return [(tip[0], main)]
        lane, beside = self.steps[tip]
        return [(tip[0], beside.track), (lane, beside.track), (lane, main)]

    def dots(self) -> list[Joint]:
        """Corners where three or more stretches of one net meet."""
        return [
            (lane, net.track)
            for net in self.nets()
            for lane in sorted({lane for lane, _ in net.tips})
            if sum(tip in net.tips for tip in ((lane, True), (lane, False)))
            + (lane > net.low)
            + (lane < net.high)
            > 2
        ]

    def count(self) -> int:
        return 1 + max((net.track for net in self.nets()), default=-1)


def channels(count: int, cut: Sequence[Piece], lane: Mapping[Node, int]) -> list[Channel]:
    """Every channel with its nets on their tracks."""
    found = [Channel() for _ in range(count)]
    for piece in cut:
        _join(found[piece.channel], tip_at(piece.start, lane), tip_at(piece.end, lane))
    for channel in found:
        _untangle(channel)
        _assign(channel)
    return found


def tip_at(tip: Tip, lane: Mapping[Node, int]) -> tuple[float, bool]:
    return float(lane[tip.node]), tip.above


def _join(channel: Channel, one: tuple[float, bool], other: tuple[float, bool]) -> None:
    tips = {one, other}
    for tip in (one, other):
        if tip in channel.of:
            tips |= channel.of[tip].tips
    net = Net(tips)
    channel.of.update(dict.fromkeys(tips, net))


def _above(channel: Channel) -> list[tuple[Net, Net, float]]:
    """Pairs of nets of which the first must lie above the second, and the lane that asks for it."""
    owner = _owners(channel.nets())
    steps = {lane for lane, _ in channel.steps.values()}
    return [
        (net, owner[lane, False], lane)
        for (lane, above), net in owner.items()
        if above and lane not in steps and owner.get((lane, False), net) is not net
    ]


def _owners(nets: Iterable[Net]) -> dict[tuple[float, bool], Net]:
    return {tip: net for net in nets for tip in sorted(net.tips)}


def _untangle(channel: Channel) -> None:
    """Give side-steps to wires until no net has to lie above itself."""
    while (knot := _knot(_above(channel))) is not None:
        _, lower, lane = knot
        tip = (lane, False)
        used = {step for step, _ in channel.steps.values()}
        step = next(lane + s for s in SIDE_STEPS if lane + s not in used)
        lower.tips = (lower.tips - {tip}) | {(step, False)}
        channel.steps[tip] = (step, Net({(step, True), tip}))


def _knot(pairs: Sequence[tuple[Net, Net, float]]) -> tuple[Net, Net, float] | None:
    """A pair that closes a circle, if there is one."""
    below: dict[int, list[Net]] = {}
    for upper, lower, _ in pairs:
        below.setdefault(id(upper), []).append(lower)
    for pair in pairs:
        waiting, seen = [pair[1]], {id(pair[1])}
        while waiting:
            for net in below.get(id(waiting.pop()), ()):
                if net is pair[0]:
                    return pair
                if id(net) not in seen:
                    seen.add(id(net))
                    waiting.append(net)
        if pair[0] is pair[1]:
            return pair
    return None


def _assign(channel: Channel) -> None:
    """The highest free track for each net, those first that nothing needs above them."""
    waiting = channel.nets()
    pairs = _above(channel)
    placed: list[Net] = []
    while waiting:
        held = {id(b) for a, b, _ in pairs if any(a is net for net in waiting)}
        net = next(n for n in waiting if id(n) not in held)
        waiting.remove(net)
        net.track = 1 + max((a.track for a, b, _ in pairs if b is net), default=-1)
        while any(n.track == net.track and _touch(n, net) for n in placed):
            net.track += 1
        placed.append(net)


def _touch(one: Net, other: Net) -> bool:
    return one.low <= other.high and other.low <= one.high
