"""What planning needs to know: suspects with odds, the repair each needs, and what checks would show.

Nothing here knows of circuits. Suspects and options are numbers from zero, in the caller's fixed order.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Option:
    """A check that could come next.

    `chances[s][o]` is the chance of outcome o under suspect s; each row sums to one. `minutes` is the
    taking of the reading alone, `station` the place and set-up that it needs and leaves behind.
    """

    chances: tuple[tuple[float, ...], ...]
    minutes: float = 1.0
    station: int = 0


@dataclass(frozen=True, slots=True)
class Problem:
    """Suspects with their shares (any positive scale) and repairs, options, and where the person stands.

    `travel[a][b]` are the minutes from station a to station b: way and change of set-up. `ends[s][a]`, where
    given, are the minutes that follow at station a once only the repair of suspect s is left: to confirm it.
    """

    shares: tuple[float, ...]
    repairs: tuple[Hashable, ...]
    options: tuple[Option, ...]
    travel: tuple[tuple[float, ...], ...] = ((0.0,),)
    start: int = 0
    ends: tuple[tuple[float, ...], ...] = ()


def sure(outcomes: Sequence[int]) -> tuple[tuple[float, ...], ...]:
    """Chances of an option whose outcome under each suspect is certain.

    >>> sure([0, 1, 0])
    ((1.0, 0.0), (0.0, 1.0), (1.0, 0.0))
    """
    count = max(outcomes) + 1
    return tuple(tuple(float(o == k) for k in range(count)) for o in outcomes)
