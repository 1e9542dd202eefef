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

_SUPPRESSOR = Source(
    "suppressors for 24 to 33 V in 12 V vehicles, 36 to 47 V in 24 V", "memory", "low"
)
_WIDTH = Source("a suppressor clips 8 to 10 % above its breakdown at some amps", "memory", "low")
_ASLEEP = Source("well under the 50 mA that a sleeping car may draw", "common practice", "medium")
_AWAKE = Source("modules awake with the ignition off", "common practice", "low")

SUPPRESSOR_VOLTS: Mapping[int, Figure] = {
    12: Figure(27.0, "V at 1 mA", _SUPPRESSOR),
    24: Figure(39.0, "V at 1 mA", _SUPPRESSOR),
}
BREAKDOWN_WIDTH = Figure(0.01, "of the breakdown voltage for e times the current", _WIDTH)
ASLEEP_AMPS = Figure(0.02, "A", _ASLEEP)
AWAKE_AMPS = Figure(1.5, "A", _AWAKE)
STANDING_RELATIVE_SIGMA = Figure(0.4, "of the current", _ASLEEP)
