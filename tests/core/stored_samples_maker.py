"""Writes one sample of every stored format: a job as the page exports it, and the same as a link.

`.venv/bin/python -m tests.core.stored_samples_maker` writes fixtures/jobs and fixtures/links, for a
format that has no sample yet. A sample is never written again once a release has made such files.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

from footwell.job import links

from .job_rig import FOLDER, MINIBUS, Job, compact
from .job_road import road_of

JOB_FILE = FOLDER.parent / "jobs" / "1.jsonl"
LINK_FILE = FOLDER.parent / "links" / f"F{links.FORMAT}.txt"
"""Named by their format."""


def exported(*jobs: Job, count: int | None = None) -> str:
    """Jobs as the page exports them: a heading, then an event a line with the hash of its body."""
    events = [event for job in jobs for event in job.events]
    rows = [e | {"sha256": hashlib.sha256(e["body"].encode()).hexdigest()} for e in events]
    heading = {"footwell": "events", "format": 1, "count": len(rows) if count is None else count}
    return "".join(f"{compact(row)}\n" for row in [heading, *rows])


def write(file: Path, text: str) -> None:
    file.parent.mkdir(exist_ok=True)
    file.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    job = road_of(MINIBUS)
    write(JOB_FILE, exported(job))
    write(LINK_FILE, links.make(job.stored()) + "\n")
