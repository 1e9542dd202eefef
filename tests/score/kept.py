"""Outcomes of jobs in a file, a line each, so that a count of hours may be cut off and gone on with.

A file holds for one state of the core: what it says is taken as it stands.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

from core.loop_rig import Trial
from sheet_jobs import Outcome


class Kept:
    """The outcomes in a file, by row, vehicle and seed; without a file nothing is kept."""

    def __init__(self, path: Path | None) -> None:
        self._path = path
        lines = path.read_text().splitlines() if path and path.exists() else []
        self._found = {line["key"]: line for line in map(json.loads, lines)}

    def of(self, row: str, trial: Trial, seed: int) -> Outcome | None:
        """The outcome that the file has, None where the job is yet to be worked."""
        line = self._found.get(_key(row, trial, seed))
        if line is None:
            return None
        told = {k: tuple(v) if isinstance(v, list) else v for k, v in line["outcome"].items()}
        return Outcome(trial=trial, **told)

    def keep(self, row: str, seed: int, outcome: Outcome) -> None:
        """Write an outcome at the end of the file, at once."""
        if self._path is None:
            return
        told = {k: v for k, v in asdict(outcome).items() if k != "trial"}
        self._path.parent.mkdir(parents=True, exist_ok=True)
        with self._path.open("a") as file:
            line = {"key": _key(row, outcome.trial, seed), "outcome": told}
            file.write(json.dumps(line) + "\n")


def _key(row: str, trial: Trial, seed: int) -> str:
    return f"{row.strip()} | {trial} | {seed}"
