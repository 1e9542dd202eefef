"""The inside of each kind of part, drawn from signs of two ends between the part's terminals."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise

from footwell.circuit.circuit import Circuit, Element
from footwell.drawing.frames import EARTH, STEP, TOUCH
from footwell.drawing.picture import Glyph, Label
from footwell.drawing.words import LINE, closing_line, step_lines
from footwell.parts.base import Branch
from footwell.parts.laws import Open
from footwell.parts.resistor_pack import THERMAL_FUSE, ResistorPack, inlets

Spot = tuple[float, float]

STUB = 0.2
"""Length of the conductor between a terminal and the bar that shares it out."""

BESIDE = 0.1
"""Distance of a terminal's name from the terminal."""

ASIDE = 0.3
"""Distance of a label, or of a coil's diode, from the axis of its sign."""


@dataclass
class Body:
    """The box between `top` and `bottom`, the part's terminals on its edges, the signs so far."""

    circuit: Circuit
    element: Element
    top: float
    bottom: float
    at: dict[str, list[Spot]]
    glyphs: list[Glyph] = field(default_factory=list)
    direct: frozenset[str] = frozenset()
    """Terminals with a wire on them, not a plug whose ways have names of their own."""
    bare: dict[str, Spot] = field(default_factory=dict)
    """Terminals inside the box that no wire reaches."""

    @property
    def middle(self) -> float:
        return (self.top + self.bottom) / 2

    def is_top(self, terminal: str) -> bool:
        return self.at[terminal][0][1] == self.top

    def add(
        self, kind: str, start: Spot, end: Spot, branch: str = "", words: tuple[str, ...] = ()
    ) -> None:
        label = Label(words, max(start[0], end[0]) + ASIDE, (start[1] + end[1]) / 2)
        self.glyphs.append(Glyph(kind, *start, *end, branch, label if words else None))

    def line(self, *spots: Spot) -> None:
        """A conductor through the spots; stretches without length are left out."""
        for start, end in pairwise(spots):
            if start != end:
                self.add("line", start, end)

    def inwards(self, spot: Spot, distance: float) -> float:
        """The height at some distance inside the box from a spot on its edge."""
        return spot[1] + (distance if spot[1] == self.top else -distance)

    def name(self, terminal: str) -> None:
        """The terminal's name beside its end."""
        spot = self.at[terminal][0]
        label = Label((terminal,), spot[0] + BESIDE, self.inwards(spot, LINE / 2))
        self.glyphs.append(Glyph("name", *spot, *spot, label=label))


def draw(body: Body) -> None:
    """Fill the body with the signs of its kind."""
    for spots in body.at.values():
        body.line(*sorted(spots))
    DRAWN.get(body.element.kind.name, _two_ended)(body)


def _branches(body: Body, state: str | None = None) -> list[Branch]:
    kind, values = body.element.kind, body.element.values
    return body.circuit.branches(body.element, kind.states(values)[0] if state is None else state)


def _two_ended(body: Body) -> None:
    """One sign along the current, upright, or lying where both ends come from above."""
    branch = _branches(body)[0]
    _between(body, body.element.kind.name.replace("_", " "), branch.a, branch.b)


def _between(
    body: Body, kind: str, a: str, b: str, branch: str = "", words: tuple[str, ...] = ()
) -> None:
    if a not in body.at or b not in body.at:
        return
    start, end = body.at[a][0], body.at[b][0]
    if start[1] != end[1]:
        foot = (start[0], end[1])
        body.add(kind, start, foot, branch)
        body.line(foot, end)
    else:
        low, low_end = (start[0], body.middle), (end[0], body.middle)
        body.line(start, low)
        body.add(kind, low, low_end, branch)
        body.line(low_end, end)


def _earth_point(body: Body) -> None:
    ((x, y),) = body.at["1"][:1] or [(0.0, body.top)]
    body.add("earth", (x, y), (x, y + EARTH))


def _splice(body: Body) -> None:
    """A bar with a dot where each conductor meets it."""
    every = sorted(spot for spots in body.at.values() for spot in spots)
    for x, y in every:
        body.line((x, y), (x, body.middle))
    columns = sorted({x for x, _ in every})
    body.line((columns[0], body.middle), (columns[-1], body.middle))
    for x in columns:
        body.add("dot", (x, body.middle), (x, body.middle))


def _switch(body: Body) -> None:
    """Contacts with the positions that close them; a box where they do not fit side by side."""
    states = body.element.kind.states(body.element.values)
    closed: dict[tuple[str, str], list[str]] = {}
    for state in states:
        for branch in _branches(body, state):
            shut = closed.setdefault((branch.a, branch.b), [])
            if not isinstance(branch.law, Open):
                shut.append(state)
    pairs = [pair for pair in closed if all(t in body.at for t in pair)]
    stars = _stars(body, pairs)
    for common, other in (arm for star in stars for arm in star):
        pair = (common, other) if (common, other) in closed else (other, common)
        words = closing_line(body.circuit, body.element, closed[pair])
        _arm(body, "make", common, other, "-".join(pair), (words,) if words else ())
    if sum(len(star) for star in stars) < len(pairs):
        _box(body)


def _box(body: Body) -> None:
    xs = [x for spots in body.at.values() for x, _ in spots]
    body.add("box", (min(xs) - ASIDE, body.top), (max(xs) + ASIDE, body.bottom))
    for terminal in body.at:
        body.name(terminal)


def _stars(body: Body, pairs: list[tuple[str, str]]) -> list[list[tuple[str, str]]]:
    """Pairs as (common, other) for each group of contacts with one common terminal on the far edge.

    Contacts that form no such star are left to the box and the terminals' names.
    """
    stars: list[list[tuple[str, str]]] = []
    left = list(pairs)
    while left:
        group = _connected(left)
        left = [pair for pair in left if pair not in group]
        commons = [t for t in group[0] if all(t in pair for pair in group)]
        star = [(commons[0], a if b == commons[0] else b) for a, b in group] if commons else []
        if star and all(body.is_top(c) != body.is_top(o) for c, o in star):
            stars.append(star)
    return stars


def _connected(pairs: list[tuple[str, str]]) -> list[tuple[str, str]]:
    reached = set(pairs[0])
    for _ in pairs:
        for pair in pairs:
            if reached & set(pair):
                reached |= set(pair)
    return [pair for pair in pairs if pair[0] in reached]


def _arm(
    body: Body, kind: str, common: str, other: str, branch: str, words: tuple[str, ...]
) -> None:
    """A contact from the bar under a common terminal to one of the others."""
    start, end = body.at[common][0], body.at[other][0]
    bar = body.inwards(start, STUB)
    body.line(start, (start[0], bar), (end[0], bar))
    body.add(kind, (end[0], bar), end, branch, words)


def _signs(**of_branch: str) -> Callable[[Body], None]:
    """A sign for each of these branches, in stars; a box with names where they form none."""

    def fill(body: Body) -> None:
        groups: dict[str, dict[tuple[str, str], str]] = {}
        for branch in _branches(body):
            sign = of_branch.get(branch.name)
            if sign and branch.a in body.at and branch.b in body.at:
                groups.setdefault(sign, {})[branch.a, branch.b] = branch.name
        arms = {
            sign: [arm for star in _stars(body, list(pairs)) for arm in star]
            for sign, pairs in groups.items()
        }
        if any(len(arms[sign]) < len(pairs) for sign, pairs in groups.items()):
            _box(body)
            return
        for sign, pairs in groups.items():
            for common, other in arms[sign]:
                name = pairs.get((common, other)) or pairs[other, common]
                _arm(body, sign, common, other, name, ())
        for terminal in body.at:
            if terminal in body.direct:
                body.name(terminal)

    return fill


def _generator(body: Body) -> None:
    """A circle with G between B+ and B-; a box where D+ is there too."""
    if "D+" in body.at:
        _box(body)
    else:
        _two_ended(body)


def _tapped(sign: str, a: str, b: str, tap: str, reach: float) -> Callable[[Body], None]:
    """A sign from a to b with a third terminal that meets it in the middle, `reach` off its axis; a box
    with names where they do not stand so."""

    def fill(body: Body) -> None:
        if any(t not in body.at for t in (a, b, tap)) or body.is_top(a) == body.is_top(b):
            _box(body)
            return
        axis, (x, y) = body.at[a][0][0], body.at[tap][0]
        if x == axis:
            _box(body)
            return
        _between(body, sign, a, b)
        side = axis + (reach if x > axis else -reach)
        body.line((x, y), (x, body.middle), (side, body.middle))
        for terminal in body.at:
            body.name(terminal)

    return fill


def _relay(body: Body) -> None:
    """Coil and contact in one box, linked; the terminals keep their numbers."""
    _between(body, "coil", "86", "85", "coil")
    for name, kind, other in (("contact", "make", "87"), ("rest", "break", "87a")):
        if "30" in body.at and other in body.at and body.is_top("30") != body.is_top(other):
            _arm(body, kind, "30", other, name, ())
    for terminal in body.at:
        if terminal in body.direct:
            body.name(terminal)
    names = [branch.name for branch in _branches(body)]
    for across in ("diode", "resistor"):
        if across in names and "85" in body.at and "86" in body.at:
            _across_coil(body, across)
    if "86" in body.at and "30" in body.at:
        body.add("link", (body.at["86"][0][0], body.middle), (body.at["30"][0][0], body.middle))


def _across_coil(body: Body, sign: str) -> None:
    """A diode, cathode on 86, or a resistor, on the side that looks away from the contact."""
    away = ASIDE + 0.15
    contact = body.at.get("30", [(float("inf"), 0.0)])[0][0]
    plus, minus = body.at["86"][0], body.at["85"][0]
    x = plus[0] - away if contact > plus[0] else plus[0] + away
    head, foot = (x, body.inwards(plus, STUB)), (x, body.inwards(minus, STUB))
    body.line((plus[0], head[1]), head)
    body.line((minus[0], foot[1]), foot)
    body.add(sign, foot, head, sign)


def _pack(body: Body) -> None:
    """Steps and thermal fuse one below the other, an inlet joining between two steps."""
    values = body.element.values
    assert isinstance(values, ResistorPack)
    chain = [*inlets(values), "link", "out"]
    spans = [STEP] * len(values.steps_ohms) + [TOUCH]
    words = [step_lines(ohms) for ohms in values.steps_ohms] + [("thermal", "fuse")]
    if "out" in body.at and body.is_top("out"):
        chain, spans, words = chain[::-1], spans[::-1], words[::-1]
    axis = next((body.at[t][0][0] for t in (chain[-1], chain[0]) if t in body.at), 0.0)
    y = body.top
    for n, (terminal, span) in enumerate(zip(chain, spans, strict=False)):
        if terminal in body.at:
            x, edge = body.at[terminal][0]
            body.line((x, edge), (x, y), (axis, y))
        else:
            body.bare[terminal] = (axis, y)
        name = _link_name(terminal, chain[n + 1], values)
        kind = THERMAL_FUSE if name == THERMAL_FUSE else "resistor"
        body.add(kind, (axis, y), (axis, y + span), name, words[n])
        y += span
    if chain[-1] in body.at:
        x, edge = body.at[chain[-1]][0]
        body.line((axis, y), (axis, edge), (x, edge))


def _link_name(one: str, other: str, values: ResistorPack) -> str:
    """The branch between two neighbours of the chain."""
    if "out" in (one, other):
        return THERMAL_FUSE
    ends = (*inlets(values), "link")
    return f"step {min(ends.index(one), ends.index(other)) + 1}"


DRAWN: dict[str, Callable[[Body], None]] = {
    "earth_point": _earth_point,
    "splice": _splice,
    "switch": _switch,
    "relay": _relay,
    "latching_relay": _signs(contact="make", rest="break", set="coil", reset="coil", coil="coil"),
    "starter_solenoid": _box,
    "charging_source": _generator,
    "zener": lambda body: _between(body, "zener", "A", "K"),
    "resistor_pack": _pack,
    "twin_lamp": _signs(major="lamp", minor="lamp", main="lamp", dip="lamp"),
    "module_input": _box,
    "double_potentiometer": _box,
    "hall_switch": _box,
    "regulator": _box,
    "bus_unit": _box,
    "potentiometer": _tapped("resistor", "+", "-", "wiper", 0.14),
    "two_speed_motor": _tapped("motor", "high", "-", "low", 0.3),
}
