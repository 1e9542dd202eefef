"""What people say of a load, and how often they say it when it does so and so.

The words are the trade's. A person compares with what the load usually does in that position; the
limits between the words are limits of perception and scatter (common practice, no source).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import lru_cache
from itertools import pairwise

from footwell.reference.sight_words import WORDS

LIMITS: Mapping[str, tuple[float, ...]] = {
    "motor": (0.08, 0.7),
    "turning": (-0.08, 0.08, 0.7),
    "lamp": (0.0004, 0.05, 0.55),
    "heat": (0.15, 0.7),
    "click": (0.5,),
    "sound": (0.15, 0.6),
    "messages": (0.25, 0.75),
    "signal": (0.05, 0.85, 1.15),
    "charge": (0.3, 0.8, 2.3),
}
"""Upper limit of each word but the last: activity as a share of what is usual in that position. What
turns the other way than usual has a share below nought."""

SCATTER = {
    "motor": 0.07,
    "turning": 0.07,
    "lamp": 0.12,
    "heat": 0.07,
    "click": 0.05,
    "sound": 0.10,
    "messages": 0.03,
    "signal": 0.03,
    "charge": 0.03,
}
"""Standard deviation of a limit, in decades: such that a load that does as usual is called less than that
by somebody who knows it about once in seventy looks, whether it turns, shines, warms, sounds, or is a
signal that a display shows (common practice, no source)."""

SLIP = {"me": 0.01, "customer": 0.04}
"""Share of words that have nothing to do with what the load does."""

ALWAYS_OFF = 0.02
"""Activity below which a load counts as off by design; what it then does is judged against nominal."""


FOREIGN = 0.01
"""Chance of a word that is none for its kind of load: somebody has it from a newer sheet."""


@lru_cache(maxsize=20_000)
def chances(kind: str, activity: float, usual: float, slip: float) -> dict[str, float]:
    """Chance of each word for a load of a kind, one of `WORDS`.

    `activity` and `usual` are shares of the nominal speed, light or heat, now and when all is well.

    >>> {w: round(p, 2) for w, p in chances("motor", 0.0, 0.6, 0.01).items()}
    {'still': 0.99, 'slow': 0.0, 'runs': 0.0}
    """
    return {word: chance(kind, word, activity, usual, slip) for word in WORDS[kind]}


def chance(kind: str, word: str, activity: float, usual: float, slip: float) -> float:
    """Chance of one of the words alone, which is all that evidence asks for.

    >>> round(chance("motor", "still", 0.0, 0.6, 0.01), 2)
    0.99
    """
    edges = EDGES[kind]
    if word not in edges:
        return FOREIGN
    low, high = edges[word]
    share = activity / (usual if abs(usual) > ALWAYS_OFF else 1.0)
    scatter = SCATTER[kind]
    above = _below(low, share, scatter) if low is not None else 0.0
    under = _below(high, share, scatter) if high is not None else 1.0
    return slip / len(edges) + (1.0 - slip) * (under - above)


def _below(limit: float, share: float, scatter: float) -> float:
    """Chance that a person puts a share below a limit; it rises with the limit."""
    if limit < 0.0:
        return 1.0 - _below(-limit, -share, scatter) if share < 0.0 else 0.0
    if share <= limit * 1e-3:
        return 1.0
    return 0.5 * math.erfc(math.log10(share / limit) / scatter / math.sqrt(2.0))


Edges = tuple[float | None, float | None]

EDGES: Mapping[str, Mapping[str, Edges]] = {
    kind: dict(zip(words, pairwise([None, *LIMITS[kind], None]), strict=True))
    for kind, words in WORDS.items()
}
"""Between which limits each word lies; None where there is none."""
