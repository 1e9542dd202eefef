"""How long a blade fuse carries too much current: the time-current limits of ISO 8820-3."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf
from typing import Literal

from .fuses import FuseType
from .ranges import log_log, require_between
from .sources import Confidence, Source

Verdict = Literal["yes", "no", "may"]


@dataclass(frozen=True)
class OpeningTime:
    """Shortest and longest time in seconds to open at a share of the rating."""

    percent_of_rating: float
    min_seconds: float
    max_seconds: float
    source: Source


def _times(*rows: tuple[float, float, float, Confidence]) -> tuple[OpeningTime, ...]:
    title = "ISO 8820-3 operating times, as makers' sheets print them"
    return tuple(
        OpeningTime(p, low, high, Source(title, "memory", trust)) for p, low, high, trust in rows
    )


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


def opening_time_seconds(
    fuse_type: FuseType, rating_amps: float, amps: float
) -> tuple[float, float] | None:
    """Shortest and longest time until the fuse opens, in seconds; None where it carries for good.

    ISO 8820-3 from memory: log-log between its rows, any rating from 0.1 to 1000 A, ValueError
    outside. Under 110 % of the rating None. From 110 % up to 135 % the longest time has no limit
    (inf). Above 600 % both times fall with the square of the current (derived: no heat leaves the
    element). Ratings of 1 and 2 A may open sooner at 135 %, from about 0.35 s.

    >>> opening_time_seconds("C", 10, 20.0)
    (0.15, 5.0)
    >>> opening_time_seconds("C", 10, 9.0) is None
    True
    """
    require_between("Fuse rating", rating_amps, 0.1, 1000, "A")
    return seconds_to_open(TIME_CURRENT[fuse_type], rating_amps, amps)


def seconds_to_open(
    rows: tuple[OpeningTime, ...], rating_amps: float, amps: float
) -> tuple[float, float] | None:
    """The same by any table of a thermal protector: its rows rising, the first without a limit."""
    percent = 100 * abs(amps) / rating_amps
    if percent < rows[0].percent_of_rating:
        return None
    last = rows[-1].percent_of_rating
    shrink = min(1.0, (last / percent) ** 2)
    shortest, longest = _times_at(rows, min(percent, last))
    return shortest * shrink, longest * shrink


def _times_at(rows: tuple[OpeningTime, ...], percent: float) -> tuple[float, float]:
    shortest = log_log([(row.percent_of_rating, row.min_seconds) for row in rows], percent)
    limited = [(row.percent_of_rating, row.max_seconds) for row in rows if row.max_seconds < inf]
    return shortest, log_log(limited, percent) if percent >= limited[0][0] else inf


def blows_within(seconds: float, fuse_type: FuseType, rating_amps: float, amps: float) -> Verdict:
    """Whether the fuse opens within a time: yes, no, or may where the standard leaves both open.

    >>> [blows_within(5.0, "C", 10, amps) for amps in (60.0, 11.5, 16.0)]
    ['yes', 'no', 'may']
    """
    times = opening_time_seconds(fuse_type, rating_amps, amps)
    if times is None or seconds < times[0]:
        return "no"
    return "yes" if seconds >= times[1] else "may"
