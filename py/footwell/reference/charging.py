"""Charging sources: what they give, what they leak at rest, what a battery takes from them.

The voltages that they hold stand in `supplies`.
"""

from collections.abc import Mapping

from .sources import Figure, Source

_OUTPUT = Source("alternators of cars and of trucks give 60 to 150 A", "common practice", "medium")
_FULL = Source(
    "a charged battery takes about 5 A at the regulated voltage", "common practice", "low"
)
_LEAK = Source("sound rectifiers leak a milliamp or less, engine off", "common practice", "low")
_LOW = Source("one phase lost, or brushes near their end", "common practice", "low")
_OVER = Source("a regulator that no longer opens: 16 to 17 V, 32 to 34 V", "common practice", "low")
_DRAIN = Source("a leaking diode drains 0.1 to 1 A, engine off", "common practice", "low")
_FIELD = Source("field winding of 3 to 4 A at full field", "memory", "low")
_LASTS = Source("a vehicle left for a week must start", "common practice", "low")
_SIZE = Source("batteries of cars have 45 to 90 Ah", "common practice", "medium")
_GASSES = Source("how soon people notice that a battery is charged too high", "assumption", "low")

LIMIT_AMPS: Mapping[int, Figure] = {12: Figure(90, "A", _OUTPUT), 24: Figure(80, "A", _OUTPUT)}
TAKEN_OHMS: Mapping[int, Figure] = {12: Figure(0.33, "ohm", _FULL), 24: Figure(0.66, "ohm", _FULL)}
"""Volts above the battery's own over the current that it then takes."""
REST_LEAK_AMPS = Figure(0.001, "A", _LEAK)
LOW_SHARES = (Figure(0.5, "of the current limit", _LOW), Figure(0.1, "of the current limit", _LOW))
OVER_SHARE = Figure(1.17, "of the regulated voltage", _OVER)
DRAIN_OHMS = (Figure(100.0, "ohm at 12 V", _DRAIN), Figure(15.0, "ohm at 12 V", _DRAIN))
SHORTED_DIODE_SHARE = Figure(0.6, "of the current limit", _LOW)
FIELD_OHMS: Mapping[int, Figure] = {12: Figure(3.5, "ohm", _FIELD), 24: Figure(9.0, "ohm", _FIELD)}

LASTING_HOURS = Figure(168.0, "h", _LASTS)
AMPERE_HOURS = Figure(60.0, "Ah", _SIZE)
WEAK_SHARE = Figure(0.25, "of its charge lost", _LASTS)
FLAT_SHARE = Figure(0.55, "of its charge lost", _LASTS)
GASSING_GAIN = Figure(20.0, "noticed for each share above the regulated voltage", _GASSES)
