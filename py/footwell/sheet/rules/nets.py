"""What the elements make together: no loose ends, and a way from the supply to earth.

Only a sheet that could be read whole is looked at: where an element is missing, its neighbours
would seem loose.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import chain

from footwell.parts.base import EARTH
from footwell.sheet.draft import Draft
from footwell.sheet.models import SheetConnector, SheetPart
from footwell.sheet.places import Flaw, Path
from footwell.sheet.points import HALVES, joined, number, terminal_point, way_point, ways


def _spare(owner: str, end: str) -> str:
    return f'or put "{end}" under "spare" of {owner} if it leads nowhere on purpose.'


def no_loose_ends(draft: Draft) -> Iterator[Flaw]:
    """No point at which one element ends alone, but for empty ways and what is so on purpose."""
    if not draft.whole:
        return
    same = joined(connector for _, connector in draft.connectors)
    ends = Counter(same.get(point, point) for point in _ends(draft))
    misnamed = _misnamed(draft)
    for path, connector in draft.connectors:
        if connector.id not in misnamed:
            yield from _loose_ways(draft, path, connector, ends, same)
    for path, part in draft.parts:
        for terminal in () if part.id in misnamed else draft.points.terminals[part.id]:
            alone = ends[terminal_point(part.id, terminal)] == 1
            if alone and not _on_purpose(draft, part, terminal):
                yield Flaw(
                    path,
                    f"Nothing is joined to terminal {terminal} of {part.id}.",
                    f"Join a wire or a connector's way to {part.id}.{terminal}, "
                    + _spare(part.id, terminal),
                    terminal_point(part.id, terminal),
                )


def supply_reaches_earth(draft: Draft) -> Iterator[Flaw]:
    """The battery's negative post leads to earth, and its positive post to every load."""
    battery = next((each for each in draft.parts if each[1].kind == "battery"), None)
    if not draft.whole or battery is None or _misnamed(draft):
        return
    yield from _earth_flaws(draft, *battery)
    feed = _Nets(pair for pair in _links(draft) if EARTH not in pair)
    plus = terminal_point(battery[1].id, "+")
    for path, part in draft.parts:
        first = draft.points.terminals[part.id][0]
        if part.id in draft.loads and not feed.are_joined(plus, terminal_point(part.id, first)):
            yield Flaw(
                path,
                f"Nothing leads from {plus} to {part.id}.",
                "Add the wires, parts or connectors between them.",
            )


def _earth_flaws(draft: Draft, path: Path, battery: SheetPart) -> Iterator[Flaw]:
    minus = terminal_point(battery.id, "-")
    remedy = f'Add an earth point and join {minus} to it, or let a wire of {minus} end at "earth".'
    if not any(EARTH in pair for pair in _links(draft)):
        yield Flaw(path, "Nothing leads to earth.", remedy)
    elif not _Nets(_links(draft)).are_joined(minus, EARTH):
        yield Flaw(path, f"The negative post {minus} does not lead to earth.", remedy)


def _misnamed(draft: Draft) -> set[str]:
    """Owners of points that are named wrongly: what should end at another of their points is not
    missing."""
    return {end.split(".")[0] for end in _named_ends(draft) if draft.points.fault(end)}


def _named_ends(draft: Draft) -> Iterator[str]:
    for _, wire in draft.wires:
        yield from (wire.start, wire.end)
    for _, connector in draft.connectors:
        yield from connector.part_ways.values()


def _on_purpose(draft: Draft, part: SheetPart, terminal: str) -> bool:
    """Spare, or bare metal at which two elements inside the part meet."""
    inside = [end for branch in draft.branches(part) for end in (branch.a, branch.b)]
    return terminal in part.spare or (terminal in part.probe and inside.count(terminal) > 1)


def _ends(draft: Draft) -> Iterator[str]:
    """Every end of every element: wires, the contact in each way, parts."""
    yield from chain.from_iterable(_wires_and_contacts(draft))
    for part, terminals in draft.points.terminals.items():
        yield from (terminal_point(part, terminal) for terminal in terminals)


def _wires_and_contacts(draft: Draft) -> Iterator[tuple[str, str]]:
    for _, wire in draft.wires:
        yield wire.start, wire.end
    for _, connector in draft.connectors:
        for way in ways(connector):
            yield way_point(connector.id, way, "a"), way_point(connector.id, way, "b")


def _links(draft: Draft) -> Iterator[tuple[str, str]]:
    """Pairs of points that something other than the battery joins, in whatever state."""
    yield from _wires_and_contacts(draft)
    yield from joined(connector for _, connector in draft.connectors).items()
    for _, part in draft.parts:
        if part.kind != "battery":
            for branch in draft.branches(part):
                a, b = (_branch_end(part, end) for end in (branch.a, branch.b))
                yield a, b


def _branch_end(part: SheetPart, end: str) -> str:
    return end if end == EARTH else terminal_point(part.id, end)


def _loose_ways(
    draft: Draft, path: Path, connector: SheetConnector, ends: Counter[str], same: dict[str, str]
) -> Iterator[Flaw]:
    for way in ways(connector):
        points = [way_point(connector.id, way, half) for half in HALVES]
        loose = [point for point in points if ends[same.get(point, point)] == 1]
        if len(loose) == 1 and way not in connector.spare:
            yield Flaw(
                path,
                f"Way {number(connector, way)} of {connector.id} leads nowhere: nothing is joined to "
                f"{draft.points.seen(loose[0])}.",
                f"Add the wire that ends at {draft.points.told(loose[0])}, "
                + _spare(connector.id, way),
                loose[0],
            )


class _Nets:
    """Points in groups that pairs join; a group is named by one of its points."""

    def __init__(self, pairs: Iterable[tuple[str, str]]) -> None:
        self._above: dict[str, str] = {}
        for one, other in pairs:
            self._above[self._top(one)] = self._top(other)

    def are_joined(self, one: str, other: str) -> bool:
        return self._top(one) == self._top(other)

    def _top(self, point: str) -> str:
        while self._above.get(point, point) != point:
            point = self._above[point]
        return point
