"""Circuit breakers of SAE J553: types, how long they carry too much, resistance."""

from collections.abc import Mapping
from math import inf
from typing import Literal

from .fuse_times import OpeningTime
from .sources import Confidence, Figure, Source

BreakerType = Literal["I", "II", "III"]

TYPES: Mapping[BreakerType, str] = {
    "I": "closes again by itself",
    "II": "closes again once its supply is off",
    "III": "closed again by hand",
}

_DROP = Source("bimetal breakers drop 100 to 150 mV at their rating", "memory", "low")


def _row(percent: float, low: float, high: float, trust: Confidence) -> OpeningTime:
    source = Source("SAE J553 and makers' curves of thermal breakers", "memory", trust)
    return OpeningTime(percent, low, high, source)


TRIP_TIMES: tuple[OpeningTime, ...] = (
    _row(110, 3600, inf, "low"),
    _row(135, 15, 1800, "medium"),
    _row(200, 3, 60, "low"),
    _row(350, 0.5, 10, "low"),
    _row(600, 0.15, 3, "low"),
)
RATED_DROP_VOLTS = Figure(0.125, "V at rated current", _DROP)


def breaker_ohms(rating_amps: float) -> float:
    """Resistance of a sound breaker, in ohms (memory, low).

    >>> round(breaker_ohms(25.0), 4)
    0.005
    """
    return RATED_DROP_VOLTS.value / rating_amps
