"""The few words that stand in the diagram, in short lines."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from footwell.circuit.circuit import Circuit, Element
from footwell.parts.base import Context
from footwell.parts.fuse import Fuse
from footwell.parts.motor import Motor
from footwell.parts.resistor import Resistor
from footwell.parts.two_speed_motor import TwoSpeedMotor
from footwell.sheet.models import SheetWire
from footwell.sheet.points import seen_point

LINE_WIDTH = 1.2
"""Width in grid units that a name is broken to, unless a word is longer."""

LINE = 0.37
"""Height of one line in grid units: 16 px beside squares of 44 px."""

NARROW, WIDE, CAPITAL, OTHER = 0.12, 0.29, 0.22, 0.19
"""Widths of characters in grid units: 14 px type of a wide system face beside squares of 44 px."""


def width(lines: tuple[str, ...]) -> float:
    """Width of a block of lines in grid units."""
    return max((sum(_character(c) for c in line) for line in lines), default=0.0)


def _character(c: str) -> float:
    if c in "ijltfr.,/ ":
        return NARROW
    if c in "mwMW":
        return WIDE
    return CAPITAL if c.isupper() else OTHER


def part_lines(element: Element, context: Context) -> tuple[str, ...]:
    """A part's id, its size where the sheet gives one, and its name without the id."""
    size = _size(element, context)
    name = " ".join(word for word in element.name.split() if word != element.id)
    return (element.id, *((size,) if size else ()), *_broken(name))


def way_lines(circuit: Circuit, contact: str) -> tuple[str, ...]:
    """Connector and way as the trade writes them: "X3/2"."""
    return (seen_point(circuit.connectors, contact).replace(".", "/", 1),)


def wire_lines(wire: SheetWire) -> tuple[str, ...]:
    """Colour, and cross-section in mm² as a bare number, as far as they are known."""
    section = f"{wire.mm2:g}" if wire.mm2 is not None else ""
    return tuple(line for line in (wire.colour or "", section) if line)


def fold_lines(circuit: Circuit, names: Sequence[str], working: Collection[str]) -> tuple[str, ...]:
    """What stands in a fold and how it is with it: "3 more", "lamps", "fine"."""
    count, what = _counted(circuit, names)
    return (f"{count} more", what, *_broken(_verdict(circuit, names, working)))


def fold_name(circuit: Circuit, names: Sequence[str], working: Collection[str]) -> str:
    """The words of a fold in one line, with its loads by name."""
    count, what = _counted(circuit, names)
    loads = ", ".join(_loads(circuit, names))
    named = f" ({loads})" if loads else ""
    return f"{count} more {what}{named}: {_verdict(circuit, names, working)}"


def _counted(circuit: Circuit, names: Sequence[str]) -> tuple[int, str]:
    loads = _loads(circuit, names)
    kinds = {_plain(circuit, load) for load in loads}
    if not loads:
        parts = sum(part.id in set(names) for part in circuit.sheet.parts)
        return parts, "part" if parts == 1 else "parts"
    what = kinds.pop() if len(kinds) == 1 else "load"
    return len(loads), what if len(loads) == 1 else f"{what}s"


def _plain(circuit: Circuit, load: str) -> str:
    """The trade's word for a load, whatever its inside: "lamp" for a twin lamp too."""
    return circuit.elements[load].kind.name.replace("_", " ").split()[-1]


def _loads(circuit: Circuit, names: Sequence[str]) -> list[str]:
    """The loads that people are asked about; where there are none, all that they could notice."""
    asked = [load for load in circuit.sheet.loads if load in set(names)]
    return asked or [n for n in names if n in circuit.elements and _is_load(circuit.elements[n])]


def _is_load(element: Element) -> bool:
    return element.kind.seen_as not in ("", "click", "charge", "signal", "messages")


def _verdict(circuit: Circuit, names: Sequence[str], working: Collection[str]) -> str:
    """ "fine" only of loads that were all seen to work."""
    loads = _loads(circuit, names)
    return "fine" if loads and set(loads) <= set(working) else "no suspect"


def step_lines(ohms: float) -> tuple[str, ...]:
    return (f"{ohms:g} Ω",)


def closing_line(circuit: Circuit, element: Element, states: list[str]) -> str:
    """The positions that close a contact, in the words of its control where they are short."""
    names = {
        p.id: p.name
        for control in circuit.sheet.controls
        if control.part == element.id
        for p in control.positions
    }
    words = [names.get(state, state) for state in states]
    short = ", ".join(
        word if width((word,)) < LINE_WIDTH else state
        for word, state in zip(words, states, strict=True)
    )
    return short if width((short,)) < LINE_WIDTH or not states[1:] else f"{states[0]}…"


def _broken(text: str) -> list[str]:
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and width((longer,)) > LINE_WIDTH:
            lines.append(word)
        else:
            lines[-1] = longer
    return [line for line in lines if line]


def _size(element: Element, context: Context) -> str:
    match element.values:
        case Fuse(amps=amps) if amps is not None:
            return f"{amps:g} A"
        case Motor(amps=amps) | TwoSpeedMotor(high_amps=amps):
            return f"{amps:g} A"
        case object(watts=watts) if watts:
            return f"{watts:g} W"
        case Resistor(ohms=ohms):
            return f"{ohms:g} Ω"
    return f"{context.system_volts} V" if element.kind.name in ("battery", "second_battery") else ""
