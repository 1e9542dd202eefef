"""Heights and widths of what stands in a row, in grid units: plugs above, the part, plugs below."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from footwell.circuit.circuit import Circuit
from footwell.drawing.items import BODY, FOLD, LOOSE, WAY, Item, Pin
from footwell.drawing.words import LINE, part_lines, way_lines
from footwell.parts.resistor_pack import ResistorPack

TOUCH = 1.25
"""Least distance between two places: a thumb's 48 px with a little to spare at 44 px a unit."""

PLUG = 0.8
"""Height of a way of a part's plug whose other side is no place."""

STEP = 1.0
"""Height of one resistor of a pack."""

EARTH = 0.6
"""Height of the sign of earth."""

ABOVE_WORDS = 0.15
"""Space above and below the words in a fold."""

EARTHS = ("earth_point", BODY)
"""Kinds that stand on the body; their words stand below them, where nothing else is."""

BODIES = {
    "splice": 0.3,
    LOOSE: 0.3,
    "switch": 1.4,
    "relay": 1.5,
    "heater": 1.4,
    "ptc_heater": 1.4,
    "twin_lamp": 1.4,
    "latching_relay": 1.5,
    "starter_solenoid": 1.5,
    "charging_source": 1.4,
}
"""Height of a body by kind; `TOUCH` for the others."""

HALF_WIDTHS = {
    "fuse": 0.2,
    "fusible_link": 0.2,
    "horn": 0.3,
    "solenoid": 0.3,
    "ptc_heater": 0.35,
    "glow_plug": 0.25,
    "breaker": 0.3,
    "lamp": 0.35,
    "led_lamp": 0.45,
    "twin_lamp": 0.35,
    "motor": 0.4,
    "two_speed_motor": 0.4,
    "reversing_motor": 0.4,
    "heater": 0.25,
    "resistor": 0.2,
    "resistor_pack": 0.25,
    "diode": 0.25,
    "zener": 0.25,
    "standing_load": 0.3,
    "battery": 0.35,
    "second_battery": 0.35,
    "charging_source": 0.4,
    "switch": 0.3,
    "relay": 0.35,
    "latching_relay": 0.35,
    "output": 0.4,
    "low_side_output": 0.4,
    "splice": 0.1,
    WAY: 0.18,
    LOOSE: 0.1,
}
"""Half the width of a body of one column; 0.3 for the others."""


@dataclass(frozen=True, slots=True)
class Frame:
    """Heights of an item's three floors, from the top down."""

    above: float
    body: float
    below: float
    lines: tuple[str, ...]

    @property
    def height(self) -> float:
        return self.above + self.body + self.below


def half_width(kind: str) -> float:
    return HALF_WIDTHS.get(kind, 0.3)


def frame(circuit: Circuit, item: Item, touched: Mapping[str, object]) -> Frame:
    """The floors of an item; `touched` are the points that can be probed."""
    tops = [c.top for c in item.columns if c.top]
    bottoms = [c.bottom for c in item.columns if c.bottom]
    lines = lines_of(circuit, item)
    words = len(lines) * LINE
    words += 2 * ABOVE_WORDS if item.kind == FOLD else 0.0
    body = EARTH + words if item.kind in EARTHS else max(_body(circuit, item), words)
    if any(c.top and c.bottom and _both(c.top, c.bottom, touched) for c in item.columns):
        body = max(body, TOUCH)
    return Frame(_plugs(item, tops, touched), body, _plugs(item, bottoms, touched), lines)


def lines_of(circuit: Circuit, item: Item) -> tuple[str, ...]:
    """The words beside an item's body."""
    if item.kind == FOLD:
        return item.lines
    if item.kind == WAY:
        return way_lines(circuit, item.id)
    if item.kind == LOOSE:
        return (item.id.split(".")[0], "loose")
    if item.kind in (BODY, "splice"):
        return (item.id,) if item.kind == "splice" else ()
    return part_lines(circuit.elements[item.id], circuit.context)


def _body(circuit: Circuit, item: Item) -> float:
    if item.kind == "resistor_pack":
        values = circuit.elements[item.id].values
        assert isinstance(values, ResistorPack)
        return STEP * len(values.steps_ohms) + TOUCH
    if item.kind == WAY and not (item.columns[0].top and item.columns[0].bottom):
        return PLUG
    return BODIES.get(item.kind, TOUCH)


def _both(top: Pin, bottom: Pin, touched: Mapping[str, object]) -> bool:
    return not top.contact and not bottom.contact and {top.point, bottom.point} <= touched.keys()


def _plugs(item: Item, pins: list[Pin], touched: Mapping[str, object]) -> float:
    plugged = [pin for pin in pins if pin.contact]
    if not plugged:
        return 0.0
    bare = any(f"{item.id}.{pin.terminal}" in touched for pin in plugged)
    return TOUCH if bare else PLUG
