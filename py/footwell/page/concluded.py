"""What a job amounts to, kept for the next question about the same job."""

from __future__ import annotations

from collections.abc import Sequence

from footwell.diagnosis.conclude import Conclusion, conclude
from footwell.job.events import Event
from footwell.job.replay import Replayed, replay

_LAST: list[tuple[list[Event], Replayed, Conclusion]] = []
"""The job asked about last: on a large sheet its conclusion takes seconds on a phone."""


def concluded(events: Sequence[Event]) -> tuple[Replayed, Conclusion]:
    """A job replayed, and its conclusion. Raises JobError, SheetError."""
    asked = list(events)
    if not _LAST or _LAST[0][0] != asked:
        replayed = replay(asked)
        _LAST[:] = [(asked, replayed, conclude(replayed.case))]
    return _LAST[0][1:]
