"""LED lamps: forward voltage of one LED, how many stand in a chain."""

from collections.abc import Mapping
from typing import Literal

from .sources import Figure, Source

Colour = Literal["white", "red", "amber"]

_FORWARD = Source("data sheets of lamp LEDs at working current, 25 degC", "memory", "medium")
_EMISSION = Source("ideality of lamp LEDs with what their own resistance adds", "memory", "low")
_CHAIN = Source("three LEDs in a chain for 12 V and six for 24 V", "common practice", "medium")

FORWARD_VOLTS: Mapping[Colour, Figure] = {
    "white": Figure(3.1, "V", _FORWARD),
    "red": Figure(2.1, "V", _FORWARD),
    "amber": Figure(2.1, "V", _FORWARD),
}
EMISSION = Figure(2.0, "emission coefficient of one LED", _EMISSION)
CHAIN: Mapping[int, Figure] = {12: Figure(3, "LEDs", _CHAIN), 24: Figure(6, "LEDs", _CHAIN)}
RESISTOR_RELATIVE_SIGMA = Figure(
    0.1, "of the resistance", Source("LED lamps of one print differ in power", "assumption", "low")
)


def chain_volts(colour: Colour, leds: int) -> float:
    """Voltage over a chain of LEDs at their working current, in volts (memory, medium).

    >>> round(chain_volts("white", 3), 1), round(chain_volts("red", 3), 1)
    (9.3, 6.3)
    """
    return leds * FORWARD_VOLTS[colour].value
