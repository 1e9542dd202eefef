"""What jobs came to in a file, a line each, so that a count of hours may be cut off and gone on with.

A file holds for one state of the core: what it says is taken as it stands.
"""

from __future__ import annotations

import json
import math
import random
import time
from collections.abc import Callable, Mapping
from multiprocessing import Pool
from pathlib import Path
from typing import Any, TypeVar

Job = TypeVar("Job")


class Kept:
    """What jobs came to, by a key of row, vehicle and seed; without a file nothing is kept."""

    def __init__(self, path: Path | None) -> None:
        self._path = path
        lines = path.read_text().splitlines() if path and path.exists() else []
        self._found = {line["key"]: line["outcome"] for line in map(json.loads, lines)}

    def of(self, key: str) -> dict[str, Any] | None:
        """What the file has, lists as tuples, None where the job is yet to be worked."""
        told = self._found.get(key)
        if told is None:
            return None
        return {k: tuple(v) if isinstance(v, list) else v for k, v in told.items()}

    def keep(self, key: str, told: dict[str, Any]) -> None:
        """Write what a job came to at the end of the file, at once."""
        if self._path is None:
            return
        self._path.parent.mkdir(parents=True, exist_ok=True)
        with self._path.open("a") as file:
            file.write(json.dumps({"key": key, "outcome": told}) + "\n")


def worked(
    jobs: Mapping[str, Job],
    work: Callable[[tuple[str, Job]], tuple[str, dict[str, Any]]],
    kept: Kept,
    processes: int,
    minutes: float = math.inf,
) -> tuple[dict[str, dict[str, Any]], int]:
    """What jobs came to by their keys, in their order, and how many were worked now and not kept from before.
    Those that time does not allow are missing, drawn from all alike. "work" gives back a job's key with what
    it came to."""
    found = {key: told for key in jobs if (told := kept.of(key)) is not None}
    missing = [(key, job) for key, job in jobs.items() if key not in found]
    random.Random(len(jobs)).shuffle(missing)
    before, end = len(found), time.monotonic() + 60 * minutes
    with Pool(processes) as pool:
        for key, told in pool.imap_unordered(work, missing):
            found[key] = told
            kept.keep(key, told)
            if time.monotonic() > end:
                break
    return {key: found[key] for key in jobs if key in found}, len(found) - before
