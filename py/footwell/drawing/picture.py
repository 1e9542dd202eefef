"""What the current-path diagram is made of, in grid units: x to the right, y downwards from 0.

A grid unit is about 44 px on a phone. The page draws symbols from their glyphs, wires from their
points; nothing here knows pixels, fonts or colours.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Label:
    """Lines of text, set from (x, y) to the right; y is the middle of the block of lines."""

    lines: tuple[str, ...]
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Glyph:
    """One sign between two ends: a line, or a symbol whose axis runs from (x1, y1) to (x2, y2).

    Kinds are "line", "link" (mechanical, dashed), "dot", "box" (its corners), and the symbols
    "battery", "fuse", "make", "break", "coil", "resistor", "thermal fuse", "diode" (anode first),
    "lamp", "motor", "heater", "output", "earth", "fold" (its corners), "way" (half a first), "half
    way" (one half alone), "loose", and "name" (a terminal's name and nothing else). `branch` names the
    branch of the part that the glyph stands for.
    """

    kind: str
    x1: float
    y1: float
    x2: float
    y2: float
    branch: str = ""
    label: Label | None = None


@dataclass(frozen=True, slots=True)
class Terminal:
    """A pin of a symbol; `point` is the circuit's name of it ("F1.2", "X2.3.a")."""

    name: str
    point: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Symbol:
    """A part or a contact. (x, y) is the middle of its box; `element` is "" for body, loose end and fold,
    which has the elements inside it in `folded`."""

    element: str
    kind: str
    name: str
    label: Label
    x: float
    y: float
    width: float
    height: float
    terminals: tuple[Terminal, ...]
    glyphs: tuple[Glyph, ...]
    folded: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """A wire: a polyline of vertical and horizontal stretches from pin to pin."""

    element: str
    label: Label
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a place can be touched; `id` is a place of the circuit."""

    id: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Layout:
    """`dots` are the joints where more than two stretches of wire meet."""

    width: float
    height: float
    symbols: tuple[Symbol, ...]
    lines: tuple[Line, ...]
    dots: tuple[tuple[float, float], ...]
    places: tuple[Spot, ...]
