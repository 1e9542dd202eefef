"""Two wires in one way, one colour more than once in a plug: told and not refused, for it may be so."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TypeVar

from footwell.sheet.models import Sheet
from footwell.sheet.points import HALVES, seen_point

Key = TypeVar("Key")


@dataclass(frozen=True, slots=True)
class WireEnd:
    """A wire where it ends: the point, what the wire is called in a sentence, and its colour. Only what
    some wire has that is `asked` about is told."""

    point: str
    called: str
    colour: str | None
    asked: bool = True


def ends_of(sheet: Sheet) -> list[WireEnd]:
    """Both ends of every wire of a sheet."""
    return [
        WireEnd(point, wire.id, wire.colour)
        for wire in sheet.wires
        for point in (wire.start, wire.end)
    ]


def in_one_way(sheet: Sheet, ends: Iterable[WireEnd]) -> Iterator[str]:
    """A sentence for each way of a connector's half that holds more than one wire."""
    connectors = {each.id: each for each in sheet.connectors}
    for point, wires in _groups((each.point, each) for each in _in_plugs(sheet, ends)):
        way = seen_point(connectors, point).rpartition(".")[0]
        yield (
            f"Way {way} has {len(wires)} wires ({_and(wires)}): right if they are crimped together, else "
            "correct one."
        )


def of_one_colour(sheet: Sheet, ends: Iterable[WireEnd]) -> Iterator[str]:
    """One sentence for all colours that are in more than one way of a half of a connector."""
    coloured = [each for each in _in_plugs(sheet, ends) if each.colour]
    seats: dict[tuple[str, str | None], set[str]] = {}
    for each in coloured:
        seats.setdefault((_half_of(each.point), each.colour), set()).add(each.point)
    found = _groups(
        (key, each)
        for each in coloured
        # Those crimped into one way need not be told apart.
        if len(seats[key := (_half_of(each.point), each.colour)]) > 1
    )
    told = [f"{half[:-2]} {colour} ({_and(wires)})" for (half, colour), wires in found]
    if told:
        yield (
            f"One colour more than once in a plug: {'; '.join(told)}. Tell these wires apart by their ways, "
            "not by colour."
        )


def _groups(rows: Iterable[tuple[Key, WireEnd]]) -> Iterator[tuple[Key, list[str]]]:
    """What is called by its own name in each group, where that is more than one."""
    groups: dict[Key, dict[str, bool]] = {}
    for key, end in rows:
        groups.setdefault(key, {})[end.called] = end.asked
    return (
        (key, [*called])
        for key, called in groups.items()
        if len(called) > 1 and any(called.values())
    )


def _in_plugs(sheet: Sheet, ends: Iterable[WireEnd]) -> list[WireEnd]:
    halves = {f"{each.id}.{half}" for each in sheet.connectors for half in HALVES}
    return [each for each in ends if _half_of(each.point) in halves]


def _half_of(point: str) -> str:
    pieces = point.split(".")
    return f"{pieces[0]}.{pieces[2]}" if len(pieces) == 3 else ""


def _and(wires: list[str]) -> str:
    return f"{', '.join(wires[:-1])} and {wires[-1]}"
