"""Points of a sheet: where wires end and probes go.

A point is a part's terminal ("F1.2"), one half of a connector's way ("X2.3.a") or "earth".
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from footwell.parts.base import EARTH
from footwell.sheet.models import Sheet, SheetConnector

HALVES = ("a", "b")

HalfId = tuple[str, str]
"""(connector, "a" or "b")."""


def ways(connector: SheetConnector) -> list[str]:
    """The connector's ways in the order of its rows."""
    return [way for row in connector.rows for way in row]


def number(connector: SheetConnector, way: str) -> str:
    """The number of a way as people see it."""
    return connector.numbers.get(way, way)


def seen_point(connectors: Mapping[str, SheetConnector], point: str) -> str:
    """A point, or a contact ("X2.3"), with the number of its way as people see it."""
    owner, *rest = point.split(".")
    if owner not in connectors or not rest:
        return point
    return ".".join([owner, number(connectors[owner], rest[0]), *rest[1:]])


def told_way(connector: SheetConnector, way: str) -> str:
    """A way by its number, with its own name where a sheet's file has that: "B (2 in the file)"."""
    seen = number(connector, way)
    return seen if seen == way else f"{seen} ({way} in the file)"


def way_point(connector: str, way: str, half: str) -> str:
    """
    >>> way_point("X2", "3", "a")
    'X2.3.a'
    """
    return f"{connector}.{way}.{half}"


def terminal_point(part: str, terminal: str) -> str:
    """
    >>> terminal_point("F1", "2")
    'F1.2'
    """
    return f"{part}.{terminal}"


def pieces(wires: str | None) -> list[str]:
    """The wires of a way one by one; none of an empty way.

    >>> pieces("W3+W4"), pieces(None)
    (['W3', 'W4'], [])
    """
    return wires.split("+") if wires else []


def bundles(sheet: Sheet, half: HalfId) -> dict[str, str]:
    """Way to the wires that the sheet puts into it, joined by "+", for one half of a connector."""
    prefix, suffix = half[0] + ".", "." + half[1]
    found: dict[str, list[str]] = {}
    for wire in sheet.wires:
        for end in (wire.start, wire.end):
            if end.startswith(prefix) and end.endswith(suffix):
                found.setdefault(end[len(prefix) : -len(suffix)], []).append(wire.id)
    return {way: "+".join(ids) for way, ids in found.items()}


def joined(connectors: Iterable[SheetConnector]) -> dict[str, str]:
    """Half b of each way that sits on a part, and the part's terminal that is the same point."""
    return {
        way_point(connector.id, way, "b"): terminal
        for connector in connectors
        for way, terminal in connector.part_ways.items()
    }


@dataclass(frozen=True)
class Points:
    """The points of a sheet by their owners.

    `unread` are owners whose points could not be read; `certain` is false where there may be owners
    whose very names could not. `connectors` are those of `ways`, for the numbers that people see.
    """

    terminals: Mapping[str, tuple[str, ...]]
    ways: Mapping[str, tuple[str, ...]]
    wires: Collection[str]
    unread: Collection[str]
    certain: bool
    connectors: Mapping[str, SheetConnector]

    def seen(self, point: str) -> str:
        """A point with the number of its way as people see it."""
        return seen_point(self.connectors, point)

    def told(self, point: str) -> str:
        """The same, with the point as a sheet's file has it where that is another."""
        seen = self.seen(point)
        return seen if seen == point else f"{seen} ({point} in the file)"

    def fault(self, point: str) -> tuple[str, str] | None:
        """What is wrong with a point's name and what to do, or None where the point exists."""
        owner, *rest = point.split(".")
        if point == EARTH or owner in self.unread:
            return None
        if owner in self.terminals:
            return self._of_part(owner, rest)
        if owner in self.ways:
            return self._of_connector(owner, rest)
        if owner in self.wires:
            return (
                f"{owner} is a wire, and a wire's end has no name.",
                "Join wires at a splice part.",
            )
        if not self.certain:
            return None
        return (
            f'There is no part or connector "{owner}" on this sheet.',
            f"Add {owner}, or correct the name.",
        )

    def _of_part(self, part: str, rest: list[str]) -> tuple[str, str] | None:
        terminals = self.terminals[part]
        if len(rest) == 1 and rest[0] in terminals:
            return None
        listed = ", ".join(terminal_point(part, terminal) for terminal in terminals)
        named = ".".join(rest)
        said = (
            f"{part} has no terminal {named}."
            if named
            else f"{part} is a part, not a terminal of it."
        )
        return said, f"Its terminals are {listed}."

    def _of_connector(self, connector: str, rest: list[str]) -> tuple[str, str] | None:
        known = self.ways[connector]
        listed = ", ".join(told_way(self.connectors[connector], way) for way in known)
        if not rest or rest[0] not in known:
            said = (
                f"{connector} has no way {rest[0]}."
                if rest
                else f"{connector} is a whole connector."
            )
            return (
                said,
                f"Its ways are {listed}; write a point as {connector}.WAY.a or .b.",
            )
        if len(rest) == 2 and rest[1] in HALVES:
            return None
        way = number(self.connectors[connector], rest[0])
        a, b = (self.told(way_point(connector, rest[0], half)) for half in HALVES)
        return (
            f"{self.seen('.'.join([connector, *rest]))} does not name a half of way {way}.",
            f"Write {a} or {b}: half a is the harness, half b the part or other harness.",
        )
