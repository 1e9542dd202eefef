"""The orders of a browser's processes to the kernel to write out their files, counted by strace."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable
from pathlib import Path
from signal import SIGINT

ATTACHED = re.compile(r"Process \d+ attached")


def flushes_of(processes: list[int], act: Callable[[], object], report: Path) -> int:
    """How many there are while something is done. `report` is a file that is not there yet."""
    watch = ["strace", "-f", "-e", "trace=fsync,fdatasync", "-o", str(report)]
    watched = [f"--attach={process}" for process in processes]
    tracer = subprocess.Popen([*watch, *watched], stderr=subprocess.PIPE, text=True)
    assert tracer.stderr
    told = 0
    while told < len(processes):
        line = tracer.stderr.readline()
        assert line, "strace ended before it watched"
        told += bool(ATTACHED.search(line))
    act()
    tracer.send_signal(SIGINT)
    tracer.communicate()
    return len(re.findall(r"f(?:data)?sync\(", report.read_text()))


def enough_for_a_hundred(flushes: int) -> None:
    assert flushes >= 100, f"only {flushes} flushes for 100 saves"
