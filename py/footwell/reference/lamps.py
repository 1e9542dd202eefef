"""Filament lamps: how current and light follow the voltage.

The law of current, for any voltage from 0 V to about 1.3 times the rated one:

    I(V) = G V / (1 + (V / Vk)^2)^((1 - 0.55) / 2)

    G  = ratio W0 / V0^2                        conductance of the cold filament, in siemens
    Vk = V0 / sqrt(ratio^(2 / (1 - 0.55)) - 1)  voltage where the filament begins to warm, in V

so that I(V0) = W0 / V0, the slope at 0 V is that of the cold filament, and near the rated voltage
the current goes with (V / V0)^0.55. It is smooth, odd and rising everywhere. In a general-purpose
circuit simulator it is one behavioural source between nets a and b:

    B1 a b I = G * V(a,b) / (1 + (V(a,b) / Vk)^2)^0.225

Against the resistivity of tungsten the law is within 10 % from a fifth of the rated voltage up, and
11 % too high at a tenth.
"""

from dataclasses import dataclass
from math import pow, sqrt
from typing import Literal

from .ranges import require_between
from .sources import Figure, Source

Light = Literal["dark", "glow", "dim", "normal", "bright"]

_HANDBOOK = Source("Standard Handbook for Electrical Engineers, 11th ed., p. 22-8", "seen", "high")
_RATIO = Source(
    "lighting handbooks; resistivity of tungsten at 2500 K and 2900 K over 20 degC",
    "memory",
    "medium",
)
_EYES = Source(
    "a glow shows in daylight from a sixth of the voltage; normal includes charging",
    "common practice",
    "low",
)
CURRENT_EXPONENT = Figure(0.55, "I/I0 = (V/V0)^n", _HANDBOOK)
POWER_EXPONENT = Figure(1.6, "P/P0 = (V/V0)^n, rounded in print: 1 + 0.55 = 1.55", _HANDBOOK)
FLUX_EXPONENT = Figure(3.4, "F/F0 = (V/V0)^n", _HANDBOOK)
LIFE_EXPONENT = Figure(-12.0, "L/L0 = (V/V0)^n", _HANDBOOK)
HOT_OVER_COLD = Figure(
    12.0, "R hot / R at 20 degC; signal lamps 10 to 12, halogen 12 to 16", _RATIO
)
HOT_OVER_COLD_HALOGEN = Figure(14.0, "R hot / R at 20 degC", _RATIO)

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
class LampLaw:
    """The two constants of the law: G in siemens and Vk in volts."""

    cold_siemens: float
    knee_volts: float


def lamp_law(
    rated_volts: float, rated_watts: float, hot_over_cold: float = HOT_OVER_COLD.value
) -> LampLaw:
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

    Law in the head of this module; 0 V to 1.3 times the rated voltage. Exponent: Standard Handbook
    for Electrical Engineers (seen); ratio hot to cold: memory, medium. The same ranges as
    `lamp_law`.

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
    """Light against that at rated voltage: (V / V0)^3.4 (Standard Handbook for Electrical
    Engineers, seen).

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
