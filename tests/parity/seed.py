"""The seed of random samples: another with every commit, and the same again from its hash (FOOTWELL_SEED)."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterable
from random import Random
from typing import TypeVar

T = TypeVar("T")


def commit() -> str:
    """Hash of the commit, or of the one asked for; empty outside a repository, a seed as good as any."""
    if told := os.environ.get("FOOTWELL_SEED"):
        return told
    asked = ["git", "rev-parse", "HEAD"]
    return subprocess.run(asked, capture_output=True, text=True, check=False).stdout.strip()


def some(cases: Iterable[T], most: int) -> list[T]:
    """All cases with FOOTWELL_LONG=1, else as many drawn by the commit, in their order."""
    every = list(cases)
    if os.environ.get("FOOTWELL_LONG") or len(every) <= most:
        return every
    drawn = Random(f"{commit()} {most}").sample(range(len(every)), most)
    return [every[n] for n in sorted(drawn)]
