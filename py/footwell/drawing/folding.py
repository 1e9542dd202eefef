"""What of a large circuit is folded away: groups of branches that hold nothing anybody asked about.

What is asked about stays open with its way up to the supply and down to earth. What is then left hangs
on it in pieces; pieces on the same pins are one group, drawn as one symbol.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest

from footwell.circuit.circuit import Circuit
from footwell.drawing.frames import EARTHS
from footwell.drawing.items import FOLD, Column, Item, Parts, Pin, Seat, seats
from footwell.drawing.rows import links
from footwell.drawing.words import fold_lines, fold_name

LARGE = 24
"""Parts from which a circuit is folded; smaller ones can be looked over as they are."""

LEAST = 3
"""Items worth a fold."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Elements that stay open, and the loads that were seen to work."""

    elements: frozenset[str] = frozenset()
    working: frozenset[str] = frozenset()


def folded(circuit: Circuit, parts: Parts, asked: Asked | None) -> Parts:
    """The parts with what is not asked about in folds; all of them where nothing is to be folded."""
    if asked is None or len(circuit.sheet.parts) < LARGE:
        return parts
    kept = _kept(circuit, parts, asked.elements)
    for pins, group in _groups(parts, kept).items():
        if len(group) >= LEAST:
            parts = _replaced(circuit, parts, group, pins, asked.working)
    return parts


def _kept(circuit: Circuit, parts: Parts, elements: Collection[str]) -> set[str]:
    """Items of the elements, joined upwards to the battery and downwards to earth."""
    owner = _items_of(parts)
    found = links(parts)
    up, down = _next([(b, a) for a, b, _ in found]), _next([(a, b) for a, b, _ in found])
    named = [item for e in circuit.elements if e in elements for item in owner.get(e, ())]
    ends = {circuit.supply_element.id}
    earths = {item.id for item in parts.items if item.kind in EARTHS}
    kept = ends | set(named)
    for onward, goals in ((up, ends), (down, earths)):
        for item in named:
            if item not in goals and not kept & set(onward.get(item, ())):
                kept.update(_way(item, onward, goals | kept - {item}))
    return kept


def _items_of(parts: Parts) -> dict[str, tuple[str, ...]]:
    """The items in which each part, contact and wire is drawn, or at which the wire ends."""
    found: dict[str, tuple[str, ...]] = {}
    for item in parts.items:
        for named in (item.id, *(pin.contact for pin in _pins(item) if pin.contact)):
            found[named] = (item.id,)
    at = seats(parts.items)
    return found | {wire: (at[a].item, at[b].item) for wire, (a, b) in parts.ends.items()}


def _pins(item: Item) -> Iterator[Pin]:
    for column in item.columns:
        yield from (pin for pin in (column.top, column.bottom) if pin is not None)


def _next(pairs: Iterable[tuple[str, str]]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for one, other in pairs:
        found.setdefault(one, []).append(other)
    return found


def _way(start: str, onward: Mapping[str, Sequence[str]], goals: Collection[str]) -> list[str]:
    """The shortest way from an item to one of its goals; the item alone where none leads there."""
    before = {start: ""}
    waiting = [start]
    for item in waiting:
        if item in goals:
            way = [item]
            while before[way[-1]]:
                way.append(before[way[-1]])
            return way
        fresh = [one for one in onward.get(item, ()) if one not in before]
        before |= dict.fromkeys(fresh, item)
        waiting += fresh
    return [start]


Pins = tuple[str, ...]
"""Points of the open items on which a piece hangs; a splice has one, its id."""


def _groups(parts: Parts, kept: set[str]) -> dict[Pins, list[str]]:
    """Items to be folded, by what they hang on, in the order of the sheet."""
    at = seats(parts.items)
    near = _next(
        pair
        for a, b in ((at[one].item, at[other].item) for one, other in parts.ends.values())
        if a not in kept and b not in kept
        for pair in ((a, b), (b, a))
    )
    splices = {item.id for item in parts.items if item.kind == "splice"}
    hung: dict[str, dict[str, None]] = {}
    for one, other in parts.ends.values():
        for point, end in ((one, other), (other, one)):
            if at[point].item in kept and at[end].item not in kept:
                hung.setdefault(at[end].item, {})[_pin_of(point, at, splices)] = None
    found: dict[Pins, list[str]] = {}
    seen = set(kept)
    for item in parts.items:
        if item.id not in seen:
            piece = _piece(item.id, near)
            seen |= piece
            pins = sorted({pin for one in piece for pin in hung.get(one, ())})
            found.setdefault(tuple(pins), []).extend(piece)
    place = {item.id: n for n, item in enumerate(parts.items)}
    return {pins: sorted(group, key=place.__getitem__) for pins, group in found.items()}


def _pin_of(point: str, at: Mapping[str, Seat], splices: Collection[str]) -> str:
    return at[point].item if at[point].item in splices else point


def _piece(start: str, near: Mapping[str, Sequence[str]]) -> set[str]:
    found, waiting = {start}, [start]
    while waiting:
        fresh = [one for one in near.get(waiting.pop(), ()) if one not in found]
        found.update(fresh)
        waiting += fresh
    return found


def _replaced(
    circuit: Circuit, parts: Parts, group: Sequence[str], pins: Pins, working: Collection[str]
) -> Parts:
    """The parts with one item in place of a group, one wire to each of the pins it hangs on."""
    gone, at = set(group), seats(parts.items)
    name = f"fold {group[0]}"
    ends: dict[str, tuple[str, str]] = {}
    bundles: dict[str, list[str]] = {}
    level = dict(parts.level)
    tops: list[Pin] = []
    bottoms: list[Pin] = []
    inside: list[str] = []
    for wire, pair in parts.ends.items():
        within = [at[point].item in gone for point in pair]
        if all(within):
            inside.append(wire)
        elif not any(within):
            ends[wire] = pair
        else:
            inner, outer = pair if within[0] else pair[::-1]
            own = f"{name}.{outer if outer in pins else at[outer].item}"
            if own not in bundles:
                ends[wire] = (own, outer) if within[0] else (outer, own)
                level[own] = level[inner]
                hung = level[inner] <= level[outer]
                (tops if hung else bottoms).append(Pin(own, own))
            bundles.setdefault(own, []).append(wire)
    names = [
        name for name, items in _items_of(parts).items() if items[0] in gone and len(items) < 2
    ]
    several = [wire for wires in bundles.values() if len(wires) > 1 for wire in wires]
    fold = Item(
        name,
        FOLD,
        tuple(Column(top, bottom) for top, bottom in zip_longest(tops, bottoms)) or (Column(),),
        lines=fold_lines(circuit, names, working),
        name=fold_name(circuit, names, working),
        folded=tuple(element for element in (*names, *inside) if element in circuit.elements),
    )
    items = [item for item in parts.items if item.id not in gone]
    items.insert(sum(item.id not in gone for item in parts.items[: _first(parts, group)]), fold)
    left = {point for pair in ends.values() for point in pair}
    return Parts(
        tuple(_with_wires(item, left) for item in items),
        ends,
        level,
        parts.bundles | frozenset(several),
    )


def _first(parts: Parts, group: Sequence[str]) -> int:
    return next(n for n, item in enumerate(parts.items) if item.id == group[0])


def _with_wires(item: Item, left: Collection[str]) -> Item:
    """A splice without the pins whose wires are drawn no more; other items as they are."""
    if item.kind != "splice":
        return item
    rows = [
        [pin for c in item.columns if (pin := getattr(c, side)) and pin.point in left]
        for side in ("top", "bottom")
    ]
    columns = tuple(Column(top, bottom) for top, bottom in zip_longest(*rows))
    return replace(item, columns=columns or (Column(),))
