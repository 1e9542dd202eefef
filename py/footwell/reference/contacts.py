"""Resistance of sound joints: terminals, crimps, holders, switch and relay contacts, earths.

A test limit (USCAR-2 and the like) is for aged new parts; the typical joint is far below it.
Resistances of joints scatter widely, so sigma is 40 % of the mean unless the row says otherwise.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from .sources import Source

RELATIVE_SIGMA = 0.4
RELATIVE_SIGMA_UNKNOWN = 0.6

_USCAR = Source(
    "limit: SAE/USCAR-2 after conditioning; typical: good new joints 1 to 5 mohm",
    "memory",
    "medium",
)
_USCAR_LOW = Source(_USCAR.title, "memory", "low")
_USCAR_LARGE = Source(
    "limit: SAE/USCAR-2 after conditioning; typical: good new joints under 1 mohm",
    "memory",
    "medium",
)
_CRIMP = Source("SAE/USCAR-21 style limits, 0.2 to 0.6 mohm new", "memory", "low")
_RELAY = Source(
    "data sheet of a 40 A plug-in relay: 20 mV typical, 300 mV at most, at 10 A", "seen", "high"
)
_HOLDER = Source("blade and holder below 1 to 3 mohm", "common practice", "low")
_SWITCH = Source("a sound switch is well under its limit of 0.3 V", "common practice", "low")
_EARTH = Source(
    "limit: FAA AC 43.13-1B ch. 11, earth return path 5 mohm; typical: clean bolted joint",
    "common practice",
    "low",
)
_POST = Source(
    "US Army TM 10-3930-671-24: about 0 V across post and clamp while cranking, so under 50 mV at"
    " 250 A",
    "derived",
    "medium",
)
_UNKNOWN = Source("a plug whose terminals nobody has seen", "assumption", "low")
_AMPS = Source(
    "current of terminal classes; wire, plating and heat change it", "common practice", "low"
)

GUIDE_AMPS_SOURCE = _AMPS
RELATIVE_SIGMA_SOURCE = Source(
    "joints of one kind differ by a factor of about two", "assumption", "low"
)


@dataclass(frozen=True)
class Contact:
    """A kind of joint: typical resistance and spread; test limit and guide to current if known."""

    kind: str
    milliohms: float
    relative_sigma: float
    limit_milliohms: float | None
    guide_amps: float | None
    source: Source

    @property
    def ohms(self) -> float:
        """Typical resistance in ohms."""
        return self.milliohms / 1000


CONTACTS: Mapping[str, Contact] = {
    kind: Contact(kind, typical, sigma, limit, amps, source)
    for kind, typical, sigma, limit, amps, source in (
        ("terminal 0.5", 5.0, RELATIVE_SIGMA, 25.0, 3.0, _USCAR_LOW),
        ("terminal 0.64", 4.0, RELATIVE_SIGMA, 20.0, 6.0, _USCAR),
        ("terminal 1.2", 2.5, RELATIVE_SIGMA, 10.0, 12.0, _USCAR),
        ("terminal 1.5", 2.0, RELATIVE_SIGMA, 10.0, 15.0, _USCAR),
        ("terminal 2.8", 1.2, RELATIVE_SIGMA, 5.0, 25.0, _USCAR),
        ("terminal 6.3", 0.5, RELATIVE_SIGMA, 1.5, 40.0, _USCAR_LARGE),
        ("terminal 9.5", 0.3, RELATIVE_SIGMA, 1.0, 60.0, _USCAR_LARGE),
        ("terminal unknown", 2.0, RELATIVE_SIGMA_UNKNOWN, None, None, _UNKNOWN),
        ("crimp", 0.4, RELATIVE_SIGMA, None, None, _CRIMP),
        ("splice", 0.8, RELATIVE_SIGMA, None, None, _CRIMP),
        ("fuse holder", 2.0, RELATIVE_SIGMA, None, None, _HOLDER),
        ("switch contact", 10.0, RELATIVE_SIGMA_UNKNOWN, None, None, _SWITCH),
        ("relay contact", 2.0, RELATIVE_SIGMA, 30.0, None, _RELAY),
        ("earth point", 1.0, RELATIVE_SIGMA_UNKNOWN, 5.0, None, _EARTH),
        ("battery post", 0.2, RELATIVE_SIGMA_UNKNOWN, None, None, _POST),
    )
}

TERMINAL_SIZES_MM: tuple[float, ...] = (0.5, 0.64, 1.2, 1.5, 2.8, 6.3, 9.5)


def contact(kind: str) -> Contact:
    """The row of a kind of joint; ValueError lists the kinds.

    >>> contact("relay contact").milliohms
    2.0
    """
    row = CONTACTS.get(kind)
    if row is None:
        raise ValueError(f"No joint called {kind!r}; the table lists {', '.join(CONTACTS)}.")
    return row


def terminal(size_mm: float | None) -> Contact:
    """The mated pair of a terminal class by pin or blade width in mm; None where nobody has looked.

    A width between two classes takes the smaller one, one under 0.5 mm the smallest.

    >>> terminal(6.3).guide_amps, terminal(None).relative_sigma
    (40.0, 0.6)
    """
    if size_mm is None:
        return contact("terminal unknown")
    listed = [size for size in TERMINAL_SIZES_MM if size <= size_mm] or TERMINAL_SIZES_MM[:1]
    return contact(f"terminal {listed[-1]:g}")
