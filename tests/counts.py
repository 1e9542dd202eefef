"""How often what depends on chance is repeated: in every test run, for a row's floor, for its goal."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator

LONG = bool(os.environ.get("FOOTWELL_LONG"))
"""FOOTWELL_LONG=1 asks for the counts of the floors, FOOTWELL_LONG=goal for those of the goals."""

GOAL = os.environ.get("FOOTWELL_LONG") == "goal"
MINUTES = float(os.environ.get("FOOTWELL_MINUTES") or "inf")
"""After so long a repetition begins no other round; how many it came to is told by its test."""

FIRST = int(os.environ.get("FOOTWELL_FIRST") or 1)
"""The round to begin with: what an earlier run came to need not be done again. Where chance draws what is
done in a round, FOOTWELL_SEED names the commit of that run (`parity.seed`)."""


def counted(short: int, floor: int, goal: int) -> int:
    return goal if GOAL else floor if LONG else short


def rounds(most: int, first: int = 1) -> Iterator[int]:
    """Numbers from the first, as many as there should be or as the time allows, at least one."""
    end = time.monotonic() + 60 * MINUTES
    for number in range(min(first, most), most + 1):
        yield number
        if time.monotonic() > end:
            return
