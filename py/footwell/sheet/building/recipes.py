"""The short list of parts: how the current goes through each, and what it is if nothing is known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, cast, get_args

from footwell.parts.twin_lamp import BASE, Code, TwinLamp, filaments
from footwell.sheet.building.steps import What
from footwell.sheet.starter import USUAL

Way = tuple[tuple[str, ...], tuple[str, ...]]
"""Terminals where the current comes in, and where it leaves."""

Known = Literal["amps", "watts", "ohms", ""]


@dataclass(frozen=True, slots=True)
class Recipe:
    """`ways` are the part's paths, the one that is met first in front; `known` the value that `amount`
    is. `plug`: its wires end in a plug or socket of its own."""

    kind: str
    letter: str
    name: str
    ways: tuple[Way, ...]
    known: Known = ""
    plug: bool = True
    load: bool = False
    by_name: bool = False
    values: tuple[tuple[str, Any], ...] = ()
    hazards: tuple[str, ...] = ()


_PLUS_MINUS: tuple[Way, ...] = ((("+",), ("-",)),)
_ONE_TWO: tuple[Way, ...] = ((("1",), ("2",)),)
_CONTACT: Way = (("30",), ("87",))
_CHANGEOVER: Way = (("30",), ("87", "87a"))
_COIL: Way = (("86",), ("85",))
_REVERSING: tuple[Way, ...] = ((("B",), ("1", "2")), ((), ("E",)))
"""Both sides of a motor rest on E; a position lifts one of them to B."""

RECIPES: Mapping[What, Recipe] = {
    "fuse": Recipe("fuse", "F", "fuse", _ONE_TWO, "amps", plug=False),
    "switch": Recipe("switch", "S", "switch", ()),
    "relay": Recipe("relay", "K", "relay", (_CONTACT, _COIL), by_name=True),
    "relay coil": Recipe("relay", "K", "relay", (_COIL, _CONTACT), by_name=True),
    "changeover relay": Recipe(
        "relay",
        "K",
        "changeover relay",
        (_CHANGEOVER, _COIL),
        by_name=True,
        values=(("changeover", True),),
    ),
    "twin-filament lamp": Recipe("twin_lamp", "L", "twin-filament lamp", (), load=True),
    "reversing switch": Recipe("switch", "S", "reversing switch", _REVERSING),
    "reversing motor": Recipe(
        "reversing_motor",
        "M",
        "motor",
        _PLUS_MINUS,
        "amps",
        load=True,
        hazards=("moving lock",),
    ),
    "lamp": Recipe("lamp", "L", "lamp", _ONE_TWO, "watts", load=True),
    "LED lamp": Recipe("led_lamp", "L", "LED lamp", _PLUS_MINUS, "watts", load=True),
    "fan": Recipe(
        "motor", "M", "fan motor", _PLUS_MINUS, "amps", load=True, hazards=("moving fan",)
    ),
    "pump": Recipe(
        "motor", "M", "pump", _PLUS_MINUS, "amps", load=True, values=(("load", "steady"),)
    ),
    "heater": Recipe(
        "heater", "R", "heater", _PLUS_MINUS, "watts", load=True, hazards=("hot part",)
    ),
    "horn": Recipe("horn", "H", "horn", _PLUS_MINUS, "amps", load=True),
    "valve": Recipe("solenoid", "Y", "valve", _ONE_TWO, "ohms", load=True),
    "resistor pack": Recipe("resistor_pack", "R", "resistor pack", (), hazards=("hot part",)),
    "resistor": Recipe("resistor", "R", "resistor", _ONE_TWO, "ohms", plug=False),
    "diode": Recipe("diode", "V", "diode", _PLUS_MINUS, plug=False),
    "not on the drawing": Recipe("unknown_stretch", "U", "unseen stretch", _ONE_TWO, plug=False),
}

WATTS: Mapping[What, float] = {
    "lamp": USUAL["lamp"].watts,
    "LED lamp": 5.0,
    "fan": USUAL["fan"].watts,
    "pump": USUAL["pump"].watts,
    "heater": USUAL["heater"].watts,
    "reversing motor": USUAL["lock or window"].watts,
}
"""Power (W) of a load of which neither its own nor its fuse's rating is known (common practice, no
source)."""

RESISTOR_OHMS = 1.0
"""A resistor of which nothing is known (assumption)."""


TWIN_CODE: Code = "P21/5W"
"""A lamp with two filaments of which nothing is known (assumption)."""


def twin(code: str) -> TwinLamp | None:
    """A lamp with two filaments by its category; the usual one for "", None for a category with one."""
    return TwinLamp(cast(Code, code or TWIN_CODE)) if code in ("", *get_args(Code)) else None


def ways_of(what: What, count: int, turned: bool, code: str = "") -> tuple[Way, ...]:
    """The paths through a part with `count` outlets or steps, turned where the current goes the other
    way."""
    lamp = twin(code) if what == "twin-filament lamp" else None
    if lamp is not None:
        return ((filaments(lamp), (BASE,)),)
    if what == "switch":
        ways: tuple[Way, ...] = ((("B",), tuple(str(n + 1) for n in range(count))),)
    elif what == "resistor pack":
        ways = ((tuple(f"in{n + 1}" for n in range(count)), ("out",)),)
    else:
        ways = RECIPES[what].ways
    return tuple((leave, come) for come, leave in ways) if turned else ways
