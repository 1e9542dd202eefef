"""Time that a program itself took, whatever else the machine had to do meanwhile (Linux)."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from os import getpid
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage
from time import process_time

WORKER = "DedicatedWorker"
"""Name of the thread in which Chromium runs a page's worker."""


def worker_time() -> float:
    """Seconds of processor time of the workers in this program's browsers (proc(5), schedstat)."""
    parents = dict(_parents())
    mine = {str(getpid())}
    while found := {pid for pid, parent in parents.items() if parent in mine} - mine:
        mine |= found
    return sum(_seconds(task) for pid in mine for task in Path("/proc", pid).glob("task/[0-9]*"))


def _parents() -> Iterator[tuple[str, str]]:
    for process in Path("/proc").glob("[0-9]*"):
        # A process may be gone before it is read.
        with suppress(OSError):
            yield process.name, (process / "stat").read_text().rpartition(")")[2].split()[1]


def _seconds(task: Path) -> float:
    with suppress(OSError):
        if (task / "comm").read_text().startswith(WORKER):
            return int((task / "schedstat").read_text().split()[0]) / 1e9
    return 0.0


def children_time() -> float:
    """Seconds of processor time of all programs that this one started and saw end."""
    used = getrusage(RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def milliseconds(clock: Callable[[], float], work: Callable[[], object]) -> float:
    begun = clock()
    work()
    return (clock() - begun) * 1e3


def here(work: Callable[[], object]) -> float:
    """Milliseconds of work in this process."""
    return milliseconds(process_time, work)
