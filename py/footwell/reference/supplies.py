"""Battery and charging voltages of 12 and 24 V vehicles, internal resistance of the source."""

from collections.abc import Mapping
from dataclasses import dataclass

from .ranges import linear, require_between
from .sources import Figure, Source, Spread

_ARMY_OCV = Source(
    "US Army TM 5-3805-262-20 p. 5-142: engine off, load 15 s, rest 3 min", "seen", "high"
)
_ISO_2010 = Source("ISO 16750-2:2010 tables 1 and 2", "seen", "high")
_ISO_TEST = Source("ISO 16750-1", "seen", "high")
_CHARGING = Source(
    "conventional regulator, warm: 13.8 to 14.5 V and 27.6 to 28.8 V", "common practice", "medium"
)
_HEALTHY_OFF = Source(
    "50 to 100 % charged by TM 5-3805-262-20, so 12.2 V to 12.8 V", "derived", "medium"
)
_LOAD_TEST = Source(
    "battery load test: 9.6 V after 15 s at half the cold-cranking current, 20 degC",
    "memory",
    "medium",
)
_BATTERY_OHMS = Source(
    "half of what the load test allows a battery of 600 A cold-cranking current", "derived", "low"
)
_RUNNING_OHMS = Source(
    "the regulator holds the voltage; what is left is the cables' resistance", "assumption", "low"
)
_DISCHARGE = Source("US Army TM 9-6140-200-14 par. 2-4", "seen", "high")
_QUIET = Source("passenger car after its modules sleep, 20 to 60 min", "common practice", "medium")


@dataclass(frozen=True)
class Supply:
    """A vehicle's supply as a source behind a resistance, with the engine off and running."""

    nominal_volts: int
    engine_off: Spread
    engine_running: Spread
    off_ohms: Spread
    running_ohms: Spread


SUPPLIES: Mapping[int, Supply] = {
    12: Supply(
        12,
        Spread(12.5, 0.15, "V", _HEALTHY_OFF),
        Spread(14.15, 0.2, "V", _CHARGING),
        Spread(0.005, 0.002, "ohm", _BATTERY_OHMS),
        Spread(0.005, 0.003, "ohm", _RUNNING_OHMS),
    ),
    24: Supply(
        24,
        Spread(25.0, 0.3, "V", _HEALTHY_OFF),
        Spread(28.2, 0.35, "V", _CHARGING),
        Spread(0.010, 0.004, "ohm", _BATTERY_OHMS),
        Spread(0.010, 0.006, "ohm", _RUNNING_OHMS),
    ),
}

# Charge in percent, open-circuit volts of a 12 V battery; printed "or less" and "or more" at the
# ends.
OPEN_CIRCUIT_VOLTS_12: tuple[tuple[float, float], ...] = (
    (0.0, 11.7),
    (25.0, 12.0),
    (50.0, 12.2),
    (75.0, 12.4),
    (100.0, 12.6),
)
OPEN_CIRCUIT_SOURCE = _ARMY_OCV

# Codes A to D belong to 12 V, E to H to 24 V: lowest and highest supply at which functions must
# work.
SUPPLY_RANGES: Mapping[str, tuple[float, float]] = {
    "A": (6.0, 16.0),
    "B": (8.0, 16.0),
    "C": (9.0, 16.0),
    "D": (10.5, 16.0),
    "E": (10.0, 32.0),
    "F": (16.0, 32.0),
    "G": (22.0, 32.0),
    "H": (18.0, 32.0),
}
SUPPLY_RANGES_SOURCE = _ISO_2010

TEST_VOLTS_RUNNING: Mapping[int, Figure] = {
    12: Figure(14.0, "V", _ISO_TEST),
    24: Figure(28.0, "V", _ISO_TEST),
}
SMART_CHARGING_VOLTS_12 = (12.2, 15.0)
SMART_CHARGING_SOURCE = Source("charging that a module commands", "common practice", "medium")
CRANKING_MIN_VOLTS_12 = Figure(9.6, "V", _LOAD_TEST)
LOAD_TEST_BELOW_VOLTS_12 = Figure(12.4, "V", _ARMY_OCV)
DISCHARGE_LIMIT_VOLTS_12 = Figure(10.5, "V", _DISCHARGE)
QUIESCENT_AMPS = Figure(0.05, "A", _QUIET)


def supply(nominal_volts: int) -> Supply:
    """Mean and sigma of a healthy supply of 12 or 24 V; ValueError for another voltage.

    >>> supply(24).engine_running.mean
    28.2
    """
    if nominal_volts not in SUPPLIES:
        raise ValueError(f"Supply of {nominal_volts} V is not in the table; it lists 12 and 24 V.")
    return SUPPLIES[nominal_volts]


def open_circuit_volts(charge_percent: float, nominal_volts: int = 12) -> float:
    """Resting voltage of a lead-acid battery at a charge of 0 to 100 %, in volts.

    US Army TM 5-3805-262-20 (seen); other lists differ by up to 0.1 V. 24 V is two batteries.

    >>> open_circuit_volts(50), round(open_circuit_volts(62.5, 24), 2)
    (12.2, 24.6)
    """
    require_between("Charge", charge_percent, 0, 100, "%")
    return linear(OPEN_CIRCUIT_VOLTS_12, charge_percent) * (nominal_volts / 12)


def charge_percent(volts: float, nominal_volts: int = 12) -> float:
    """Charge in percent from the resting voltage; 0 and 100 beyond the ends of the table.

    >>> round(charge_percent(12.3), 1), charge_percent(25.6, 24)
    (62.5, 100.0)
    """
    return linear(
        [(v, percent) for percent, v in OPEN_CIRCUIT_VOLTS_12], volts / (nominal_volts / 12)
    )


def load_test_ohms(cold_cranking_amps: float) -> float:
    """Largest internal resistance that passes the load test of a 12 V battery, in ohms (derived).

    From 12.6 V down to 9.6 V at half the cold-cranking current, 100 to 2000 A; ValueError outside.

    >>> load_test_ohms(600)
    0.01
    """
    require_between("Cold-cranking current", cold_cranking_amps, 100, 2000, "A")
    full = OPEN_CIRCUIT_VOLTS_12[-1][1]
    return round((full - CRANKING_MIN_VOLTS_12.value) / (cold_cranking_amps / 2), 9)
