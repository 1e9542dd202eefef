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


def counted(short: int, floor: int, goal: int) -> int:
    return goal if GOAL else floor if LONG else short


def rounds(most: int) -> Iterator[int]:
    """Numbers from 1, as many as there should be or as the time allows, at least one."""
    end = time.monotonic() + 60 * MINUTES
    for number in range(1, most + 1):
        yield number
        if time.monotonic() > end:
            return
