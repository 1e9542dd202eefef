"""What the instruments do to a circuit, and how far their readings may be off."""

from collections.abc import Mapping
from dataclasses import dataclass

from .ranges import require_between
from .sources import Figure, Source, Spread

_LESSONS = Source(
    "Lessons In Electric Circuits vol. I ch. 8, typical digital voltmeter", "seen", "high"
)
_SEMICONDUCTORS = Source("Lessons In Electric Circuits vol. III ch. 3", "seen", "high")
_PRACTICE = Source("practice of instrument makers", "memory", "medium")
_ACCURACY = Source("practice of instrument makers: percent of reading and counts", "memory", "high")
_TRADE = Source("instruments of the trade", "common practice", "medium")
_LEADS = Source("test leads 0.1 to 0.5 ohm", "common practice", "high")


@dataclass(frozen=True)
class Accuracy:
    """Limit of error: +-(percent of reading + counts of the last digit)."""

    percent: float
    counts: float
    source: Source


@dataclass(frozen=True)
class OhmsRange:
    """A resistance range: full scale in ohms and the current it sends through the part, in amps."""

    full_scale_ohms: float
    test_amps: float
    source: Source


DC_ACCURACY = Accuracy(0.5, 2.0, _ACCURACY)
OHMS_ACCURACY = Accuracy(1.0, 3.0, _PRACTICE)
AMPS_ACCURACY = Accuracy(1.5, 3.0, _PRACTICE)
DISPLAY_COUNTS = 2000
VOLTS_RANGES: tuple[float, ...] = (0.2, 2.0, 20.0, 200.0)

VOLTMETER_OHMS = Figure(10e6, "ohm", _LESSONS)
LOW_IMPEDANCE_VOLTMETER_OHMS = Figure(3e3, "ohm", _PRACTICE)
ANALOGUE_OHMS_PER_VOLT = Figure(
    20e3, "ohm/V", Source("ohms-per-volt rule, full scale", "memory", "high")
)
LEAD_OHMS = Spread(0.2, 0.1, "ohm", _LEADS)
TRUST_OHMS_ABOVE = Figure(1.0, "ohm", _LEADS)

OHMS_RANGES: tuple[OhmsRange, ...] = (
    OhmsRange(200.0, 1e-3, _PRACTICE),
    OhmsRange(2e3, 0.25e-3, _PRACTICE),
    OhmsRange(20e3, 0.04e-3, _PRACTICE),
    OhmsRange(200e3, 4e-6, Source("between its neighbours", "derived", "low")),
    OhmsRange(2e6, 0.6e-6, _PRACTICE),
)
OVER_RANGE_OHMS = 2e6
CONTINUITY_BELOW_OHMS = Spread(35.0, 10.0, "ohm", _PRACTICE)
DIODE_TEST_AMPS = Figure(1e-3, "A", _PRACTICE)
DIODE_TEST_OPEN_VOLTS = Figure(2.5, "V", _PRACTICE)
SILICON_DIODE_READING_VOLTS = Figure(0.548, "V", _SEMICONDUCTORS)

# The 10 A jack is a shunt and its own fuse in series with the circuit.
AMMETER_JACK_AMPS = Figure(10.0, "A", _PRACTICE)
AMMETER_JACK_OHMS = Spread(0.03, 0.01, "ohm", _PRACTICE)
MILLIAMMETER_JACK_OHMS = Spread(4.0, 2.0, "ohm", _PRACTICE)
CLAMP_PERCENT = Figure(2.0, "% of reading", _PRACTICE)
CLAMP_OFFSET_AMPS = Figure(
    0.2, "A", Source("zero of a small clamp, 0.1 to 0.3 A", "memory", "medium")
)

TEST_LAMP_WATTS: Mapping[int, Figure] = {
    12: Figure(4.0, "W", Source("filament test lamp, 2 to 5 W", "common practice", "medium")),
    24: Figure(4.0, "W", Source("filament test lamp, 2 to 5 W", "common practice", "medium")),
}
SUBSTITUTE_LAMP_WATTS = Figure(
    21.0, "W", Source("P21W as a substitute load", "common practice", "medium")
)
LED_TESTER_AMPS = Figure(0.01, "A", Source("LED tester, 1 to 20 mA", "common practice", "medium"))
JUMPER_OHMS = Figure(0.05, "ohm", _TRADE)


def volts_range(volts: float) -> float:
    """Lowest direct-voltage range of a 2000-count meter that shows the reading, in volts full
    scale.

    >>> volts_range(12.6), volts_range(0.1)
    (20.0, 0.2)
    """
    require_between("Voltage", volts, -VOLTS_RANGES[-1], VOLTS_RANGES[-1], "V")
    return next(scale for scale in VOLTS_RANGES if abs(volts) <= scale)


def limit_of_error(reading: float, full_scale: float, accuracy: Accuracy = DC_ACCURACY) -> float:
    """Largest error of a reading in the reading's own unit: percent of it plus counts of the range.

    >>> round(limit_of_error(12.6, 20.0), 3)
    0.083
    """
    return abs(reading) * accuracy.percent / 100 + accuracy.counts * full_scale / DISPLAY_COUNTS


def volts_limit(volts: float, accuracy: Accuracy = DC_ACCURACY) -> float:
    """Largest error of a direct-voltage reading on its best range, in volts; up to 200 V.

    >>> round(volts_limit(0.1), 4), round(volts_limit(12.6), 3)
    (0.0007, 0.083)
    """
    return limit_of_error(volts, volts_range(volts), accuracy)


def ohms_range(ohms: float) -> OhmsRange | None:
    """The range an ohmmeter settles on; None where it shows over range (above 2 Mohm).

    >>> ohms_range(85.0).test_amps
    0.001
    >>> ohms_range(5e6) is None
    True
    """
    return next((row for row in OHMS_RANGES if abs(ohms) <= row.full_scale_ohms), None)


def clamp_limit_amps(amps: float) -> float:
    """Largest error of a direct-current clamp after zeroing, in amps: 2 % of the reading + 0.2 A.

    >>> round(clamp_limit_amps(20.0), 2)
    0.6
    """
    return abs(amps) * CLAMP_PERCENT.value / 100 + CLAMP_OFFSET_AMPS.value
