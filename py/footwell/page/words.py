"""Numbers, controls and faults in the words of the trade."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from footwell.checks.phases import phases
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.places import element_named, named, places, terminal_named, wires_named
from footwell.circuit.setup import SetupState
from footwell.faults.suspects import Repair
from footwell.sheet.models import SheetConnector, SheetControl
from footwell.sheet.points import number, seen_point

LIKELIHOOD = (
    (0.20, "hardly likely (1–20 %)"),
    (0.45, "unlikely (20–45 %)"),
    (0.55, "about even (45–55 %)"),
    (0.80, "likely (55–80 %)"),
    (0.95, "very likely (80–95 %)"),
    (1.01, "almost certain (95–99 %)"),
)


def likelihood(share: float) -> str:
    """The word for a share, with its range beside it.

    >>> likelihood(0.6)
    'likely (55–80 %)'
    """
    return next(words for top, words in LIKELIHOOD if share < top)


def percent(share: float) -> str:
    """A share for people: never 0 and never 100 %.

    >>> percent(0.999), percent(0.0001), percent(0.5)
    ('99 %', '1 %', '50 %')
    """
    return f"{min(max(round(share * 100), 1), 99)} %"


def volts(value: float) -> str:
    """A voltage with its unit, millivolts below half a volt.

    >>> volts(12.345), volts(0.0213), volts(-0.2)
    ('12.3 V', '21 mV', '−200 mV')
    """
    sign = "−" if value < 0 else ""
    size = abs(value)
    if size == 0.0 or size < 0.0005:
        return "0 V"
    if size < 0.5:
        return f"{sign}{size * 1000:.0f} mV" if size >= 0.01 else f"{sign}{size * 1000:.1f} mV"
    return f"{sign}{size:.2f} V" if size < 2 else f"{sign}{size:.1f} V"


def ohms(value: float) -> str:
    """A resistance with its unit.

    >>> ohms(0.31), ohms(0.02), ohms(4700), ohms(float("inf"))
    ('0.3 Ω', '20 mΩ', '4.7 kΩ', 'over range')
    """
    if math.isinf(value):
        return "over range"
    if value < 0.1:
        return f"{value * 1000:.0f} mΩ" if value >= 0.0005 else "0 Ω"
    for limit, unit in ((1e6, "MΩ"), (1e3, "kΩ")):
        if value >= limit:
            return f"{value / limit:.1f} {unit}"
    return f"{value:.1f} Ω" if value < 100 else f"{value:.0f} Ω"


def amps(value: float) -> str:
    """A current with its unit.

    >>> amps(6.72), amps(0.05), amps(-0.192)
    ('6.7 A', '50 mA', '−192 mA')
    """
    sign, size = "−" if value < 0 else "", abs(value)
    return f"{sign}{size:.1f} A" if size >= 0.5 else f"{sign}{size * 1000:.0f} mA"


def measured(value: float, unit: str) -> str:
    """A value in V, A or Ω for people."""
    if math.isinf(value):
        return "over range"
    return {"V": volts, "A": amps, "Ω": ohms}[unit](value)


def band(low: float, high: float, unit: str) -> str:
    """A band in V, A or Ω, both ends in one unit.

    >>> band(23.1, 24.6, "V"), band(0.015, 0.028, "V"), band(-0.001, 0.002, "V")
    ('23.1–24.6 V', '15–28 mV', 'about 0 V')
    >>> band(-0.02, 0.0, "V"), band(0.47, 0.52, "V"), band(-0.2, 0.2, "A"), band(55_800.0, 64_200.0, "Ω")
    ('−20 to 0 mV', '0.47–0.52 V', '−0.2 to 0.2 A', '55.8–64.2 kΩ')
    """
    size = max(abs(low), abs(high))
    if size < 0.004 and unit == "V":
        return "about 0 V"
    factor, name, digits = 1.0, unit, 1 if size >= 2 or unit != "V" else 2
    if unit == "V" and size < 0.5:
        factor, name, digits = 1e-3, "mV", 0
    elif unit == "Ω" and size >= 1e3:
        factor, name = (1e6, "MΩ") if size >= 1e6 else (1e3, "kΩ")
    ends = [
        f"{round(end / factor, digits) + 0.0:.{digits}f}".replace("-", "−") for end in (low, high)
    ]
    return f"{(' to ' if '−' in ''.join(ends) else '–').join(ends)} {name}"


def shown_limits(low: float, high: float, unit: str) -> tuple[float, float]:
    """Limits of a band (V, A or Ω) as they are shown: rounded, and never narrower than a meter's digit.

    >>> shown_limits(14.58, 15.93, "V"), shown_limits(-0.001, 0.002, "V")
    ((14.6, 15.9), (-0.004, 0.004))
    """
    size = max(abs(low), abs(high))
    if unit == "V" and size < 0.004:
        return -0.004, 0.004
    digits = band_digits(size, unit)
    return round(low, digits), round(high, digits)


def band_digits(size: float, unit: str) -> int:
    """Decimals of a band's limits in V, A or Ω: millivolts below half a volt."""
    if unit == "V" and size < 0.5:
        return 3
    return 1 if size >= 2 or unit != "V" else 2


def size_words(fault: Fault) -> str:
    """Size of a resistance fault, "" where the mode has none."""
    return f"about {ohms(fault.size)}" if (fault.mode.startswith("high_resistance")) else ""


def side_named(connector: SheetConnector, half: str) -> str:
    """What one half of a connector is called."""
    return connector.half_a if half == "a" else connector.half_b


def place_named(circuit: Circuit, place: str) -> str:
    """A place in words; a part or connector by its name."""
    found = places(circuit).get(place)
    if found is not None:
        return found.name
    if place in circuit.elements:
        return element_named(circuit, place)
    if place in circuit.connectors:
        return circuit.connectors[place].name
    if place in circuit.node_of:
        owner, _, terminal = place.partition(".")
        if owner in circuit.connectors:
            return _empty_way(circuit.connectors[owner], *terminal.split("."))
        return terminal_named(circuit, owner, terminal) if owner in circuit.values else place
    return place


def _empty_way(connector: SheetConnector, way: str, half: str) -> str:
    """A way in which the sheet has nothing, in words."""
    return f"empty way {number(connector, way)} of {connector.name}, {side_named(connector, half)}"


def two_places(circuit: Circuit, one: str, other: str) -> str:
    """Two places in words; two ways of one half of a connector name it once."""
    first, second = place_named(circuit, one), place_named(circuit, other)
    way, _, where = first.partition(" of ")
    alike = one.split(".")[::2] == other.split(".")[::2] and second.endswith(f" of {where}")
    return f"{way if alike else first} and {second}"


def short_named(circuit: Circuit, element: str) -> str:
    """The shortest name an electrician would know an element by."""
    found = circuit.elements.get(element)
    if found is None:
        return f"wiring of {element.split('.')[0]}"
    if found.kind.name == "wire":
        named_by = wires_named(circuit, element)
        return named_by if element in named_by else f"{named_by} wire ({element})"
    if found.kind.name == "contact":
        connector, way = seen_point(circuit.connectors, element).split(".")
        return f"{connector} way {way}"
    return named(found.name, element)


def fault_title(circuit: Circuit, fault: Fault) -> str:
    """A fault as a phrase: "resistor pack R1 open at its thermal fuse"."""
    element = circuit.elements[fault.element]
    return f"{short_named(circuit, fault.element)} {element.modes[fault.mode].title}"


def repair_title(circuit: Circuit, repair: Repair) -> str:
    """What a repair is about: the element's name alone."""
    return short_named(circuit, repair[0])


MANY_OFF = 3
"""So many controls that are off are told together: nobody reads eight names for the one that matters."""


def controls_words(circuit: Circuit, setup: SetupState) -> str:
    """Position of every control: "fan switch at 3"; many that are off together."""
    positions = dict(setup.controls)
    named = [(c.name, _position(c, positions)) for c in circuit.sheet.controls]
    together = sum(name == "off" for _, name in named) >= MANY_OFF
    spoken = [
        f"{control} {name}" if name in ("on", "off") else f"{control} at {name}"
        for control, name in named
        if not (together and name == "off")
    ]
    if together:
        spoken.append("everything else off" if spoken else "everything off")
    return " · ".join(spoken)


def _position(control: SheetControl, positions: Mapping[str, str]) -> str:
    """The name of the position that a control is in."""
    chosen = positions.get(control.part, control.off)
    return next((p.name for p in control.positions if p.id == chosen), chosen)


def condition(circuit: Circuit, setup: SetupState, plugged: str = "everything plugged in") -> str:
    """The whole set-up in one line; `plugged` is said of the plugs where the set-up takes none apart."""
    pieces = [controls_words(circuit, setup), *apart_words(circuit, setup, element_named)]
    if not setup.apart and plugged:
        pieces.append(plugged)
    pieces += [
        f"{watts:g} W lamp {'on' if held in circuit.connectors else 'in place of'} {held}"
        for held, watts in setup.stand_in
    ]
    pieces.append("engine running" if setup.engine == "on" else "engine off")
    if len(phases(circuit, setup)) > 1:
        pieces.append("readings are the average of PWM")
    return " · ".join(pieces)


def capital(text: str) -> str:
    """A text with a large first letter.

    >>> capital("fan motor M1"), capital("")
    ('Fan motor M1', '')
    """
    return text[:1].upper() + text[1:]


def apart_words(
    circuit: Circuit, setup: SetupState, name: Callable[[Circuit, str], str]
) -> list[str]:
    """What a set-up takes apart, elements by a way of naming them: "fan plug X2 unplugged", "F1 out"."""
    return [
        f"{circuit.connectors[each].name} unplugged"
        if each in circuit.connectors
        else f"{name(circuit, each)} out"
        for each in setup.apart
    ]


def joined_all(names: list[str]) -> str:
    """A list that holds as a whole.

    >>> joined_all(["a"]), joined_all(["a", "b", "c"])
    ('a', 'a, b and c')
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if names[1:] else names)


def joined(names: list[str], most: int = 3) -> str:
    """A list in words: "F1, W2 or 3 more".

    >>> joined(["a"]), joined(["a", "b"]), joined(["a", "b", "c", "d", "e"])
    ('a', 'a or b', 'a, b, c or 2 more')
    """
    if len(names) <= 1:
        return "".join(names)
    if len(names) <= most:
        return ", ".join(names[:-1]) + " or " + names[-1]
    return ", ".join(names[:most]) + f" or {len(names) - most} more"
