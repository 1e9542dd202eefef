"""Horns, solenoids, PTC heaters, glow plugs, standing loads: what they usually take."""

from collections.abc import Mapping

from .sources import Figure, Source, Spread

_HORN = Source(
    "electromagnetic horns take 4 to 6 A at 12 V, half at 24 V", "common practice", "medium"
)
_HORN_STUCK = Source(
    "a horn whose contact does not open takes two to three times its current",
    "common practice",
    "low",
)
_VALVE = Source("valves, cut-offs and lock magnets of 8 to 20 W", "common practice", "low")
_PULL = Source(
    "magnets are made to pull by 70 to 75 % of nominal; the usual one pulls sooner",
    "derived",
    "low",
)
_RELEASE = Source("a magnet lets go far below what pulled it, as a relay does", "derived", "low")
_PTC = Source("inrush of PTC air heaters, two to three times the steady current", "memory", "low")
_GLOW = Source(
    "rod glow plugs take some 20 A at first and 8 to 12 A after half a minute at 11 V",
    "memory",
    "medium",
)

HORN_AMPS: Mapping[int, Figure] = {12: Figure(5.0, "A", _HORN), 24: Figure(2.5, "A", _HORN)}
HORN_STUCK_SHARE = Figure(0.4, "of the working resistance", _HORN_STUCK)
MAGNET_WATTS = Figure(12.0, "W", _VALVE)
MAGNET_PULL_SHARE = Spread(0.6, 0.05, "of nominal volts", _PULL)
MAGNET_RELEASE_SHARE = Spread(0.2, 0.05, "of nominal volts", _RELEASE)
PTC_COLD_OVER_WARM = Figure(2.5, "conductance cold over warm", _PTC)
GLOW_COLD_OVER_WARM = Figure(2.0, "conductance cold over warm", _GLOW)
GLOW_AMPS: Mapping[int, Figure] = {12: Figure(10.0, "A", _GLOW), 24: Figure(5.0, "A", _GLOW)}
GLOW_VOLTS: Mapping[int, Figure] = {12: Figure(11.0, "V", _GLOW), 24: Figure(22.0, "V", _GLOW)}
