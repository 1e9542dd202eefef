"""Plug-in relays: coil resistance, pull-in and drop-out, contact rating."""

from collections.abc import Mapping
from dataclasses import dataclass

from .conductors import ohms_at
from .sources import Figure, Source, Spread

_CUBE = Source(
    "plug-in cube relay: 75 to 100 ohm at 12 V, 250 to 400 ohm at 24 V", "common practice", "high"
)
_SUPPRESSOR = Source(
    "560 to 680 ohm across a 12 V coil, 1.8 to 2.7 kohm across 24 V", "common practice", "medium"
)
_LATCHING = Source(
    "coils that are only pulsed may take 4 to 6 W: data sheets of bistable relays", "memory", "low"
)
_PULL_IN = Source(
    "data sheets promise pull-in by 58 to 67 % of nominal; the usual coil is a little better",
    "derived",
    "low",
)
_DROP_OUT = Source(
    "data sheets promise release by 4 to 10 % of nominal; the usual coil lets go sooner",
    "derived",
    "low",
)
_CONTACT = Source(
    "plug-in relays are sold for 20 to 40 A on the make contact", "common practice", "medium"
)


@dataclass(frozen=True)
class Coil:
    """A relay coil of a data sheet: it must pull in by, and may hold down to, the stated volts."""

    name: str
    nominal_volts: float
    ohms: float
    pull_in_by_volts: float | None
    release_by_volts: float | None
    source: Source


COILS: tuple[Coil, ...] = (
    Coil(
        "power, 1.6 W",
        12,
        90.0,
        6.9,
        1.2,
        Source("data sheet of a 40 A power relay", "seen", "high"),
    ),
    Coil(
        "power, 1.9 W",
        12,
        75.0,
        8.0,
        None,
        Source("data sheet of a 25 A power relay", "seen", "high"),
    ),
    Coil(
        "low power, 0.48 W",
        12,
        300.0,
        7.0,
        0.5,
        Source("data sheet of a 30 A lamp relay", "seen", "high"),
    ),
    Coil(
        "dual mini, 0.55 W",
        12,
        260.0,
        7.2,
        1.2,
        Source("data sheet of a 20 A dual relay", "seen", "high"),
    ),
)

COIL_OHMS: Mapping[int, Spread] = {
    12: Spread(85.0, 8.0, "ohm", _CUBE),
    24: Spread(350.0, 40.0, "ohm", _CUBE),
}
LATCHING_COIL_OHMS: Mapping[int, Spread] = {
    12: Spread(30.0, 8.0, "ohm", _LATCHING),
    24: Spread(120.0, 30.0, "ohm", _LATCHING),
}
COIL_MAKE_RELATIVE_LIMIT = Figure(0.1, "of the resistance", COILS[0].source)
SUPPRESSION_RESISTOR_OHMS: Mapping[int, Spread] = {
    12: Spread(620.0, 40.0, "ohm", _SUPPRESSOR),
    24: Spread(2250.0, 250.0, "ohm", _SUPPRESSOR),
}
PULL_IN_SHARE = Spread(0.55, 0.05, "of nominal volts", _PULL_IN)
DROP_OUT_SHARE = Spread(0.2, 0.05, "of nominal volts", _DROP_OUT)
PULL_IN_LIMIT_SHARE = Figure(
    0.67, "of nominal volts", Source("8 V of 12 V, the highest of four data sheets", "seen", "high")
)
CONTACT_GUIDE_AMPS = Figure(30.0, "A", _CONTACT)


def coil_ohms_at(ohms_at_20: float, celsius: float) -> float:
    """Coil resistance of copper at a temperature, in ohms: a hot coil needs more volts to pull in.

    >>> round(coil_ohms_at(85.0, 80.0), 1)
    105.0
    """
    return ohms_at(ohms_at_20, celsius)


def pull_in_volts(nominal_volts: float) -> Spread:
    """Voltage at which a cold coil pulls in, in volts (derived, low confidence).

    >>> round(pull_in_volts(24).mean, 2)
    13.2
    """
    return _scaled(PULL_IN_SHARE, nominal_volts)


def drop_out_volts(nominal_volts: float) -> Spread:
    """Voltage at which a pulled-in coil lets go, in volts (derived, low confidence).

    >>> round(drop_out_volts(12).mean, 2)
    2.4
    """
    return _scaled(DROP_OUT_SHARE, nominal_volts)


def _scaled(share: Spread, nominal_volts: float) -> Spread:
    return Spread(share.mean * nominal_volts, share.sigma * nominal_volts, "V", share.source)
