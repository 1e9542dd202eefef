"""The fields of a sheet in words: what they are and the unit their number is written in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """`what` completes "<what> not known"; `unit` follows the number, "" where there is none."""

    what: str
    unit: str = ""


_WORDS: Mapping[str, Words] = {
    "amps": Words("current", "A"),
    "beta": Words("beta", "K"),
    "celsius": Words("temperature", "°C"),
    "code": Words("lamp code"),
    "closed_when": Words("where the magnet closes it"),
    "coil_ohms": Words("coil resistance", "Ω"),
    "coils": Words("number of coils"),
    "colour": Words("colour"),
    "detects_open_load": Words("detection of an open load"),
    "asleep_amps": Words("current asleep", "A"),
    "awake_amps": Words("current awake", "A"),
    "both_ways": Words("suppresses both ways"),
    "charge": Words("state of charge", "%"),
    "d_plus": Words("charge lamp at D+"),
    "diode": Words("coil diode"),
    "duties": Words("duty", "%"),
    "end_share": Words("share of the track beyond the end of travel"),
    "hold_ohms": Words("hold winding", "Ω"),
    "pull_ohms": Words("pull winding", "Ω"),
    "high_amps": Words("current at high speed", "A"),
    "leds": Words("number of LEDs in a chain"),
    "limit_amps": Words("current limit", "A"),
    "load": Words("load that it drives"),
    "low_amps": Words("current at low speed", "A"),
    "metres": Words("length", "m"),
    "minutes": Words("time to reach it", "min"),
    "mm2": Words("cross-section", "mm²"),
    "ohms": Words("resistance", "Ω"),
    "ohms_25": Words("resistance at 25 °C", "Ω"),
    "ohms_at": Words("resistance in a position", "Ω"),
    "on_when": Words("where the magnet switches it on"),
    "pulls_to": Words("what the line is pulled up to"),
    "reads": Words("what the input reads"),
    "rating_amps": Words("current rating", "A"),
    "rating_watts": Words("power rating", "W"),
    "shuts_down": Words("shut-down on a short"),
    "steps_ohms": Words("resistance of a step", "Ω"),
    "terminated": Words("termination in the unit"),
    "talks": Words("messages that the others hear"),
    "table": Words("row of the table", "°C and Ω"),
    "system_volts": Words("nominal voltage", "V"),
    "terminal_mm": Words("terminal width", "mm"),
    "tolerance": Words("tolerance", "of the value"),
    "travels": Words("travel", "%"),
    "unplug_minutes": Words("time to unplug it", "min"),
    "volts": Words("voltage", "V"),
    "watts": Words("power", "W"),
    "wires": Words("number of wires"),
    "working_amps": Words("usual current", "A"),
}

_WORDS_OF_KIND: Mapping[tuple[str, str], Words] = {
    ("fuse", "amps"): Words("rating", "A"),
    ("relay", "resistor"): Words("coil resistor"),
    ("zener", "volts"): Words("breakdown voltage", "V"),
    ("glow_plug", "amps"): Words("current when warm", "A"),
    ("solenoid", "ohms"): Words("coil resistance", "Ω"),
    ("breaker", "amps"): Words("rating", "A"),
    ("module_input", "ohms"): Words("pull-up", "Ω"),
    ("double_potentiometer", "ohms"): Words("resistance of each track", "Ω"),
    ("potentiometer", "ohms"): Words("resistance of the track", "Ω"),
    ("output", "ohms"): Words("resistance when on", "Ω"),
    ("low_side_output", "ohms"): Words("resistance when on", "Ω"),
}


def words(field: str, kind: str = "") -> Words:
    """Words for a field, of a kind of part where it matters; its own name where none are listed.

    >>> words("amps", "fuse")
    Words(what='rating', unit='A')
    >>> words("landmark").what
    'landmark'
    """
    listed = _WORDS_OF_KIND.get((kind, field)) or _WORDS.get(field)
    return listed or Words(field.replace("_", " "))


def amount(value: float, unit: str) -> str:
    """A number with its unit as people write it.

    >>> amount(1.5, "mm²"), amount(3, "")
    ('1.5 mm²', '3')
    """
    return f"{value:g} {unit}".rstrip()
