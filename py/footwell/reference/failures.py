"""How often each kind of part fails, and in which mode: weak priors, meant to be edited.

`HANDBOOK_SHARES` holds the published mode shares (MIL-HDBK-338B sec. 7.8, aerospace parts) in their
own words. `MODE_SHARES` holds what the core uses: the handbook's figures turned into modes of a
circuit where they fit, and figures of the trade where road vehicles differ, which is above all at
joints: there corrosion and high resistance dominate. Rates are ratios; 1 is one mated contact of a
vehicle connector. Compare kinds within a factor of about three, not closer.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from .sources import Source

Kind = Literal[
    "fuse",
    "wire",
    "contact",
    "splice",
    "earth_point",
    "switch",
    "relay_coil",
    "relay_contact",
    "resistor",
    "thermal_fuse",
    "diode",
    "lamp",
    "motor",
    "heater",
    "battery",
    "module_output",
    "led",
    "zener",
    "solenoid",
    "breaker",
    "generator",
    "horn",
    "thermistor",
    "potentiometer",
    "hall_switch",
    "reed_switch",
]

Mode = Literal[
    "open",
    "high_resistance",
    "short_across",
    "short_to_earth",
    "stuck_open",
    "stuck_closed",
    "open_common",
    "drift",
    "stiff",
    "seized",
    "worn_brushes",
    "weak",
    "short_cell",
    "sticking",
    "over_voltage",
    "short_diode",
    "worn_track",
]

_338B = "MIL-HDBK-338B sec. 7.8, failure mode distribution of parts"
_338B_MEMORY = Source(_338B, "memory", "medium")
_338B_LOW = Source(_338B, "memory", "low")
_338B_SEEN = Source(_338B + "; the lead-acid row read in a practitioner's guide", "seen", "high")
_217F = Source(
    "MIL-HDBK-217F Notice 2 appendix A, ground mobile, before quality factors", "seen", "medium"
)
_217F_MEMORY = Source("MIL-HDBK-217F appendix A, rotating devices, ground mobile", "memory", "low")
_GUIDE = Source("a reliability practitioner's guide, table A-1, ground mobile", "seen", "high")
_ROAD = Source("common practice, no source: road vehicles, editable", "common practice", "low")
_SPLIT = Source(_338B + ", split between modes by assumption", "derived", "low")
_SENSOR = Source("switches with a magnet, by assumption", "assumption", "low")
_MOTOR = Source("built from the AC motor and synchro rows of " + _338B, "assumption", "low")


@dataclass(frozen=True)
class Rate:
    """Relative failure rate of one part, and failures per million hours where a handbook has it."""

    relative: float
    handbook_per_million_hours: float | None
    source: Source


@dataclass(frozen=True)
class Shares:
    """Shares of the modes of one kind of part; they sum to 1."""

    shares: Mapping[Mode, float]
    source: Source


HANDBOOK_SHARES: Mapping[str, Mapping[str, float]] = {
    "battery, lead-acid": {"degraded output": 0.70, "short": 0.20, "intermittent output": 0.10},
    "fuse": {"fails to open": 0.49, "slow to open": 0.43, "premature open": 0.08},
    "relay": {"fails to trip": 0.55, "spurious trip": 0.26, "short": 0.19},
    "switch, toggle": {"open": 0.65, "sticking": 0.19, "short": 0.16},
    "switch, rotary": {"improper output": 0.53, "contact failure": 0.47},
    "switch, thermal": {"parameter change": 0.63, "open": 0.27, "no control": 0.08, "short": 0.02},
    "connector": {"open": 0.61, "poor contact": 0.23, "short": 0.16},
    "cable": {"short": 0.45, "excessive wear": 0.36, "open": 0.19},
    "resistor, wirewound": {"open": 0.65, "parameter change": 0.26, "short": 0.09},
    "resistor, variable": {"open": 0.53, "erratic output": 0.40, "short": 0.07},
    "thermistor": {"open": 0.63, "parameter change": 0.22, "short": 0.15},
    "diode, general": {"short": 0.49, "open": 0.36, "parameter change": 0.15},
    "coil": {"short": 0.42, "open": 0.42, "change in value": 0.16},
    "lamp, filament": {"no illumination": 0.67, "loss of illumination": 0.33},
    "motor, AC": {
        "winding failure": 0.31,
        "bearing failure": 0.28,
        "fails to run after start": 0.23,
        "fails to start": 0.18,
    },
    "module": {"no output": 0.52, "incorrect output": 0.48},
    "LED": {"open": 0.70, "short": 0.30},
    "diode, zener regulator": {"open": 0.45, "parameter change": 0.35, "short": 0.20},
    "solenoid": {"short": 0.52, "slow movement": 0.43, "open": 0.05},
    "circuit breaker": {"opens without stimuli": 0.51, "does not open": 0.49},
    "generator": {
        "degraded output": 0.60,
        "no output": 0.22,
        "fails to run after start": 0.09,
        "loss of control": 0.09,
    },
}

# Why a row differs from the handbook stands beside it.
MODE_SHARES: Mapping[Kind, Shares] = {
    # The handbook speaks of a fuse failing to protect; what is found in a vehicle is an open one.
    "fuse": Shares({"open": 0.9, "high_resistance": 0.1}, _ROAD),
    # Opens are more frequent than shorts in systems that used to work (Lessons In Electric Circuits
    # vol. V ch. 8, seen); the handbook has shorts first and counts wear that has not failed yet.
    "wire": Shares({"open": 0.45, "high_resistance": 0.25, "short_to_earth": 0.3}, _ROAD),
    "contact": Shares({"high_resistance": 0.6, "open": 0.3, "short_to_earth": 0.1}, _ROAD),
    "splice": Shares({"high_resistance": 0.55, "open": 0.4, "short_to_earth": 0.05}, _ROAD),
    "earth_point": Shares({"high_resistance": 0.75, "open": 0.25}, _ROAD),
    # Open 0.65 split into one way, the common way and a burnt contact; sticking and short joined.
    "switch": Shares(
        {"open": 0.38, "high_resistance": 0.2, "open_common": 0.07, "stuck_closed": 0.35}, _SPLIT
    ),
    "relay_coil": Shares({"open": 0.42, "short_across": 0.42, "drift": 0.16}, _338B_MEMORY),
    # Fails to trip less the coil's part (0.45, halved) and spurious trip 0.26, scaled to 1.
    "relay_contact": Shares(
        {"stuck_open": 0.32, "high_resistance": 0.31, "stuck_closed": 0.37}, _SPLIT
    ),
    "resistor": Shares({"open": 0.65, "drift": 0.26, "short_across": 0.09}, _338B_MEMORY),
    # Thermal switch row: a one-shot limiter whose trip point moved is an open one.
    "thermal_fuse": Shares({"open": 0.9, "stuck_closed": 0.1}, _SPLIT),
    "diode": Shares({"short_across": 0.49, "open": 0.36, "drift": 0.15}, _338B_MEMORY),
    # Filament lamps fail open in practice; the handbook's third of dim lamps is not seen.
    "lamp": Shares({"open": 0.92, "drift": 0.05, "short_across": 0.03}, _ROAD),
    "motor": Shares(
        {
            "worn_brushes": 0.4,
            "stiff": 0.22,
            "seized": 0.08,
            "open": 0.1,
            "short_across": 0.1,
            "high_resistance": 0.1,
        },
        _MOTOR,
    ),
    "heater": Shares({"open": 0.65, "drift": 0.26, "short_across": 0.09}, _338B_LOW),
    "battery": Shares({"weak": 0.7, "short_cell": 0.2, "open": 0.1}, _338B_SEEN),
    # Incorrect output 0.48 split evenly into always on and weak.
    "module_output": Shares(
        {"stuck_open": 0.52, "stuck_closed": 0.24, "high_resistance": 0.24}, _SPLIT
    ),
    "led": Shares({"open": 0.7, "short_across": 0.3}, _338B_MEMORY),
    # Lessons In Electric Circuits vol. III ch. 3 (seen): one that took too much mostly fails shorted,
    # against the handbook's 0.2.
    "zener": Shares({"short_across": 0.45, "open": 0.35, "drift": 0.2}, _SPLIT),
    "solenoid": Shares({"short_across": 0.52, "sticking": 0.43, "open": 0.05}, _338B_MEMORY),
    "breaker": Shares({"open": 0.51, "stuck_closed": 0.49}, _338B_MEMORY),
    # Fails to run 0.09 goes to no output; a sixth of degraded output is a shorted diode.
    "generator": Shares(
        {"weak": 0.5, "open": 0.31, "short_diode": 0.1, "over_voltage": 0.09}, _SPLIT
    ),
    # Sits in the wet, with a contact that makes and breaks hundreds of times a second.
    "horn": Shares(
        {"high_resistance": 0.35, "open": 0.35, "sticking": 0.25, "short_across": 0.05}, _ROAD
    ),
    "thermistor": Shares({"open": 0.63, "drift": 0.22, "short_across": 0.15}, _338B_MEMORY),
    "potentiometer": Shares({"open": 0.53, "worn_track": 0.4, "short_across": 0.07}, _338B_MEMORY),
    "hall_switch": Shares({"stuck_open": 0.7, "stuck_closed": 0.3}, _SENSOR),
    "reed_switch": Shares({"open": 0.4, "high_resistance": 0.15, "stuck_closed": 0.45}, _SENSOR),
}

# Lamp: 38 for full-time burning, times a duty of 0.1. Relay: 2.1, of which 0.29 goes to the coil:
# its short 0.19 and, by assumption, 0.10 of its fails to trip 0.55.
RATES: Mapping[Kind, Rate] = {
    "fuse": Rate(0.5, 0.08, _ROAD),
    "wire": Rate(0.5, None, _ROAD),
    "contact": Rate(1.0, 0.11, _ROAD),
    "splice": Rate(1.0, 0.018, _ROAD),
    "earth_point": Rate(2.0, None, _ROAD),
    "switch": Rate(1.0, 0.018, _ROAD),
    "relay_coil": Rate(0.6, 0.6, _217F),
    "relay_contact": Rate(1.5, 1.5, _217F),
    "resistor": Rate(
        1.6, 1.6, Source(_217F.title + ", but commercial wirewound", "seen", "medium")
    ),
    "thermal_fuse": Rate(
        1.7, 1.7, Source(_217F.title + ", thermal circuit breaker", "seen", "low")
    ),
    "diode": Rate(0.27, 0.27, Source(_217F.title + ", but commercial", "seen", "medium")),
    "lamp": Rate(3.8, 38.0, _217F),
    "motor": Rate(3.3, 3.3, _217F_MEMORY),
    "heater": Rate(1.6, 1.6, Source(_217F.title + ", but commercial wirewound", "seen", "low")),
    "battery": Rate(1.25, 1.25, _GUIDE),
    "module_output": Rate(1.0, 4.8, _ROAD),
    "led": Rate(0.4, None, _ROAD),
    "zener": Rate(0.27, None, Source("taken as that of other diodes", "assumption", "low")),
    "solenoid": Rate(1.0, None, _ROAD),
    "breaker": Rate(1.7, 1.7, Source(_217F.title + ", thermal circuit breaker", "seen", "medium")),
    "generator": Rate(9.0, 9.0, Source(_GUIDE.title + ": alternator", "seen", "high")),
    "horn": Rate(2.0, None, _ROAD),
    "thermistor": Rate(1.4, 1.4, _217F),
    "potentiometer": Rate(
        3.5, 3.5, Source(_217F.title + ", but commercial wirewound", "seen", "medium")
    ),
    "hall_switch": Rate(1.0, None, _SENSOR),
    "reed_switch": Rate(1.0, None, _SENSOR),
}

WRONG_PART = Rate(
    0.1, None, Source("a part of another family fitted by mistake", "assumption", "low")
)
"""Rate of the mode "wrong part" of any kind that is sold in look-alikes."""


def relative_rate(kind: Kind) -> float:
    """Failure rate of one part against that of one mated connector contact; no unit.

    >>> relative_rate("contact"), relative_rate("earth_point")
    (1.0, 2.0)
    """
    return RATES[_known(kind)].relative


def mode_shares(kind: Kind) -> dict[Mode, float]:
    """Share of each mode among the failures of a kind of part; the shares sum to 1.

    >>> mode_shares("resistor")
    {'open': 0.65, 'drift': 0.26, 'short_across': 0.09}
    """
    return dict(MODE_SHARES[_known(kind)].shares)


def _known(kind: Kind) -> Kind:
    if kind not in RATES:
        raise ValueError(
            f"No failure data for parts of kind {kind!r}; the table lists {', '.join(RATES)}."
        )
    return kind
