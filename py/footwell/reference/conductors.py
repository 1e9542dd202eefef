"""Copper wire of vehicle harnesses: resistance, temperature, a guide to its current.

The resistance column of ISO 6722-1 is a maximum at 20 degC for bare copper. What a wire of a
vehicle really has is `typical_wire_ohms`; what it may have at most is `wire_ohms`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot, log, pi

from .ranges import log_log, require_between
from .sources import Figure, Source, Spread

_ISO_HIGH = Source("ISO 6722-1 conductor table, bare copper, maximum at 20 degC", "memory", "high")
_ISO_MEDIUM = Source(
    "ISO 6722-1 conductor table, bare copper, maximum at 20 degC", "memory", "medium"
)
_IEC_60028 = Source("IEC 60028, annealed copper", "memory", "high")
_FREE_AIR = Source(
    "Lessons In Electric Circuits vol. I ch. 12: one wire, 60 degC insulation, free air at 30 degC",
    "seen",
    "medium",
)
_MAKE = Source(
    "ISO 6722-1 gives a maximum; ideal copper of the same section lies 2 to 13 % below it",
    "derived",
    "medium",
)
_LAYING = Source(
    "wire temperatures of a vehicle at rest scatter by about 15 K", "assumption", "low"
)
_GUESSED_SECTION = Source(
    "one row up or down in the section list changes the resistance by a factor of 1.2 to 1.7",
    "derived",
    "medium",
)


@dataclass(frozen=True)
class Conductor:
    """One row: metric cross-section and its largest resistance at 20 degC."""

    section_mm2: float
    max_milliohms_per_metre: float
    source: Source


CONDUCTORS: Mapping[float, Conductor] = {
    section: Conductor(section, milliohms, source)
    for section, milliohms, source in (
        (0.13, 136.0, _ISO_MEDIUM),
        (0.22, 84.4, _ISO_MEDIUM),
        (0.35, 54.4, _ISO_MEDIUM),
        (0.5, 37.1, _ISO_HIGH),
        (0.75, 24.7, _ISO_HIGH),
        (1.0, 18.5, _ISO_HIGH),
        (1.25, 14.9, _ISO_MEDIUM),
        (1.5, 12.7, _ISO_HIGH),
        (2.0, 9.42, _ISO_MEDIUM),
        (2.5, 7.6, _ISO_HIGH),
        (3.0, 6.15, _ISO_MEDIUM),
        (4.0, 4.71, _ISO_HIGH),
        (5.0, 3.94, _ISO_MEDIUM),
        (6.0, 3.14, _ISO_HIGH),
        (8.0, 2.38, _ISO_MEDIUM),
        (10.0, 1.82, _ISO_HIGH),
        (12.0, 1.52, _ISO_MEDIUM),
        (16.0, 1.16, _ISO_HIGH),
        (20.0, 0.955, _ISO_MEDIUM),
        (25.0, 0.743, _ISO_HIGH),
        (30.0, 0.647, _ISO_MEDIUM),
        (35.0, 0.527, _ISO_HIGH),
        (40.0, 0.473, _ISO_MEDIUM),
        (50.0, 0.368, _ISO_HIGH),
        (60.0, 0.315, _ISO_MEDIUM),
        (70.0, 0.259, _ISO_MEDIUM),
        (95.0, 0.196, _ISO_MEDIUM),
        (120.0, 0.153, _ISO_MEDIUM),
    )
}

SMALLEST_MM2, LARGEST_MM2 = 0.13, 120.0

COPPER_RESISTIVITY = Figure(1 / 58, "ohm mm2/m", _IEC_60028)
COPPER_ALPHA = Figure(0.00393, "1/K", _IEC_60028)

FREE_AIR_AMPS_BY_AWG: Mapping[int, Figure] = {
    awg: Figure(amps, "A", _FREE_AIR)
    for awg, amps in (
        (20, 9.0),
        (18, 13.0),
        (16, 18.0),
        (14, 25.0),
        (12, 30.0),
        (10, 40.0),
        (8, 60.0),
        (6, 80.0),
        (4, 105.0),
    )
}

MAKE_FACTOR = Spread(0.94, 0.02, "of the table's maximum", _MAKE)
WIRE_CELSIUS = Spread(20.0, 15.0, "degC", _LAYING)
UNKNOWN_SECTION_RELATIVE_SIGMA = Figure(0.4, "of the resistance", _GUESSED_SECTION)
UNKNOWN_LENGTH_RELATIVE_SIGMA = Figure(
    0.3, "of the length", Source("lengths judged by eye along a loom", "assumption", "low")
)
DEFAULT_LENGTH_METRES = Figure(
    2.0, "m", Source("a run between two connectors of a vehicle", "assumption", "low")
)
DEFAULT_SECTION_MM2 = Figure(
    1.0, "mm2", Source("lamp and switch circuits of vehicles", "common practice", "medium")
)


def max_milliohms_per_metre(section_mm2: float) -> float:
    """Largest resistance of a metre of wire at 20 degC, in milliohms.

    Rows of ISO 6722-1; between rows straight lines on logarithmic axes, because resistance times
    section hardly changes. Range 0.13 to 120 mm2, ValueError outside.

    >>> max_milliohms_per_metre(1.5)
    12.7
    >>> round(max_milliohms_per_metre(3.5), 2)
    5.33
    """
    require_between("Cross-section", section_mm2, SMALLEST_MM2, LARGEST_MM2, "mm2")
    row = CONDUCTORS.get(section_mm2)
    if row is not None:
        return row.max_milliohms_per_metre
    return log_log(
        [(c.section_mm2, c.max_milliohms_per_metre) for c in CONDUCTORS.values()], section_mm2
    )


def ohms_at(ohms_at_20: float, celsius: float, alpha: float = COPPER_ALPHA.value) -> float:
    """Resistance at a temperature: R = R20 (1 + alpha (T - 20)), in ohms.

    alpha in 1/K, copper by default (IEC 60028). Good for metals from -60 to 250 degC, ValueError
    outside.

    >>> round(ohms_at(90.0, 85.0), 2)
    112.99
    """
    require_between("Temperature", celsius, -60.0, 250.0, "degC")
    return ohms_at_20 * (1 + alpha * (celsius - 20))


def wire_ohms(section_mm2: float, length_m: float, celsius: float = 20.0) -> float:
    """Largest resistance of a length of sound wire, in ohms (ISO 6722-1, IEC 60028).

    Section 0.13 to 120 mm2, length 0 to 1000 m, temperature -60 to 250 degC, ValueError outside.

    >>> wire_ohms(2.5, 4.0)
    0.0304
    """
    require_between("Length", length_m, 0.0, 1000.0, "m")
    return ohms_at(max_milliohms_per_metre(section_mm2) * length_m / 1000, celsius)


def typical_wire_ohms(section_mm2: float, length_m: float, celsius: float = 20.0) -> Spread:
    """Resistance that a sound wire has, in ohms: mean and standard deviation.

    The mean lies 6 % under the table's maximum. The spread joins that of make with that of a wire
    temperature nobody has measured. Ranges as in `wire_ohms`.

    >>> typical = typical_wire_ohms(2.5, 4.0)
    >>> round(typical.mean, 5), round(typical.relative_sigma, 3)
    (0.02858, 0.063)
    """
    mean = MAKE_FACTOR.mean * wire_ohms(section_mm2, length_m, celsius)
    relative = hypot(MAKE_FACTOR.relative_sigma, COPPER_ALPHA.value * WIRE_CELSIUS.sigma)
    return Spread(mean, mean * relative, "ohm", _MAKE)


def awg_section_mm2(awg: int) -> float:
    """Area of a solid American gauge wire in mm2; awg 36 to 0, and -1 for 2/0 and so on.

    d = 0.127 mm x 92^((36 - n) / 39), the definition of ASTM B258 (memory, high confidence).

    >>> round(awg_section_mm2(14), 3)
    2.081
    """
    require_between("Gauge", awg, -3, 36, "AWG")
    diameter: float = 0.127 * 92 ** ((36 - awg) / 39)
    return pi / 4 * diameter**2


def current_guide_amps(section_mm2: float) -> float:
    """Current that one wire in free air carries for good, in amps: a guide, never a limit.

    Lessons In Electric Circuits vol. I ch. 12 (seen, medium): copper, 60 degC insulation, free air
    at 30 degC, AWG 20 to 4 turned into mm2. A wire in a bundle carries less; vehicle insulation for
    85 degC and more carries more. Between rows log-log; beyond 0.52 and 21.2 mm2 with the exponent
    of the whole list (derived, low). Range 0.13 to 120 mm2, ValueError outside.

    >>> round(current_guide_amps(2.5), 1), round(current_guide_amps(6.0), 1)
    (26.9, 44.9)
    """
    require_between("Cross-section", section_mm2, SMALLEST_MM2, LARGEST_MM2, "mm2")
    return log_log(_CURRENT_GUIDE, section_mm2)


def section_for_amps(amps: float) -> float:
    """Smallest section of the table whose current guide carries the current, in mm2.

    For a wire whose section nobody has read; use it with `UNKNOWN_SECTION_RELATIVE_SIGMA`. Nothing
    under 0.5 mm2 is proposed, for loads are seldom fed by less (common practice). 0 to 331 A,
    ValueError above.

    >>> section_for_amps(20.0)
    2.0
    """
    require_between("Current", amps, 0.0, current_guide_amps(LARGEST_MM2), "A")
    return next(s for s in CONDUCTORS if s >= 0.5 and current_guide_amps(s) >= amps)


def _current_guide() -> tuple[tuple[float, float], ...]:
    listed = [(awg_section_mm2(awg), amps.value) for awg, amps in FREE_AIR_AMPS_BY_AWG.items()]
    (thin, few), (thick, many) = listed[0], listed[-1]
    exponent = log(many / few) / log(thick / thin)
    thinnest = (SMALLEST_MM2, few * (SMALLEST_MM2 / thin) ** exponent)
    thickest = (LARGEST_MM2, many * (LARGEST_MM2 / thick) ** exponent)
    return (thinnest, *listed, thickest)


_CURRENT_GUIDE = _current_guide()
