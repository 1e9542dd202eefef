"""Starter solenoids: windings, what pulls them in and what holds them, their contact."""

from collections.abc import Mapping
from dataclasses import dataclass

from .sources import Figure, Source, Spread

_WINDINGS = Source(
    "pull winding 30 to 50 A, hold winding 8 to 15 A at 12 V, half at 24 V", "memory", "low"
)
_PULL_IN = Source("pulls in from 7 to 8 V of 12 V, both windings cold", "memory", "low")
_LETS_GO = Source("held by its hold winding down to 3 to 4 V of 12 V", "memory", "low")
_CONTACT = Source(
    "half of what 0.3 V at 300 A allows, the trade's limit for a solenoid contact", "derived", "low"
)


@dataclass(frozen=True)
class Windings:
    """Resistances of the pull and the hold winding; both have the same number of turns."""

    pull_ohms: Spread
    hold_ohms: Spread


WINDINGS: Mapping[int, Windings] = {
    12: Windings(Spread(0.33, 0.06, "ohm", _WINDINGS), Spread(1.1, 0.2, "ohm", _WINDINGS)),
    24: Windings(Spread(1.3, 0.25, "ohm", _WINDINGS), Spread(4.4, 0.8, "ohm", _WINDINGS)),
}
PULL_IN_SHARE = Figure(0.62, "of nominal volts", _PULL_IN)
LETS_GO_SHARE = Figure(0.29, "of nominal volts over the hold winding", _LETS_GO)
CONTACT_OHMS = Figure(0.0005, "ohm", _CONTACT)
