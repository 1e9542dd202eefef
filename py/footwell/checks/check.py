"""A check: an instrument held to places in a set-up. Its id is stable and says all of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from footwell.circuit.circuit import Circuit
from footwell.circuit.places import places
from footwell.circuit.setup import SetupState
from footwell.parts.base import EARTH

VOLTS = "volts"
"""Meter on volts between red and black."""
LAMP = "test lamp"
"""Small lamp from red to black, read by eye."""
SUBSTITUTE = "substitute lamp"
"""Lamp in place of the load whose plug `red` names, read by eye."""
CLAMP = "clamp"
"""Current in wire `red` at one of its ends, arrow the way it flows when all is well (see `clamped`)."""
OHMS = "ohms"
"""Resistance between two terminals of a part taken out of the circuit."""
FEED = "direct feed"
"""Load `red` fed from the battery through a fused lead, with an earth of its own."""
LOOK = "look"
"""Fuse `red` taken out and looked at."""
BENCH = "bench feed"
"""Relay `red` out of its socket, its coil fed through a fused lead, ohms over its contact."""
LISTEN = "listen"
"""Relay `red` listened to while the control is moved."""
LOAD = "watch"
"""What load `red` does, by eye and ear."""

FUSE_LAMP = "lamp for fuse"
"""Lamp in place of fuse `red`: it lights fully while a short is there, and no fuse is wasted."""

AnyOf = tuple[str, ...]
"""Tools of which each will do."""

NEEDS: dict[str, tuple[AnyOf, ...]] = {
    VOLTS: (("meter",),),
    LAMP: (("test lamp",),),
    SUBSTITUTE: (("substitute lamp",),),
    CLAMP: (("clamp",),),
    OHMS: (("meter",),),
    FEED: (("fused jumper",),),
    BENCH: (("fused jumper",), ("meter",)),
    FUSE_LAMP: (("substitute lamp", "test lamp"),),
}
"""What each instrument takes, first what it is known by; eyes and ears need nothing."""

STAND_IN: AnyOf = ("substitute lamp",)
"""What a set-up takes in which a lamp stands in for something."""

EVERY_TOOL = tuple(
    sorted({tool for needs in NEEDS.values() for any_of in needs for tool in any_of})
)


@dataclass(frozen=True, order=True)
class Check:
    """`red` and `black` are place ids, or the element for a check of one element."""

    instrument: str
    red: str
    black: str
    setup: SetupState

    @cached_property
    def id(self) -> str:
        """Text that names the check for good, such as "volts X2.3.a earth S1=1"."""
        controls = " ".join(f"{part}={position}" for part, position in self.setup.controls)
        apart = " ".join(f"-{name}" for name in self.setup.apart)
        lamps = " ".join(f"{name}:{watts:g}W" for name, watts in self.setup.stand_in)
        return " ".join(
            x for x in (self.instrument, self.red, self.black, controls, apart, lamps) if x
        )

    @property
    def needs(self) -> tuple[AnyOf, ...]:
        """The tools that it takes."""
        own = NEEDS.get(self.instrument, ())
        return (*own, STAND_IN) if self.setup.stand_in else own

    @property
    def numeric(self) -> bool:
        return self.instrument in (VOLTS, CLAMP, OHMS)

    @property
    def unit(self) -> str:
        return {VOLTS: "V", CLAMP: "A", OHMS: "Ω"}.get(self.instrument, "")


def bared(circuit: Circuit, check: Check) -> str:
    """The splice whose tape is off for a check: to look at it, or for a probe at one of its joints that
    cannot be got at otherwise. "" for any other check."""
    for point in (check.red, check.black) if check.instrument in (LOOK, VOLTS, LAMP) else ():
        owner = point.split(".")[0]
        element = circuit.elements.get(owner)
        if element and element.kind.name == "splice" and point not in places(circuit):
            return owner
    return ""


def nodes(circuit: Circuit, check: Check) -> tuple[int, int]:
    """Nodes under the red and the black probe. A place no longer on the sheet raises KeyError."""
    return circuit.node_of[check.red], circuit.node_of[check.black or EARTH]
