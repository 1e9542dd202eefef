"""Blade fuses of ISO 8820-3: colours, resistance, and how long they carry too much.

Types: C medium (regular) blade, F miniature blade, E high-current (maxi) blade. Rated 32 V.
An open fuse is nearly always a consequence: the overload comes first.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf
from typing import Literal

from .ranges import log_log
from .sources import Confidence, Figure, Source

FuseType = Literal["C", "F", "E"]
Verdict = Literal["yes", "no", "may"]

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


@dataclass(frozen=True)
class OpeningTime:
    """Shortest and longest time in seconds to open at a share of the rating."""

    percent_of_rating: float
    min_seconds: float
    max_seconds: float
    source: Source


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
    return Fuse("C", rating, _COLOUR_BY_RATING[rating], cold, drop_millivolts / rating, source, _C_OHMS)


def _miniature(rating: float, cold: float) -> Fuse:
    source = _small_colour_source(rating)
    return Fuse("F", rating, _COLOUR_BY_RATING[rating], cold, cold * HOT_OVER_COLD.value, source, _F_OHMS)


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


def _times(*rows: tuple[float, float, float, Confidence]) -> tuple[OpeningTime, ...]:
    title = "ISO 8820-3 operating times, as makers' sheets print them"
    return tuple(OpeningTime(p, low, high, Source(title, "memory", trust)) for p, low, high, trust in rows)


TIME_CURRENT: Mapping[FuseType, tuple[OpeningTime, ...]] = {
    "C": _times(
        (110, 360_000, inf, "high"),
        (135, 0.75, 600, "high"),
        (160, 0.25, 50, "medium"),
        (200, 0.15, 5, "high"),
        (350, 0.04, 0.5, "medium"),
        (600, 0.02, 0.1, "medium"),
    ),
    "F": _times(
        (110, 360_000, inf, "high"),
        (135, 0.75, 600, "high"),
        (160, 0.25, 50, "medium"),
        (200, 0.15, 5, "high"),
        (350, 0.08, 0.25, "low"),
        (600, 0.03, 0.1, "low"),
    ),
    "E": _times(
        (110, 360_000, inf, "high"),
        (135, 60, 1800, "low"),
        (200, 2, 60, "medium"),
        (350, 0.2, 7, "medium"),
        (600, 0.04, 1, "medium"),
    ),
}


def fuse(fuse_type: FuseType, rating_amps: float) -> Fuse:
    """The row of a type and rating; ValueError names the ratings that exist.

    >>> fuse("C", 20).colour
    'yellow'
    >>> fuse("C", 12)
    Traceback (most recent call last):
    ...
    ValueError: No medium blade fuse of 12 A; ratings are 1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40 A.
    """
    row = FUSES.get((fuse_type, rating_amps))
    if row is None:
        listed = ", ".join(f"{rating:g}" for rating in ratings(fuse_type))
        raise ValueError(f"No {FUSE_TYPES[fuse_type]} fuse of {rating_amps:g} A; ratings are {listed} A.")
    return row


def ratings(fuse_type: FuseType) -> tuple[float, ...]:
    """Ratings of a type in amps, rising.

    >>> ratings("E")[:3]
    (20, 25, 30)
    """
    return tuple(rating for kind, rating in FUSES if kind == fuse_type)


def fuse_ohms(fuse_type: FuseType, rating_amps: float, amps: float = 0.0) -> float:
    """Typical resistance in ohms at a current: cold at 0 A, hot at the rating, linear in amps squared.

    Above 135 % of the rating the element is about to open and the value stays at that of 135 %.
    Typical values, sigma `OHMS_RELATIVE_SIGMA`; medium blades from memory, the others low confidence.

    >>> round(fuse_ohms("C", 20), 5)
    0.00338
    >>> round(fuse_ohms("C", 20, 20.0), 5)
    0.0049
    """
    row = fuse(fuse_type, rating_amps)
    heat = min(abs(amps) / rating_amps, 1.35) ** 2
    return (row.cold_milliohms + (row.hot_milliohms - row.cold_milliohms) * heat) / 1000


def opening_time_seconds(fuse_type: FuseType, rating_amps: float, amps: float) -> tuple[float, float] | None:
    """Shortest and longest time until the fuse opens, in seconds; None where it carries for good.

    ISO 8820-3 from memory: log-log between its rows. Under 110 % of the rating None. From 110 % up to
    135 % the longest time has no limit (inf). Above 600 % both times fall with the square of the current
    (derived: no heat leaves the element). Ratings of 1 and 2 A may open sooner at 135 %, about 0.35 s.

    >>> opening_time_seconds("C", 10, 20.0)
    (0.15, 5.0)
    >>> opening_time_seconds("C", 10, 9.0) is None
    True
    """
    percent = 100 * abs(amps) / fuse(fuse_type, rating_amps).rating_amps
    rows = TIME_CURRENT[fuse_type]
    if percent < rows[0].percent_of_rating:
        return None
    last = rows[-1].percent_of_rating
    shrink = min(1.0, (last / percent) ** 2)
    within = min(percent, last)
    shortest = log_log([(row.percent_of_rating, row.min_seconds) for row in rows], within)
    limited = [(row.percent_of_rating, row.max_seconds) for row in rows if row.max_seconds < inf]
    longest = log_log(limited, within) if within >= limited[0][0] else inf
    return shortest * shrink, longest * shrink


def blows_within(seconds: float, fuse_type: FuseType, rating_amps: float, amps: float) -> Verdict:
    """Whether the fuse opens within a time: yes, no, or may where the standard leaves both open.

    >>> blows_within(5.0, "C", 10, 60.0), blows_within(5.0, "C", 10, 11.5), blows_within(5.0, "C", 10, 16.0)
    ('yes', 'no', 'may')
    """
    times = opening_time_seconds(fuse_type, rating_amps, amps)
    if times is None or seconds < times[0]:
        return "no"
    return "yes" if seconds >= times[1] else "may"
