"""Sensors and lines of control units: thermistors, 5 V supply, switches without touch, bus."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log

from .sources import Figure, Source, Spread

ZERO_CELSIUS = 273.15
"""0 °C in kelvin."""

_CHECK_TABLE = Source(
    "resistance check table of a 10 kohm NTC in a power source's service manual, ±4.7 %",
    "seen",
    "high",
)
_LEADED = Source("data sheet of leaded thermistors, 5 mm, B25/100 ±1 %", "seen", "high")
_COOLANT = Source("common practice, no source: coolant sensors", "common practice", "medium")
_POTENTIOMETER = Source(
    "common practice, no source: pedals and throttles", "common practice", "medium"
)
_RATIOMETRIC = Source("makers' practice for sensors on 5 V: 10 to 90 %", "memory", "high")
_FAULT_BANDS = Source("makers' practice: below 4 to 5 % and above 95 to 96 %", "memory", "medium")
_FIVE_VOLTS = Source(
    "sensor supplies read 4.75 to 5.25 V, often 4.9 to 5.1 V", "common practice", "high"
)
_PULL_UP = Source("pull-up of 1 to 5 kohm in the unit", "common practice", "high")
_HALL = Source("data sheets of Hall switches: open collector, 0.4 V at most", "memory", "high")
_REED = Source("data sheets of reed switches: below 0.2 ohm closed", "memory", "medium")
_BUS = Source("ISO 11898-2, high-speed bus: 120 ohm at each end", "seen", "high")
_BUS_LIMITS = Source("ISO 11898-2, high-speed bus", "memory", "high")
_UNIT = Source("control units on a vehicle's supply, by assumption", "assumption", "low")
_OUTPUT = Source(
    "makers' practice for switches in silicon with open-load detection", "memory", "low"
)

NTC_CHECK_TABLE: tuple[tuple[float, float], ...] = (
    (20.0, 12490.0),
    (25.0, 10000.0),
    (30.0, 8057.0),
    (55.0, 2986.0),
    (60.0, 2488.0),
    (65.0, 2083.0),
    (90.0, 917.7),
    (95.0, 788.5),
    (100.0, 680.0),
)
"""Published resistance (ohm) of one 10 kohm thermistor by temperature (°C)."""
NTC_CHECK_TABLE_SOURCE = _CHECK_TABLE


@dataclass(frozen=True)
class NtcFamily:
    """A thermistor of a data sheet: ohms at 25 °C and beta (K) between 25 and 100 °C."""

    ohms_25: float
    beta: float
    source: Source


NTC_FAMILIES: tuple[NtcFamily, ...] = (
    NtcFamily(2100.0, 3560.0, _LEADED),
    NtcFamily(10000.0, 3980.0, _LEADED),
    NtcFamily(10000.0, 3460.0, _LEADED),
    NtcFamily(10000.0, 3920.0, _LEADED),
    NtcFamily(12000.0, 3760.0, _LEADED),
    NtcFamily(30000.0, 3964.0, _LEADED),
)
COOLANT_NTC = NTC_FAMILIES[0]
"""Nearest to the usual coolant sensor."""
COOLANT_NTC_OHMS: tuple[tuple[float, float, float], ...] = (
    (20.0, 2000.0, 2500.0),
    (80.0, 300.0, 340.0),
    (100.0, 180.0, 200.0),
)
"""°C, and what the usual coolant sensor then has at least and at most (ohm)."""
COOLANT_NTC_SOURCE = _COOLANT

POTENTIOMETER_OHMS = Figure(2200.0, "ohm", _POTENTIOMETER)
POTENTIOMETER_END_SHARE = Figure(0.1, "of the track at either end of travel", _RATIOMETRIC)
SECOND_TRACK_SHARE = Figure(
    0.5,
    "of the first track's signal",
    Source("pedals with two tracks, makers' practice", "memory", "medium"),
)
POTENTIOMETER_RELATIVE_SIGMA = Figure(
    0.05,
    "of each side of the wiper",
    Source("travel and track of a potentiometer, by assumption", "assumption", "low"),
)
SENSOR_LOW_SHARE = Figure(0.05, "of the 5 V", _FAULT_BANDS)
SENSOR_HIGH_SHARE = Figure(0.95, "of the 5 V", _FAULT_BANDS)

FIVE_VOLTS = Spread(5.0, 0.05, "V", _FIVE_VOLTS)
REGULATOR_LIMIT_AMPS = Figure(0.1, "A", _UNIT)
REGULATOR_DROP_VOLTS = Figure(1.0, "V between in and out", _UNIT)
REGULATOR_OWN_AMPS = Figure(0.02, "A", _UNIT)

PULL_UP_OHMS = Spread(2200.0, 110.0, "ohm", _PULL_UP)
SWITCH_CLOSED_SHARE = Figure(0.3, "of the pull-up's voltage", _UNIT)
SWITCH_OPEN_SHARE = Figure(0.7, "of the pull-up's voltage", _UNIT)
UNIT_WAKES_VOLTS = Figure(6.5, "V", _UNIT)
UNIT_OWN_AMPS = Figure(0.1, "A", _UNIT)

HALL_LEAST_VOLTS = Figure(3.8, "V", _HALL)
HALL_ON_VOLTS = Figure(0.4, "V at most", _HALL)
HALL_ON_OHMS = Figure(10.0, "ohm", _HALL)
HALL_LIMIT_AMPS = Figure(0.025, "A", _HALL)
HALL_OWN_AMPS = Figure(0.005, "A", _HALL)

REED_CLOSED_OHMS = Figure(0.1, "ohm", _REED)
REED_MOST_CLOSED_OHMS = Figure(0.2, "ohm", _REED)

BUS_TERMINATION_OHMS = Figure(120.0, "ohm", _BUS)
BUS_RECESSIVE_VOLTS = Figure(2.5, "V", _BUS)
BUS_RECESSIVE_LIMITS = (2.0, 3.0)
"""Least and most recessive voltage (V) of either wire (ISO 11898-2, memory)."""
BUS_MESSAGE_AMPS = Figure(1e-5, "A between the lines, too little for a meter to see", _UNIT)
"""Stands for the messages of a bus that is otherwise drawn at rest."""
BUS_HEARD = (0.75, 1.35)
"""Resistance between the lines, as a share of two terminations, at which every message is understood:
three terminations are too many, one alone is too few (common practice, no source)."""
BUS_HEARD_AT_ALL = (0.3, 3.0)
"""The same, at which some messages get through (common practice, no source)."""
BUS_COMMON_VOLTS = (1.0, 4.0)
"""Mean voltage (V) of both lines at which a unit hears anything (ISO 11898-2, memory, rounded)."""
BUS_INPUT_OHMS = Figure(30000.0, "ohm from each wire to the bias", _BUS_LIMITS)

DETECTION_OHMS = Figure(10000.0, "ohm", _OUTPUT)
OFF_LEAK_OHMS = Figure(1e6, "ohm", _OUTPUT)


def ntc_ohms(ohms_25: float, beta: float, celsius: float) -> float:
    """Resistance (ohm) at a temperature: R25 * exp(B * (1/T - 1/298.15)), T in kelvin (IEC 60539).

    >>> round(ntc_ohms(2100, 3560, 80))
    327
    """
    return ohms_25 * exp(beta * (1.0 / (celsius + ZERO_CELSIUS) - 1.0 / (25.0 + ZERO_CELSIUS)))


def ntc_ohms_of(table: Sequence[tuple[float, float]], celsius: float) -> float:
    """Resistance (ohm) at a temperature between rows (°C, ohm) in rising order, and a little beyond.

    The logarithm of the resistance is straight over 1/T between two rows, as the beta law has it.

    >>> round(ntc_ohms_of(NTC_CHECK_TABLE, 25)), round(ntc_ohms_of(NTC_CHECK_TABLE, 40))
    (10000, 5315)
    """
    rows = list(pairwise(table))
    (c0, r0), (c1, r1) = next((pair for pair in rows if celsius <= pair[1][0]), rows[-1])
    x, x0, x1 = (1.0 / (c + ZERO_CELSIUS) for c in (celsius, c0, c1))
    return exp(log(r0) + (log(r1) - log(r0)) * (x - x0) / (x1 - x0))
