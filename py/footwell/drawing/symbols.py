"""Items turned into symbols: the part, and the ways of the plugs on it, with their positions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from footwell.circuit.circuit import Circuit
from footwell.drawing.bodies import Body, Spot, draw
from footwell.drawing.frames import EARTH, EARTHS, Frame, half_width
from footwell.drawing.items import BODY, FOLD, LOOSE, WAY, Item, Pin
from footwell.drawing.picture import Glyph, Label, Symbol, Terminal
from footwell.drawing.words import LINE, way_lines, width

SIGN = 0.2
"""Half the width of a sign inside a symbol."""

INSIDE = 0.12
"""Space around the words in a fold."""

LABEL_GAP = 0.12
"""Distance between a symbol and the words beside it."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """An item's symbols, and where each of its points is."""

    symbols: tuple[Symbol, ...]
    points: Mapping[str, Spot]


@dataclass(frozen=True, slots=True)
class Room:
    """Where an item is drawn: its terminals in place, top and bottom edge of its body, its columns."""

    frame: Frame
    terminals: tuple[Terminal, ...]
    edges: tuple[float, float]
    xs: Sequence[float]


def drawn(circuit: Circuit, item: Item, frame: Frame, xs: Sequence[float], y: float) -> Drawn:
    """The symbols of an item whose columns stand at `xs` and whose top edge is at `y`."""
    top, bottom = y + frame.above, y + frame.above + frame.body
    pins = [
        (pin, x, is_top)
        for column, x in zip(item.columns, xs, strict=True)
        for pin, is_top in ((column.top, True), (column.bottom, False))
        if pin is not None
    ]
    plugs: list[Symbol] = []
    points: dict[str, Spot] = {}
    terminals: list[Terminal] = []
    for pin, x, is_top in pins:
        edge = top if is_top else bottom
        terminals.append(Terminal(pin.terminal, f"{item.id}.{pin.terminal}", x, edge))
        points.setdefault(f"{item.id}.{pin.terminal}", (x, edge))
        end = edge
        if pin.contact:
            end = y if is_top else bottom + frame.below
            plugs.append(_plug(circuit, pin, x, end, edge))
        points[pin.point] = (x, end)
    body = _BODIES.get(item.kind, _part)(
        circuit, item, Room(frame, tuple(terminals), (top, bottom), xs)
    )
    points |= {f"{item.id}.{g}": spot for g, spot in body[1].items()}
    return Drawn((body[0], *plugs), points)


def _plug(circuit: Circuit, pin: Pin, x: float, outer: float, inner: float) -> Symbol:
    """One way of a plug on a part: harness half outside, the part's half inside."""
    half = half_width(WAY)
    middle, height = (outer + inner) / 2, abs(inner - outer)
    return Symbol(
        pin.contact,
        WAY,
        circuit.elements[pin.contact].name,
        Label(way_lines(circuit, pin.contact), x + half + LABEL_GAP, middle),
        x,
        middle,
        2 * half,
        height,
        (Terminal("a", pin.point, x, outer), Terminal("b", f"{pin.contact}.b", x, inner)),
        (Glyph(WAY, x, outer, x, inner),),
    )


def _pins(item: Item) -> list[Pin]:
    return [pin for column in item.columns for pin in (column.top, column.bottom) if pin]


Made = tuple[Symbol, dict[str, Spot]]


def _part(circuit: Circuit, item: Item, room: Room) -> Made:
    element = circuit.elements[item.id]
    at: dict[str, list[Spot]] = {}
    for terminal in room.terminals:
        at.setdefault(terminal.name, []).append((terminal.x, terminal.y))
    direct = frozenset(p.terminal for p in _pins(item) if not p.contact)
    body = Body(circuit, element, *room.edges, at, direct=direct)
    if at:
        draw(body)
    inner = tuple(Terminal(name, f"{item.id}.{name}", *spot) for name, spot in body.bare.items())
    symbol = _symbol(item, element.name, room, (*room.terminals, *inner), tuple(body.glyphs))
    return symbol, body.bare


def _loom(circuit: Circuit, item: Item, room: Room) -> Made:
    """A way in the loom, a wire's loose end, or the body: no part with branches of its own."""
    (top, bottom), x = room.edges, room.xs[0]
    element = circuit.elements.get(item.id)
    named = tuple(Terminal(t.name, _point(item, t), t.x, t.y) for t in room.terminals)
    ends = {t.name: t.y for t in named}
    if item.kind == WAY and element is not None:
        glyph = Glyph(WAY, x, ends.get("a", top), x, ends.get("b", bottom))
    elif item.kind == WAY:
        y = ends.get("a", named[0].y)
        glyph = Glyph("half way", x, y, x, bottom if y == top else top)
    elif item.kind == BODY:
        glyph = Glyph("earth", x, top, x, top + EARTH)
    else:
        glyph = Glyph(LOOSE, x, named[0].y, x, bottom if named[0].y == top else top)
    name = element.name if element else " ".join(room.frame.lines)
    return _symbol(item, name, room, named, (glyph,)), {}


def _fold(_: Circuit, item: Item, room: Room) -> Made:
    """A box around the first column and all others, with its words in it."""
    (top, bottom), xs, lines = room.edges, room.xs, room.frame.lines
    half = width(lines) / 2 + INSIDE
    low, high = min(xs) - half, max(max(xs) + INSIDE, min(xs) + half)
    named = tuple(Terminal(t.name, t.name, t.x, t.y) for t in room.terminals)
    middle, size = ((low + high) / 2, (top + bottom) / 2), (high - low, bottom - top)
    words = Label(lines, low + INSIDE / 2, middle[1])
    box = Glyph(FOLD, low, top, high, bottom)
    symbol = Symbol("", FOLD, item.name, words, *middle, *size, named, (box,), item.folded)
    return symbol, {}


def _point(item: Item, terminal: Terminal) -> str:
    return f"{item.id}.{terminal.name}" if item.kind == WAY else item.id


def _symbol(
    item: Item, name: str, room: Room, terminals: tuple[Terminal, ...], glyphs: tuple[Glyph, ...]
) -> Symbol:
    (top, bottom), xs, lines = room.edges, room.xs, room.frame.lines
    half = half_width(item.kind)
    signs = [x for glyph in glyphs for x in (glyph.x1, glyph.x2)]
    low = min([min(xs) - half, *(x - SIGN for x in signs)])
    high = max([max(xs) + half, *(x + SIGN for x in signs)])
    inner = [g.label.x + width(g.label.lines) for g in glyphs if g.label]
    high = max([high, *(edge + LABEL_GAP for edge in inner)])
    label = Label(lines, high + LABEL_GAP, (top + bottom) / 2)
    if item.kind in EARTHS:
        label = Label(lines, low, top + EARTH + LINE * len(lines) / 2)
    middle = (low + high) / 2, (top + bottom) / 2
    element = item.id if item.kind not in (BODY, LOOSE) else ""
    return Symbol(
        element, item.kind, name, label, *middle, high - low, bottom - top, terminals, glyphs
    )


_BODIES = {WAY: _loom, LOOSE: _loom, BODY: _loom, FOLD: _fold}
