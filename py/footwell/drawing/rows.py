"""In which row each item stands: supply first, earth last, every item below what feeds it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from footwell.drawing.frames import EARTHS
from footwell.drawing.items import WAY, Item, Parts, seats
from footwell.drawing.walks import all_below, downwards

Link = tuple[str, str, int]
"""Upper item, lower item, rows between them at least."""


def links(parts: Parts) -> list[Link]:
    """What hangs below what, one link a wire, in the order of the wires."""
    found: list[Link] = []
    at = seats(parts.items)
    for one, other in parts.ends.values():
        upper, lower = sorted((one, other), key=lambda p: -parts.level[p])
        a, b = at[upper], at[lower]
        if a.item != b.item and b.top:
            found.append((a.item, b.item, 0 if a.top else 1))
    return found


def below_of(found: Sequence[Link], bank: Mapping[str, str] | None = None) -> dict[str, list[str]]:
    """Items directly below each item; those of one bank count as its leader."""
    below: dict[str, list[str]] = {}
    for a, b, _ in found:
        upper, lower = (a, b) if bank is None else (bank[a], bank[b])
        below.setdefault(upper, []).append(lower)
    return below


def rows(items: Sequence[Item], found: Sequence[Link]) -> dict[str, int]:
    """Row by item, from 0. Ways of one connector share a row where the current allows it."""
    bank = _banks(items, found)
    merged = [(bank[a], bank[b], n) for a, b, n in found if bank[a] != bank[b]]
    order = downwards(dict.fromkeys(bank.values()), below_of(merged))
    place = {item: n for n, item in enumerate(order)}
    row = dict.fromkeys(order, 0)
    for a, b, least in sorted(merged, key=lambda link: place[link[0]]):
        if place[a] < place[b]:
            row[b] = max(row[b], row[a] + least)
    return _with_earths_last(items, {item.id: row[bank[item.id]] for item in items})


def _with_earths_last(items: Sequence[Item], row: Mapping[str, int]) -> dict[str, int]:
    earths = {item.id for item in items if item.kind in EARTHS}
    last = max(r if item in earths else r + 1 for item, r in row.items())
    return {item: last if item in earths else r for item, r in row.items()}


def _banks(items: Sequence[Item], found: Sequence[Link]) -> dict[str, str]:
    """Item to the one that leads its row: itself, or an earlier way of its connector.

    Two ways that lie one behind the other in the current's path cannot share a row.
    """
    bank = {item.id: item.id for item in items}
    leaders: dict[str, list[str]] = {}
    for item in items:
        if item.kind == WAY:
            there = leaders.setdefault(item.connector, [])
            below = below_of(found, bank)
            free = (one for one in there if not _joined(below, item.id, one))
            bank[item.id] = next(free, item.id)
            if bank[item.id] == item.id:
                there.append(item.id)
    return bank


def _joined(below: Mapping[str, Sequence[str]], one: str, other: str) -> bool:
    return other in all_below(below, one) or one in all_below(below, other)


def with_strays(row: Mapping[str, int], strays: Sequence[Item]) -> dict[str, int]:
    """Rows of the drawing, and of what was found, beside the item that lost its wire."""
    return dict(row) | {item.id: row[item.beside] for item in strays}
