"""Blade fuses of ISO 8820-3: ratings, colours, resistance.

Types: C medium (regular) blade, F miniature blade, E high-current (maxi) blade. Rated 32 V.
An open fuse is nearly always a consequence: the overload comes first.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from .ranges import require_between
from .sources import Figure, Source

FuseType = Literal["C", "F", "E"]

FUSE_TYPES: Mapping[FuseType, str] = {
    "C": "medium blade",
    "F": "miniature blade",
    "E": "high-current blade",
}

_COLOURS_SEEN = Source("ISO 8820-3 colour list, as a parts seller prints it", "seen", "high")
_COLOURS_MEMORY = Source("ISO 8820-3 colour list", "memory", "high")
_COLOURS_DOUBTFUL = Source("ISO 8820-3 colour list; makers differ", "memory", "low")
_C_OHMS = Source("data sheet of a 32 V medium blade fuse, typical, +-20 %", "memory", "medium")
_F_OHMS = Source("data sheet of a 32 V miniature blade fuse, typical", "memory", "low")
_E_OHMS = Source("cold drop at rating of 57 mV, as of 30 and 40 A medium blades", "derived", "low")
_RISE = Source("hot over cold of the medium blades is 1.3 to 1.7", "derived", "low")


@dataclass(frozen=True)
class Fuse:
    """One rating: colour, typical resistance cold, and hot at rated current, in milliohms."""

    fuse_type: FuseType
    rating_amps: float
    colour: str
    cold_milliohms: float
    hot_milliohms: float
    colour_source: Source
    ohms_source: Source


HOT_OVER_COLD = Figure(1.45, "hot / cold", _RISE)
OHMS_RELATIVE_SIGMA = Figure(0.1, "of the resistance", _C_OHMS)
RATED_VOLTS = Figure(32.0, "V", Source("ISO 8820-3:2015 scope", "seen", "high"))
BREAKING_AMPS = Figure(1000.0, "A", Source("ISO 8820-3:2015 scope", "seen", "high"))
CONTINUOUS_SHARE = Figure(
    0.75,
    "of the rating",
    Source("continuous load at most 70 to 80 % of the rating", "common practice", "medium"),
)

_COLOUR_BY_RATING: Mapping[float, str] = {
    1: "black",
    2: "grey",
    3: "violet",
    4: "pink",
    5: "tan",
    7.5: "brown",
    10: "red",
    15: "blue",
    20: "yellow",
    25: "clear",
    30: "green",
    35: "blue-green",
    40: "orange",
}

# Rating in A, cold resistance in mohm, voltage drop at rated current in mV.
_C_ROWS = (
    (1, 123, 176),
    (2, 53.5, 141),
    (3, 31.1, 137),
    (4, 22.8, 130),
    (5, 17.85, 128),
    (7.5, 10.91, 116),
    (10, 7.7, 109),
    (15, 4.8, 102),
    (20, 3.38, 98),
    (25, 2.52, 92),
    (30, 1.97, 84),
    (35, 1.61, 87),
    (40, 1.44, 96),
)

# Rating in A, cold resistance in mohm.
_F_ROWS = (
    (2, 58.4),
    (3, 33.5),
    (4, 24.3),
    (5, 17.6),
    (7.5, 11.0),
    (10, 7.4),
    (15, 4.6),
    (20, 3.2),
    (25, 2.4),
    (30, 1.9),
)

_E_COLD_MILLIVOLTS = 57.0
_E_ROWS = (
    (20, "yellow", _COLOURS_MEMORY),
    (25, "grey", _COLOURS_DOUBTFUL),
    (30, "green", _COLOURS_MEMORY),
    (35, "brown", _COLOURS_DOUBTFUL),
    (40, "orange", _COLOURS_MEMORY),
    (50, "red", _COLOURS_MEMORY),
    (60, "blue", _COLOURS_MEMORY),
    (70, "tan", _COLOURS_MEMORY),
    (80, "clear", _COLOURS_MEMORY),
    (100, "violet", _COLOURS_DOUBTFUL),
)


def _small_colour_source(rating: float) -> Source:
    return _COLOURS_SEEN if rating <= 30 else _COLOURS_MEMORY


def _medium(rating: float, cold: float, drop_millivolts: float) -> Fuse:
    source = _small_colour_source(rating)
    return Fuse(
        "C", rating, _COLOUR_BY_RATING[rating], cold, drop_millivolts / rating, source, _C_OHMS
    )


def _miniature(rating: float, cold: float) -> Fuse:
    source = _small_colour_source(rating)
    return Fuse(
        "F", rating, _COLOUR_BY_RATING[rating], cold, cold * HOT_OVER_COLD.value, source, _F_OHMS
    )


def _high_current(rating: float, colour: str, source: Source) -> Fuse:
    cold = _E_COLD_MILLIVOLTS / rating
    return Fuse("E", rating, colour, cold, cold * HOT_OVER_COLD.value, source, _E_OHMS)


FUSES: Mapping[tuple[FuseType, float], Fuse] = {
    (row.fuse_type, row.rating_amps): row
    for row in (
        *(_medium(*row) for row in _C_ROWS),
        *(_miniature(*row) for row in _F_ROWS),
        *(_high_current(*row) for row in _E_ROWS),
    )
}


def fuse(fuse_type: FuseType, rating_amps: float) -> Fuse:
    """The row of a type and rating; ValueError names the ratings that exist.

    >>> fuse("C", 20).colour
    'yellow'
    >>> fuse("F", 12)
    Traceback (most recent call last):
    ...
    ValueError: No miniature blade fuse of 12 A; ratings are 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30 A.
    """
    row = FUSES.get((fuse_type, rating_amps))
    if row is None:
        listed = ", ".join(f"{rating:g}" for rating in ratings(fuse_type))
        raise ValueError(
            f"No {FUSE_TYPES[fuse_type]} fuse of {rating_amps:g} A; ratings are {listed} A."
        )
    return row


def ratings(fuse_type: FuseType) -> tuple[float, ...]:
    """Ratings of a type in amps, rising.

    >>> ratings("E")[:3]
    (20, 25, 30)
    """
    return tuple(rating for kind, rating in FUSES if kind == fuse_type)


def fuse_ohms(fuse_type: FuseType, rating_amps: float, amps: float = 0.0) -> float:
    """Typical resistance in ohms: cold at 0 A, hot at the rating, linear in amps squared between.

    Above 135 % of the rating the element is about to open and the value stays at that of 135 %. A
    rating that the list lacks (0.1 to 1000 A, ValueError outside) takes the voltage drop of the
    nearest listed one. Sigma `OHMS_RELATIVE_SIGMA`; medium blades from memory, the others low
    confidence.

    >>> round(fuse_ohms("C", 20), 5)
    0.00338
    >>> round(fuse_ohms("C", 20, 20.0), 5)
    0.0049
    >>> round(fuse_ohms("C", 16), 5)
    0.0045
    """
    require_between("Fuse rating", rating_amps, 0.1, 1000, "A")
    nearest = min(ratings(fuse_type), key=lambda listed: abs(listed - rating_amps))
    row = fuse(fuse_type, nearest)
    heat = min(abs(amps) / rating_amps, 1.35) ** 2
    milliohms = row.cold_milliohms + (row.hot_milliohms - row.cold_milliohms) * heat
    return milliohms / 1000 * (nearest / rating_amps)
