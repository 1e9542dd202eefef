"""Filament lamps of UN Regulation 37, and how current and light follow the voltage.

The law of current, for any voltage from 0 V to about 1.3 times the rated one:

    I(V) = G V / (1 + (V / Vk)^2)^((1 - 0.55) / 2)

    G  = ratio W0 / V0^2                      conductance of the cold filament, in siemens
    Vk = V0 / sqrt(ratio^(2 / (1 - 0.55)) - 1)  voltage at which the filament begins to warm, in volts

so that I(V0) = W0 / V0, the slope at 0 V is that of the cold filament, and near the rated voltage the
current goes with (V / V0)^0.55. It is smooth, odd and rising everywhere. In a general-purpose circuit
simulator it is one behavioural source between nets a and b:

    B1 a b I = G * V(a,b) / (1 + (V(a,b) / Vk)^2)^0.225
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pow, sqrt
from typing import Literal

from .ranges import require_between
from .sources import Confidence, Figure, Source

Light = Literal["dark", "glow", "dim", "normal", "bright"]

_HANDBOOK = Source("Standard Handbook for Electrical Engineers, 11th ed., p. 22-8", "seen", "high")
_RATIO = Source(
    "lighting handbooks; resistivity of tungsten at 2500 K and 2900 K over 20 degC", "memory", "medium"
)
_EYES = Source(
    "what people call a lamp: a glow in daylight from a sixth of the voltage, normal while charging",
    "common practice",
    "low",
)
_TYPICAL = Source("UN R37 states a maximum; the typical lamp is taken 5 % below it", "assumption", "medium")

CURRENT_EXPONENT = Figure(0.55, "I/I0 = (V/V0)^n", _HANDBOOK)
POWER_EXPONENT = Figure(1.6, "P/P0 = (V/V0)^n, rounded in print: 1 + 0.55 = 1.55", _HANDBOOK)
FLUX_EXPONENT = Figure(3.4, "F/F0 = (V/V0)^n", _HANDBOOK)
LIFE_EXPONENT = Figure(-12.0, "L/L0 = (V/V0)^n", _HANDBOOK)
HOT_OVER_COLD = Figure(12.0, "R hot / R at 20 degC; signal lamps 10 to 12, halogen 12 to 16", _RATIO)
HOT_OVER_COLD_HALOGEN = Figure(14.0, "R hot / R at 20 degC", _RATIO)
POWER_RELATIVE_SIGMA = Figure(0.04, "of the power", _TYPICAL)

_BEND = (1 - CURRENT_EXPONENT.value) / 2

# Upper bound of the light share for each word; a 12 V lamp: 1.9 V, 5.0 V, 10.3 V and 15.1 V.
LIGHT_WORDS: tuple[tuple[Light, float], ...] = (
    ("dark", 0.002),
    ("glow", 0.05),
    ("dim", 0.6),
    ("normal", 2.2),
)
LIGHT_WORDS_SOURCE = _EYES


@dataclass(frozen=True)
class Lamp:
    """One filament of a lamp category: rating, and the most it may take at the test voltage."""

    category: str
    filament: str
    rated_volts: float
    rated_watts: float
    test_volts: float
    max_watts_at_test: float
    lumens_at_test: float
    source: Source

    @property
    def is_halogen(self) -> bool:
        """Halogen lamps run hotter and so have the larger ratio of hot to cold resistance."""
        return self.category.startswith("H")

    @property
    def hot_over_cold(self) -> float:
        """Resistance hot over resistance at 20 degC."""
        return (HOT_OVER_COLD_HALOGEN if self.is_halogen else HOT_OVER_COLD).value

    @property
    def typical_watts_at_test(self) -> float:
        """Power of the usual lamp at the test voltage, in watts: use it with `test_volts` in `lamp_amps`.

        Some categories, H7 among them, would exceed their own maximum if scaled up from the rated watts.

        >>> round(lamp("H7", 12).typical_watts_at_test, 1)
        55.1
        """
        return 0.95 * self.max_watts_at_test


def _r37(confidence: Confidence) -> Source:
    return Source("UN Regulation 37, category sheet", "memory", confidence)


_R37_HIGH, _R37_MEDIUM = _r37("high"), _r37("medium")
_R37_SEEN = Source("UN Regulation 37, proposal ECE/TRANS/WP.29/GRE/2012/34, sheet PY21/5W", "seen", "high")
_BY_TRUST = {"h": _R37_HIGH, "m": _R37_MEDIUM, "s": _R37_SEEN}

# Category, filament, rated V, rated W, test V, most W at test V, lumens at test V, trust.
_ROWS = (
    ("W3W", "", 12, 3, 13.5, 3.85, 22, "m"),
    ("W3W", "", 24, 3, 28, 4.6, 22, "m"),
    ("W5W", "", 12, 5, 13.5, 5.5, 50, "h"),
    ("W5W", "", 24, 5, 28, 7, 50, "m"),
    ("WY5W", "", 12, 5, 13.5, 5.5, 30, "m"),
    ("WY5W", "", 24, 5, 28, 7, 30, "m"),
    ("C5W", "", 12, 5, 13.5, 5.5, 45, "h"),
    ("C5W", "", 24, 5, 28, 7, 45, "m"),
    ("R5W", "", 12, 5, 13.5, 5.5, 50, "h"),
    ("R5W", "", 24, 5, 28, 7, 50, "m"),
    ("R10W", "", 12, 10, 13.5, 11, 125, "h"),
    ("R10W", "", 24, 10, 28, 14, 125, "m"),
    ("T4W", "", 12, 4, 13.5, 4.4, 35, "m"),
    ("T4W", "", 24, 4, 28, 5.5, 35, "m"),
    ("P21W", "", 12, 21, 13.5, 26.5, 460, "h"),
    ("P21W", "", 24, 21, 28, 29.7, 460, "m"),
    ("PY21W", "", 12, 21, 13.5, 26.5, 280, "h"),
    ("PY21W", "", 24, 21, 28, 29.7, 280, "m"),
    ("P21/5W", "major", 12, 21, 13.5, 26.5, 440, "h"),
    ("P21/5W", "minor", 12, 5, 13.5, 6.6, 35, "h"),
    ("P21/5W", "major", 24, 21, 28, 29.7, 440, "m"),
    ("P21/5W", "minor", 24, 5, 28, 10, 40, "m"),
    ("P21/4W", "major", 12, 21, 13.5, 26.5, 440, "m"),
    ("P21/4W", "minor", 12, 4, 13.5, 5.5, 15, "m"),
    ("P21/4W", "major", 24, 21, 28, 29.7, 440, "m"),
    ("P21/4W", "minor", 24, 4, 28, 8.8, 20, "m"),
    ("PY21/5W", "major", 12, 21, 13.5, 26.5, 270, "s"),
    ("PY21/5W", "minor", 12, 5, 13.5, 6.6, 21, "s"),
    ("W16W", "", 12, 16, 13.5, 21.35, 310, "m"),
    ("W21W", "", 12, 21, 13.5, 26.5, 460, "h"),
    ("W21/5W", "major", 12, 21, 13.5, 26.5, 440, "h"),
    ("W21/5W", "minor", 12, 5, 13.5, 6.6, 35, "h"),
    ("P27W", "", 12, 27, 13.5, 32.1, 475, "m"),
    ("H21W", "", 12, 21, 13.5, 26.95, 600, "m"),
    ("H21W", "", 24, 21, 28, 29.4, 600, "m"),
    ("H6W", "", 12, 6, 13.5, 7.35, 125, "m"),
    ("H1", "", 12, 55, 13.2, 68, 1550, "h"),
    ("H1", "", 24, 70, 28, 84, 1900, "h"),
    ("H3", "", 12, 55, 13.2, 68, 1450, "h"),
    ("H3", "", 24, 70, 28, 84, 1750, "h"),
    ("H4", "main", 12, 60, 13.2, 75, 1650, "h"),
    ("H4", "dip", 12, 55, 13.2, 68, 1000, "h"),
    ("H4", "main", 24, 75, 28, 85, 1900, "h"),
    ("H4", "dip", 24, 70, 28, 80, 1200, "h"),
    ("H7", "", 12, 55, 13.2, 58, 1500, "h"),
    ("H7", "", 24, 70, 28, 75, 1750, "h"),
    ("H8", "", 12, 35, 13.2, 43, 800, "m"),
    ("H9", "", 12, 65, 13.2, 73, 2100, "m"),
    ("H11", "", 12, 55, 13.2, 62, 1350, "h"),
    ("H11", "", 24, 70, 28, 80, 1600, "m"),
    ("HB3", "", 12, 60, 13.2, 73, 1860, "h"),
    ("HB4", "", 12, 51, 13.2, 62, 1095, "h"),
)

LAMPS: Mapping[tuple[str, float, str], Lamp] = {
    (category, volts, filament): Lamp(category, filament, volts, watts, test, most, flux, _BY_TRUST[trust])
    for category, filament, volts, watts, test, most, flux, trust in _ROWS
}


def lamp(category: str, rated_volts: float, filament: str = "") -> Lamp:
    """The row of a lamp; filament is major, minor, main or dip where a lamp has two.

    >>> lamp("P21/5W", 12, "minor").rated_watts
    5
    >>> lamp("W16W", 24)
    Traceback (most recent call last):
    ...
    ValueError: No W16W lamp for 24 V in the table; it lists W16W 12 V.
    """
    row = LAMPS.get((category, rated_volts, filament))
    if row is None:
        asked = f"{category} {filament}".strip()
        raise ValueError(f"No {asked} lamp for {rated_volts:g} V in the table; it lists {_listed(category)}.")
    return row


def _listed(category: str) -> str:
    same = [row for row in LAMPS.values() if row.category == category]
    if not same:
        return ", ".join(dict.fromkeys(row.category for row in LAMPS.values()))
    return ", ".join(f"{r.category} {r.filament} {r.rated_volts:g} V".replace("  ", " ") for r in same)


@dataclass(frozen=True)
class LampLaw:
    """The two constants of the law: G in siemens and Vk in volts."""

    cold_siemens: float
    knee_volts: float


def lamp_law(rated_volts: float, rated_watts: float, hot_over_cold: float = HOT_OVER_COLD.value) -> LampLaw:
    """G and Vk of a lamp that takes rated_watts at rated_volts.

    rated_volts 1 to 60 V, rated_watts 0.1 to 1000 W, hot_over_cold 2 to 30; ValueError outside.

    >>> law = lamp_law(12, 21)
    >>> round(law.cold_siemens, 2), round(law.knee_volts, 3)
    (1.75, 0.048)
    """
    require_between("Rated voltage", rated_volts, 1, 60, "V")
    require_between("Rated power", rated_watts, 0.1, 1000, "W")
    require_between("Ratio of hot to cold resistance", hot_over_cold, 2, 30, "")
    knee = rated_volts / sqrt(hot_over_cold ** (1 / _BEND) - 1)
    return LampLaw(hot_over_cold * rated_watts / rated_volts**2, knee)


def lamp_amps(
    volts: float, rated_volts: float, rated_watts: float, hot_over_cold: float = HOT_OVER_COLD.value
) -> float:
    """Steady current of a filament lamp in amps; the sign follows that of the voltage.

    Law in the head of this module; 0 V to 1.3 times the rated voltage. Exponent: Standard Handbook for
    Electrical Engineers (seen); ratio hot to cold: memory, medium. The same ranges as `lamp_law`.

    >>> round(lamp_amps(12.0, 12.0, 21.0), 3), round(lamp_amps(6.0, 12.0, 21.0), 3)
    (1.75, 1.195)
    """
    law = lamp_law(rated_volts, rated_watts, hot_over_cold)
    return law.cold_siemens * volts / pow(1 + (volts / law.knee_volts) ** 2, _BEND)


def lamp_siemens(
    volts: float, rated_volts: float, rated_watts: float, hot_over_cold: float = HOT_OVER_COLD.value
) -> float:
    """Slope dI/dV of `lamp_amps` in siemens, for Newton's method; always above zero.

    >>> round(lamp_siemens(0.0, 12.0, 21.0), 3), round(lamp_siemens(12.0, 12.0, 21.0), 3)
    (1.75, 0.08)
    """
    law = lamp_law(rated_volts, rated_watts, hot_over_cold)
    square = (volts / law.knee_volts) ** 2
    return law.cold_siemens * (1 + (1 - 2 * _BEND) * square) / pow(1 + square, 1 + _BEND)


def cold_lamp_ohms(
    rated_volts: float, rated_watts: float, hot_over_cold: float = HOT_OVER_COLD.value
) -> float:
    """What an ohmmeter reads on the sound lamp at 20 degC, in ohms.

    >>> round(cold_lamp_ohms(12, 21), 2)
    0.57
    """
    return 1 / lamp_law(rated_volts, rated_watts, hot_over_cold).cold_siemens


def light_share(volts: float, rated_volts: float) -> float:
    """Light against that at rated voltage: (V / V0)^3.4 (Standard Handbook for Electrical Engineers, seen).

    Good near the rated voltage; far below it only an order of magnitude.

    >>> round(light_share(10.8, 12.0), 2)
    0.7
    """
    return pow(abs(volts) / rated_volts, FLUX_EXPONENT.value)


def light_word(share: float) -> Light:
    """The word a person uses for a share of the rated light (common practice, no source).

    >>> [light_word(light_share(volts, 12.0)) for volts in (1.0, 3.0, 8.0, 12.0, 14.4, 24.0)]
    ['dark', 'glow', 'dim', 'normal', 'normal', 'bright']
    """
    return next((word for word, most in LIGHT_WORDS if share < most), "bright")
