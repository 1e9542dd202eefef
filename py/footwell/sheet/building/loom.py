"""What has been built so far: parts, plugs, wires and the ends from which it goes on.

Wires are named from where the current comes to where it goes. A part's terminal is its own point here,
also where a plug sits on it; `closing` puts the plug in between.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import count
from typing import Any

from footwell.parts.base import EARTH
from footwell.sheet.building.recipes import RECIPES, Recipe, Way
from footwell.sheet.building.steps import What
from footwell.sheet.errors import ChangeError
from footwell.sheet.places import short

PLUS, MINUS = "G1.+", "G1.-"
MOST_SPLICED = 12
SIDES = {"a": "b", "b": "a"}
MOST = {"part": 120, "plug": 60, "wire": 300}
"""What a sheet can hold, see `sheet.models`."""


@dataclass
class Piece:
    """A part. `ways` are its paths; `fed` are the inlets that a wire has come to."""

    id: str
    kind: str
    name: str
    ways: tuple[Way, ...]
    what: What | None = None
    count: int = 1
    turned: bool = False
    amount: str = ""
    code: str = ""
    at: str = ""
    fed: list[str] = field(default_factory=list)

    @property
    def recipe(self) -> Recipe | None:
        return RECIPES[self.what] if self.what else None

    @property
    def load(self) -> bool:
        return self.recipe is not None and self.recipe.load

    @property
    def carries(self) -> bool:
        """Current goes through it to a load; it is none itself."""
        return not self.load and self.kind not in ("battery", "earth_point")

    @property
    def terminals(self) -> list[str]:
        return [t for come, leave in self.ways for t in (*come, *leave)]

    def point(self, terminal: str) -> str:
        return f"{self.id}.{terminal}"


@dataclass
class Connector:
    """A plug. `part` is what it sits on, "" in the loom; `entered` is the half by which the current comes
    into each way that is in use."""

    id: str
    pins: list[str]
    part: str = ""
    at: str = ""
    name: str = ""
    entered: dict[str, str] = field(default_factory=dict)


@dataclass
class Conductor:
    """A wire; what nobody told is None."""

    id: str
    start: str
    end: str
    colour: str | None = None
    mm2: float | None = None
    metres: float | None = None


@dataclass(frozen=True)
class End:
    """A place from which the current has to go on; those of one `group` left the same part."""

    point: str
    group: int


class Loom:
    """All that stands, and the end in hand."""

    def __init__(self, volts: int) -> None:
        self.volts = volts
        self.pieces: dict[str, Piece] = {}
        self.plugs: dict[str, Connector] = {}
        self.wires: dict[str, Conductor] = {}
        self.ends: list[End] = []
        self.at = PLUS
        self.notes: dict[str, str] = {}
        self._groups = count(1)
        self.add(Piece("G1", "battery", "battery", ((("-",), ("+",)),)))
        self.add(Piece("E0", "earth_point", "battery earth", ((("1",), ()),)))
        self.wire(MINUS, "E0.1")

    # ---- names

    @property
    def names(self) -> set[str]:
        return {*self.pieces, *self.plugs, *self.wires, EARTH, "supply"}

    def free(self, letters: str) -> str:
        return next(n for i in count(1) if (n := f"{letters}{i}") not in self.names)

    def name(self, typed: str, letters: str) -> str:
        """A name as typed, or the next free one; refuses one that is taken or cannot be."""
        if not typed:
            return self.free(letters)
        if not re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]{0,23}", typed):
            raise self.refuse(
                typed, "cannot be a name: begin with a letter, then letters, digits, _ or -"
            )
        if typed in self.names:
            raise self.refuse(
                typed,
                f"is the name of {self.called(typed)} already. Take another, such as {self.free(letters)}",
            )
        return typed

    def called(self, name: str) -> str:
        """An element in words."""
        if name in self.pieces:
            piece = self.pieces[name]
            return piece.name if name in piece.name else f"the {piece.name} {name}"
        if name in self.wires:
            return f"wire {name}"
        return f"plug {name}" if name in self.plugs else "something else"

    def refuse(self, name: str, why: str) -> ChangeError:
        said = f"{short(name, 40)} {why}."
        return ChangeError(name, "step", said[0].upper() + said[1:])

    # ---- elements

    def add(self, piece: Piece) -> Piece:
        self._room(self.pieces, "part")
        self.pieces[piece.id] = piece
        return piece

    def connect(self, plug: Connector) -> Connector:
        self._room(self.plugs, "plug")
        self.plugs[plug.id] = plug
        return plug

    def wire(self, start: str, end: str, like: Conductor | None = None) -> Conductor:
        self._room(self.wires, "wire")
        names = (f"W{n}" for n in count(0) if f"W{n}" not in self.names)
        made = Conductor(next(names), start, end)
        if like:
            made.colour, made.mm2 = like.colour, like.mm2
        self.wires[made.id] = made
        return made

    def _room(self, rows: dict[str, Any], word: str) -> None:
        if len(rows) >= MOST[word]:
            raise ChangeError(
                "",
                "step",
                f"A sheet holds at most {MOST[word]} {word}s, and this would be one more. What is built "
                "stays; leave out what the fault cannot be in, or make a second sheet.",
            )

    def owner(self, point: str) -> str:
        return point.partition(".")[0]

    def at_point(self, point: str) -> list[Conductor]:
        return [w for w in self.wires.values() if point in (w.start, w.end)]

    def is_post(self, point: str) -> bool:
        """Where any number of wires may end: a battery's post, an earth point, the body."""
        piece = self.pieces.get(self.owner(point))
        return point == EARTH or (piece is not None and piece.kind in ("battery", "earth_point"))

    def known(self, point: str) -> str:
        """The point itself, or the terminal behind a way of a part's own plug; refuses any other."""
        owner, _, rest = point.partition(".")
        plug, piece = self.plugs.get(owner), self.pieces.get(owner)
        if plug and plug.part:
            terminals = self.pieces[plug.part].terminals
            named = dict(zip(plug.pins, terminals, strict=True))
            pin = rest.partition(".")[0]
            if pin in named:
                return f"{plug.part}.{named[pin]}"
        elif plug and rest[-2:] in (".a", ".b") and rest[:-2] in plug.entered:
            return point
        if point == EARTH or (piece and rest in piece.terminals):
            return point
        raise self.refuse(point, "is nowhere in this circuit. Choose a place from the list")

    # ---- the ends

    def open(self, points: Iterable[str], before: int = 0) -> None:
        """More ends, side by side, in front of the others from `before` on."""
        group = next(self._groups)
        self.ends[before:before] = [End(point, group) for point in points]

    def group(self) -> list[End]:
        """The end in hand and those behind it that left the same part."""
        here = next((n for n, end in enumerate(self.ends) if end.point == self.at), None)
        if here is None:
            return [End(self.at, 0)]
        return [end for end in self.ends[here:] if end.group == self.ends[here].group]

    def take(self, ends: Iterable[End]) -> int:
        """Take ends away, since a wire leaves from them; where they were."""
        gone = list(ends)
        place = next((n for n, end in enumerate(self.ends) if end in gone), 0)
        self.ends = [end for end in self.ends if end not in gone]
        return place

    def next(self) -> None:
        """Where a branch has ended: to the first open end, else to the battery."""
        self.at = self.ends[0].point if self.ends else PLUS

    # ---- wires that meet

    def meeting(self, point: str) -> str:
        """A point for one more wire at `point`: itself where it is free or a post, else a way of a splice
        that is put into the wire there."""
        wires = self.at_point(point)
        if not wires or self.is_post(point):
            return point
        wire = wires[0]
        other = wire.end if wire.start == point else wire.start
        for near in (point, other):
            splice = self.pieces.get(self.owner(near))
            if splice and splice.kind == "splice":
                return self._one_more(splice)
        return self._spliced(point, wire)

    def _one_more(self, splice: Piece) -> str:
        if splice.count >= MOST_SPLICED:
            raise self.refuse(splice.id, f"joins {MOST_SPLICED} wires already, which is all it can")
        splice.count += 1
        splice.ways = ((("1",), tuple(str(n) for n in range(2, splice.count + 1))),)
        return splice.point(str(splice.count))

    def _spliced(self, point: str, wire: Conductor) -> str:
        splice = self.splice(3)
        near, far = splice.point("1"), splice.point("2")
        if wire.start == point:
            self.wire(far, wire.end, wire)
            wire.end = near
        else:
            self.wire(near, point, wire)
            wire.end = far
        self.notes[splice.id] = (
            f"{splice.id}: a second wire ends at {self.place(point)}, so the two are drawn "
            "joined in a splice just before it. Nothing to do where it is one."
        )
        return splice.point("3")

    def splice(self, wires: int) -> Piece:
        name = self.free("SP")
        ways = ((("1",), tuple(str(n) for n in range(2, wires + 1))),)
        return self.add(Piece(name, "splice", f"splice {name}", ways, count=wires))

    # ---- what leads where

    def conductors(self) -> Iterator[tuple[str, str]]:
        """Pairs of points that are one metal: wires, plugged ways, splices."""
        for wire in self.wires.values():
            yield wire.start, wire.end
        for plug in self.plugs.values():
            for pin in plug.entered:
                yield f"{plug.id}.{pin}.a", f"{plug.id}.{pin}.b"
        for piece in self.pieces.values():
            if piece.kind in ("splice", "earth_point"):
                yield from ((piece.point("1"), piece.point(t)) for t in piece.terminals)
            if piece.kind == "earth_point":
                yield piece.point("1"), EARTH

    def carriers(self) -> Iterator[tuple[str, str]]:
        """The same, and all that current goes through on its way to a load."""
        yield from self.conductors()
        for piece in self.pieces.values():
            if piece.carries and piece.kind != "splice":
                for come, leave in piece.ways:
                    if "86" not in (*come, *leave):
                        yield from ((piece.point(c), piece.point(t)) for c in come for t in leave)

    def place(self, point: str) -> str:
        """A point in words."""
        owner, _, rest = point.partition(".")
        if point == EARTH:
            return "the body"
        if point == PLUS:
            return "the battery's plus"
        if owner in self.plugs:
            return f"way {rest[:-2]} of {owner}"
        piece = self.pieces[owner]
        if piece.kind in ("splice", "earth_point"):
            return piece.name if owner in piece.name else f"{piece.name} {owner}"
        return f"{piece.name} {owner}, terminal {rest}"


def joined(pairs: Iterable[tuple[str, str]], start: str) -> set[str]:
    """All points that pairs join to one."""
    beside: dict[str, list[str]] = {}
    for one, other in pairs:
        beside.setdefault(one, []).append(other)
        beside.setdefault(other, []).append(one)
    found, left = {start}, [start]
    while left:
        more = [p for p in beside.get(left.pop(), ()) if p not in found]
        found.update(more)
        left += more
    return found
