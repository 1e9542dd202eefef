"""What the elements make together: no loose ends, and a way from the supply to earth.

Only a sheet that could be read whole is looked at: where an element is missing, its neighbours
would seem loose.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from footwell.parts.base import EARTH
from footwell.sheet.draft import Draft
from footwell.sheet.json_text import Path
from footwell.sheet.models import SheetConnector
from footwell.sheet.places import Flaw
from footwell.sheet.points import HALVES, joined, terminal_point, way_point, ways

_SPARE = 'or list it under "spare" if it leads nowhere on purpose.'


def no_loose_ends(draft: Draft) -> Iterator[Flaw]:
    """No point at which one element ends alone, but for empty ways and what is so on purpose."""
    if not draft.whole:
        return
    same = joined(connector for _, connector in draft.connectors)
    ends = Counter(same.get(point, point) for point in _ends(draft))
    for path, connector in draft.connectors:
        yield from _loose_ways(path, connector, ends, same)
    for path, part in draft.parts:
        for terminal in draft.points.terminals[part.id]:
            on_purpose = terminal in part.probe or terminal in part.spare
            if ends[terminal_point(part.id, terminal)] == 1 and not on_purpose:
                yield Flaw(
                    path,
                    f"Nothing is joined to terminal {terminal} of {part.id}.",
                    f"Join a wire or a connector's way to {part.id}.{terminal}, {_SPARE}",
                )


def supply_reaches_earth(draft: Draft) -> Iterator[Flaw]:
    """The battery's negative post leads to earth, and every load to the battery."""
    if not draft.whole:
        return
    nets = _Nets(draft)
    for path, part in draft.parts:
        if part.kind == "battery" and not nets.are_joined(terminal_point(part.id, "-"), EARTH):
            yield _no_earth(nets, path, part.id)
        if part.id in draft.loads and not nets.are_joined(nets.battery, _any_point(draft, part.id)):
            yield Flaw(
                path,
                f"No wires lead from the battery to {part.id}.",
                "Add the wires or connectors between them.",
            )


def _no_earth(nets: _Nets, path: Path, battery: str) -> Flaw:
    remedy = (
        f'Add an earth point and join {battery}.- to it, or end a wire of {battery}.- at "earth".'
    )
    if nets.has_earth:
        return Flaw(path, f"The negative post {battery}.- does not lead to earth.", remedy)
    return Flaw(path, "Nothing leads to earth.", remedy)


def _ends(draft: Draft) -> Iterator[str]:
    """Every end of every element: wires, the contact in each way, parts."""
    for _, wire in draft.wires:
        yield from (wire.start, wire.end)
    for _, connector in draft.connectors:
        for way in ways(connector):
            yield from (way_point(connector.id, way, half) for half in HALVES)
    for part, terminals in draft.points.terminals.items():
        yield from (terminal_point(part, terminal) for terminal in terminals)


def _loose_ways(
    path: Path, connector: SheetConnector, ends: Counter[str], same: dict[str, str]
) -> Iterator[Flaw]:
    for way in ways(connector):
        points = [way_point(connector.id, way, half) for half in HALVES]
        loose = [point for point in points if ends[same.get(point, point)] == 1]
        if len(loose) == 1 and way not in connector.spare:
            yield Flaw(
                path,
                f"Way {way} of {connector.id} leads nowhere: nothing is joined to {loose[0]}.",
                f"Add the wire that ends at {loose[0]}, {_SPARE}",
            )


def _any_point(draft: Draft, part: str) -> str:
    return terminal_point(part, draft.points.terminals[part][0])


class _Nets:
    """Which points elements join, in any state; a group is named by one of its points."""

    def __init__(self, draft: Draft) -> None:
        self._above: dict[str, str] = {}
        self.battery = ""
        for pair in joined(connector for _, connector in draft.connectors).items():
            self._join(*pair)
        for _, wire in draft.wires:
            self._join(wire.start, wire.end)
        for _, connector in draft.connectors:
            for way in ways(connector):
                self._join(*(way_point(connector.id, way, half) for half in HALVES))
        self._join_parts(draft)

    @property
    def has_earth(self) -> bool:
        return EARTH in self._above or EARTH in self._above.values()

    def are_joined(self, one: str, other: str) -> bool:
        return self._top(one) == self._top(other)

    def _join_parts(self, draft: Draft) -> None:
        for _, part in draft.parts:
            if part.kind == "battery":
                self.battery = _any_point(draft, part.id)
            for branch in draft.branches(part):
                ends = (branch.a, branch.b)
                self._join(*(end if end == EARTH else terminal_point(part.id, end) for end in ends))

    def _join(self, one: str, other: str) -> None:
        self._above[self._top(one)] = self._top(other)

    def _top(self, point: str) -> str:
        while self._above.get(point, point) != point:
            point = self._above[point]
        return point
