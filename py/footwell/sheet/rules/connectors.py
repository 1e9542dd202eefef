"""Ways of connectors: named once, joined once."""

from __future__ import annotations

from collections.abc import Iterator

from footwell.sheet.draft import Draft
from footwell.sheet.models import SheetConnector
from footwell.sheet.places import Flaw, Path
from footwell.sheet.points import joined, number, told_way, way_point, ways


def ways_named_once(draft: Draft) -> Iterator[Flaw]:
    """A connector has ways, each named once; spare ways are among them."""
    for path, connector in draft.connectors:
        named = ways(connector)
        if not named:
            yield Flaw(
                (*path, "rows"), "The connector has no ways.", 'Name them by rows, as [["1", "2"]].'
            )
        for way in dict.fromkeys(named):
            if named.count(way) > 1:
                yield Flaw(
                    (*path, "rows"),
                    f"Way {told_way(connector, way)} is named {named.count(way)} times in {connector.id}.",
                    "Give each way its own number, as moulded on the connector.",
                )
        for way in connector.spare:
            if way not in named:
                yield _no_way((*path, "spare"), connector, way)
        yield from _numbers_fit((*path, "numbers"), connector, named)
        yield from _spots_fit((*path, "spots"), connector, named)


def _numbers_fit(path: Path, connector: SheetConnector, named: list[str]) -> Iterator[Flaw]:
    """Every way has a number that no other way is known by."""
    for way in connector.numbers:
        if way not in named:
            yield _no_way((*path, way), connector, way)
    seen = [number(connector, way) for way in dict.fromkeys(named)]
    for each in dict.fromkeys(seen):
        if seen.count(each) > 1:
            yield Flaw(
                path,
                f"{seen.count(each)} ways of {connector.id} have the number {each}.",
                "Give each way its own number, as moulded on the connector.",
            )


def _spots_fit(path: Path, connector: SheetConnector, named: list[str]) -> Iterator[Flaw]:
    """A free layout places every way, each on a spot of its own."""
    for way in connector.spots:
        if way not in named:
            yield _no_way((*path, way), connector, way)
    missing = [way for way in named if way not in connector.spots]
    if connector.spots and missing:
        yield Flaw(
            path,
            f"Way {told_way(connector, missing[0])} of {connector.id} has no spot, but others have.",
            "Give column and row of every way, or of none.",
        )
    taken: dict[tuple[int, int], str] = {}
    for way, (column, row) in connector.spots.items():
        spot = (column, row)
        if spot in taken:
            yield Flaw(
                (*path, way),
                f"Ways {told_way(connector, taken[spot])} and {told_way(connector, way)} of {connector.id} "
                "lie on one spot.",
                "Give each way a column and row of its own.",
            )
        taken.setdefault(spot, way)


def part_ways_fit(draft: Draft) -> Iterator[Flaw]:
    """Half b of a way sits on one terminal that exists, and no wire ends there as well."""
    taken: dict[str, str] = {}
    for path, connector in draft.connectors:
        for way, terminal in connector.part_ways.items():
            at = (*path, "part_ways", way)
            if way not in ways(connector):
                yield _no_way(at, connector, way)
            yield from _terminal_flaws(draft, at, terminal)
            here = way_point(connector.id, way, "b")
            if terminal in taken:
                yield Flaw(
                    at,
                    f"Terminal {terminal} is joined twice: to {taken[terminal]} and to "
                    f"{draft.points.told(here)}.",
                    "Join each terminal to one way; check the numbers on the connector.",
                )
            taken.setdefault(terminal, draft.points.told(here))
    yield from _wired_twice(draft)


def _terminal_flaws(draft: Draft, path: Path, terminal: str) -> Iterator[Flaw]:
    fault = draft.points.fault(terminal)
    if fault is None and terminal.count(".") != 1:
        fault = (f"{terminal} is no terminal of a part.", 'Write a terminal such as "S1.B".')
    if fault is not None:
        yield Flaw(path, *fault)


def _wired_twice(draft: Draft) -> Iterator[Flaw]:
    on_parts = joined(connector for _, connector in draft.connectors)
    for path, wire in draft.wires:
        for field, point in (("start", wire.start), ("end", wire.end)):
            if point in on_parts:
                yield Flaw(
                    (*path, field),
                    f"Half b of this way sits on {on_parts[point]}, so {wire.id} cannot end there.",
                    f"Let {wire.id} end at {draft.points.told(f'{point[:-1]}a')}, or take the way out of "
                    "part_ways.",
                )


def _no_way(path: Path, connector: SheetConnector, way: str) -> Flaw:
    listed = ", ".join(told_way(connector, each) for each in ways(connector))
    return Flaw(path, f"{connector.id} has no way {way}.", f"Its ways are {listed}.")
