"""How much voltage a sound length of circuit may lose while its load works."""

from collections.abc import Mapping
from dataclasses import dataclass

from .sources import Source

_CRANK_12 = Source("US Army TM 10-3930-671-24 p. F-303, starter volt-drop test", "seen", "high")
_CRANK_24 = Source(
    "US Army TM 9-2320-211-20, starter circuit tests of a 24 V truck", "seen", "high"
)
_AIRCRAFT = Source("FAA AC 43.13-1B ch. 11 tables 11-6 and 11-7, aircraft", "seen", "high")
_AIRCRAFT_BRIEF = Source("FAA AC 43.13-1B ch. 11 table 11-6, aircraft", "memory", "high")
_TRADE = Source("limits of the trade", "common practice", "medium")
_UNNUMBERED = Source("often credited to SAE without a document number", "common practice", "medium")


@dataclass(frozen=True)
class DropLimit:
    """Largest voltage drop, in volts; nominal_volts None where it holds for 12 and 24 V alike."""

    volts: float
    nominal_volts: int | None
    source: Source


DROP_LIMITS: Mapping[str, DropLimit] = {
    "feed, whole": DropLimit(0.5, 12, _TRADE),
    "earth, electronics": DropLimit(0.1, None, _TRADE),
    "earth, motors": DropLimit(0.2, None, _TRADE),
    "one length of wire": DropLimit(0.2, None, _TRADE),
    "switch or relay contact": DropLimit(0.3, None, _UNNUMBERED),
    "small-wire connection": DropLimit(0.0, None, _UNNUMBERED),
    "high-current connection": DropLimit(0.1, None, _UNNUMBERED),
    "high-current cable": DropLimit(0.2, None, _UNNUMBERED),
    "sensor earth": DropLimit(0.05, None, _TRADE),
    "whole circuit, repair": DropLimit(1.0, 12, _TRADE),
    "bus to load, continuous, 14 V": DropLimit(0.5, 12, _AIRCRAFT),
    "bus to load, intermittent, 14 V": DropLimit(1.0, 12, _AIRCRAFT_BRIEF),
    "bus to load, continuous, 28 V": DropLimit(1.0, 24, _AIRCRAFT),
    "bus to load, intermittent, 28 V": DropLimit(2.0, 24, _AIRCRAFT_BRIEF),
    "cranking, battery post to starter terminal": DropLimit(0.4, 12, _CRANK_12),
    "cranking, post to clamp": DropLimit(0.0, None, _CRANK_12),
    "cranking, earth cable to frame, 24 V": DropLimit(0.1, 24, _CRANK_24),
    "cranking, battery cable, 24 V": DropLimit(0.2, 24, _CRANK_24),
    "cranking, inter-battery cable, 24 V": DropLimit(0.2, 24, _CRANK_24),
}

CRANKING_VOLTS_PER_100_AMPS = DropLimit(0.2, None, _CRANK_12)


def drop_limit_volts(stretch: str, nominal_volts: int) -> float:
    """Allowed drop over a stretch of circuit in volts; ValueError names the stretches.

    A limit given for one nominal voltage is scaled to the other: aircraft practice doubles it from
    14 to 28 V (derived).

    >>> drop_limit_volts("feed, whole", 24)
    1.0
    """
    limit = DROP_LIMITS.get(stretch)
    if limit is None:
        raise ValueError(
            f"No drop limit for {stretch!r}; the table lists {'; '.join(DROP_LIMITS)}."
        )
    return (
        limit.volts
        if limit.nominal_volts is None
        else limit.volts * nominal_volts / limit.nominal_volts
    )
