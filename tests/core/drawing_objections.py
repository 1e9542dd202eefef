"""What can be said against a picture of the drawing: each function lists what is wrong."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from footwell.circuit.circuit import Circuit
from footwell.drawing.items import wire_ends
from footwell.drawing.picture import Label, Layout, Symbol
from footwell.drawing.words import LINE, width

HAIR = 1e-6
"""Less than this is no distance."""

Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""

Stretch = tuple[str, float, float, float, float]
"""Wire, and both ends of one straight stretch of it, left or upper end first."""


def box(symbol: Symbol) -> Box:
    half, tall = symbol.width / 2, symbol.height / 2
    return symbol.x - half, symbol.y - tall, symbol.x + half, symbol.y + tall


def text_box(label: Label) -> Box:
    half = len(label.lines) * LINE / 2
    return label.x, label.y - half, label.x + width(label.lines), label.y + half


def overlap(one: Box, other: Box) -> bool:
    return (
        one[0] < other[2] - HAIR
        and other[0] < one[2] - HAIR
        and one[1] < other[3] - HAIR
        and other[1] < one[3] - HAIR
    )


def stretches(layout: Layout) -> list[Stretch]:
    return [
        (line.element, min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))
        for line in layout.lines
        for (x1, y1), (x2, y2) in pairwise(line.points)
    ]


def overlapping_symbols(layout: Layout) -> list[tuple[str, str]]:
    """Pairs of symbols whose boxes overlap."""
    pairs = combinations(layout.symbols, 2)
    return [(a.element, b.element) for a, b in pairs if overlap(box(a), box(b))]


def crossed_symbols(layout: Layout) -> list[tuple[str, str]]:
    """Wires that run through a symbol's box."""
    return [
        (stretch[0], symbol.element)
        for stretch in stretches(layout)
        for symbol in layout.symbols
        if overlap(fattened(stretch), box(symbol))
    ]


def fattened(stretch: Stretch) -> Box:
    """The stretch as a box: a wire has some width, but does not reach beyond its ends."""
    _, left, top, right, bottom = stretch
    if left == right:
        return left - 2 * HAIR, top, right + 2 * HAIR, bottom
    return left, top - 2 * HAIR, right, bottom + 2 * HAIR


def words(layout: Layout) -> Iterator[tuple[str, Label]]:
    for symbol in layout.symbols:
        yield symbol.element, symbol.label
        for glyph in symbol.glyphs:
            if glyph.label:
                yield f"{symbol.element} {glyph.branch}", glyph.label
    for line in layout.lines:
        yield line.element, line.label


def overlapping_words(layout: Layout) -> list[tuple[str, str]]:
    """Words that overlap other words."""
    pairs = combinations(words(layout), 2)
    return [(a, b) for (a, one), (b, other) in pairs if overlap(text_box(one), text_box(other))]


def struck_words(layout: Layout) -> list[tuple[str, str]]:
    """Words with a wire, or with another thing's symbol, through them."""
    through_wire = [
        (owner, stretch[0])
        for owner, label in words(layout)
        for stretch in stretches(layout)
        if overlap(text_box(label), fattened(stretch))
    ]
    through_symbol = [
        (owner, symbol.element)
        for owner, label in words(layout)
        for symbol in layout.symbols
        if symbol.element != owner.split(" ")[0] and overlap(text_box(label), box(symbol))
    ]
    return through_wire + through_symbol


def nets(circuit: Circuit) -> dict[str, int]:
    """Wires that meet at points, by number."""
    net: dict[str, int] = {}
    for n, (one, other) in enumerate(wire_ends(circuit).values()):
        old = {net.get(one, n), net.get(other, n)}
        net.update({one: n, other: n})
        net.update({point: n for point, m in net.items() if m in old})
    return {wire: net[one] for wire, (one, _) in wire_ends(circuit).items()}


def run_together(circuit: Circuit, layout: Layout) -> list[tuple[str, str]]:
    """Wires of different nets that lie on one another for some way."""
    net = nets(circuit)
    return [
        (a[0], b[0])
        for a, b in combinations(stretches(layout), 2)
        if net[a[0]] != net[b[0]] and _on_one_another(a, b)
    ]


def _on_one_another(a: Stretch, b: Stretch) -> bool:
    _, left, top, right, bottom = a
    _, left_b, top_b, right_b, bottom_b = b
    if left == right == left_b == right_b:
        return min(bottom, bottom_b) - max(top, top_b) > HAIR
    if top == bottom == top_b == bottom_b:
        return min(right, right_b) - max(left, left_b) > HAIR
    return False


def wires_off_their_pins(circuit: Circuit, layout: Layout) -> list[tuple[str, str]]:
    """Wires that do not end on the pins they belong to, with the pin missed."""
    pins = {t.point: (t.x, t.y) for s in layout.symbols for t in s.terminals}
    drawn = {line.element: {line.points[0], line.points[-1]} for line in layout.lines}
    return [
        (wire, point)
        for wire, ends in wire_ends(circuit).items()
        for point in ends
        if pins.get(point) not in drawn[wire]
    ]


def slanting(layout: Layout) -> list[str]:
    """Wires with a stretch that is neither upright nor level."""
    return [
        wire
        for wire, left, top, right, bottom in stretches(layout)
        if left < right and top < bottom
    ]


def outside(layout: Layout) -> list[str]:
    """Symbols, words and wires that leave the picture."""
    boxes = [(s.element, box(s)) for s in layout.symbols]
    boxes += [(owner, text_box(label)) for owner, label in words(layout)]
    boxes += [
        (wire, (left, top, right, bottom)) for wire, left, top, right, bottom in stretches(layout)
    ]
    return [
        owner
        for owner, (left, top, right, bottom) in boxes
        if left < 0 or top < 0 or right > layout.width or bottom > layout.height
    ]


def crowded_places(layout: Layout, least: float) -> list[tuple[str, str]]:
    """Places whose squares of a thumb's size overlap."""
    return [
        (a.id, b.id)
        for a, b in combinations(layout.places, 2)
        if max(abs(a.x - b.x), abs(a.y - b.y)) < least
    ]
