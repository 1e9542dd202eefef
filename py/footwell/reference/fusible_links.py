"""Fusible links: the current that melts a copper wire, and how soon.

Far above that current no heat leaves the wire (Onderdonk); at it, all of it does (Preece). Between the
two the wire is taken to warm like any body with one time constant, which joins both ends.
"""

from math import log, log1p, pi, sqrt

from .conductors import LARGEST_MM2, SMALLEST_MM2
from .ranges import require_between
from .sources import Figure, Source

_PREECE = Source("Preece 1884: a copper wire melts at 80 d^1.5 A, d in mm", "memory", "medium")
_ONDERDONK = Source(
    "Onderdonk: 33 (I/A)^2 t = log10(1 + (1083 - T)/(234 + T)), A in circular mils",
    "memory",
    "medium",
)
_INSULATED = Source(
    "insulation, ends and air let the time of one link be half or twice", "common practice", "low"
)
_SIZE = Source(
    "four American gauge numbers thinner than what it protects", "common practice", "medium"
)
_LENGTH = Source("links are 150 to 230 mm long", "common practice", "medium")

PREECE = Figure(80.0, "A per mm^1.5", _PREECE)
MELT_INTEGRAL = Figure(84_400.0, "A^2 s per mm^4, from 20 degC", _ONDERDONK)
SCATTER = Figure(2.0, "factor on the time, either way", _INSULATED)
THINNER = Figure(2.53, "section of the wire over that of the link", _SIZE)
LENGTH_METRES = Figure(0.2, "m", _LENGTH)


def melting_amps(section_mm2: float) -> float:
    """Current that a copper wire in air cannot carry for good, in amps (Preece).

    >>> round(melting_amps(1.0)), round(melting_amps(0.5))
    (96, 57)
    """
    require_between("Cross-section", section_mm2, SMALLEST_MM2, LARGEST_MM2, "mm2")
    return float(PREECE.value * sqrt(4.0 * section_mm2 / pi) ** 1.5)


def melting_seconds(section_mm2: float, amps: float) -> tuple[float, float] | None:
    """Shortest and longest time until a link melts, in seconds; None where it carries for good.

    >>> melting_seconds(1.0, 90.0) is None
    True
    >>> [round(t, 2) for t in melting_seconds(1.0, 400.0)]
    [0.27, 1.09]
    """
    share = (melting_amps(section_mm2) / max(abs(amps), 1e-9)) ** 2
    if share >= 1.0:
        return None
    constant = MELT_INTEGRAL.value * section_mm2**2 / melting_amps(section_mm2) ** 2
    seconds = -constant * log1p(-share)
    return seconds / SCATTER.value, seconds * SCATTER.value


def onderdonk_integral(celsius: float) -> float:
    """I^2 t that melts 1 mm2 of copper without loss of heat, in A^2 s.

    >>> round(onderdonk_integral(20.0), -2)
    84400.0
    """
    mils = 1973.525
    return mils**2 / 33.0 * log(1.0 + (1083.0 - celsius) / (234.0 + celsius)) / log(10.0)
