"""Q1 of the page: which branches of its store, links and files the tests take, as the browser counts.

The browser tells, for each function that ran, the stretches that ran another number of times than what
stands around them (Chrome DevTools Protocol, Profiler.takePreciseCoverage). A stretch that never ran
in any test is a branch not taken; a function that never ran is one too. A stretch that always ran as
often as what stands around it is not told and not counted.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

Span = tuple[int, int]
_SOURCE = re.compile(
    r"^\s*// \S*?(web/src/\S+|service_worker/\S+|node_modules/\S+|tests/\S+)$", re.MULTILINE
)
STORE = "web/src/storage/"
LINKS_AND_FILES = tuple(
    f"web/src/features/{name}"
    for name in ("openlink/", "share/", "files/", "jobs/FileKey", "jobs/Rescue", "jobs/files")
)


@dataclass(frozen=True)
class Branches:
    """How many there are, and the lines of those never taken, by file."""

    total: int
    missed: dict[str, list[int]]

    @property
    def covered_percent(self) -> float:
        return 100.0 * (1 - sum(map(len, self.missed.values())) / max(1, self.total))


def branches_of(
    text: str, reports: list[list[dict[str, Any]]], parts: tuple[str, ...] = (STORE,)
) -> Branches:
    """From what the browser told of one script in each page: its functions. `parts`: whose sources count."""
    counted = [dict(spans(functions)) for functions in reports]
    known = {span for each in counted for span in each if source_at(text, span[0], parts)}
    missed = [span for span in sorted(known) if not any(times(each, span) for each in counted)]
    by_file: dict[str, list[int]] = {}
    for start, _ in without_inner(missed):
        by_file.setdefault(source_at(text, start, parts), []).append(text.count("\n", 0, start) + 1)
    return Branches(len(known), by_file)


def spans(functions: list[dict[str, Any]]) -> Iterator[tuple[Span, int]]:
    for function in functions:
        for told in function["ranges"]:
            yield (told["startOffset"], told["endOffset"]), told["count"]


def times(each: dict[Span, int], span: Span) -> int:
    """How often a stretch ran on one page: as often as the closest one around it that is told."""
    around = [it for it in each if it[0] <= span[0] and span[1] <= it[1]]
    return each[min(around, key=lambda it: it[1] - it[0])] if around else 0


def without_inner(missed: list[Span]) -> list[Span]:
    """Of a stretch that never ran, what lies inside it is not counted again."""
    return [
        one
        for one in missed
        if not any(it != one and it[0] <= one[0] and one[1] <= it[1] for it in missed)
    ]


def source_at(text: str, place: int, parts: tuple[str, ...]) -> str:
    """The file in which a place of the bundled script was written; empty for one of no part that counts."""
    before = list(_SOURCE.finditer(text, 0, place))
    file = before[-1][1] if before else ""
    return Path(file).name if file.startswith(parts) else ""


def read(folder: Path, parts: tuple[str, ...] = (STORE,)) -> Branches:
    """From what the tests left in a folder: scripts, and a file for each page that ran one."""
    total, missed = 0, {}
    for script in folder.glob("*.js"):
        reports = [json.loads(file.read_text()) for file in folder.glob(f"{script.name}.*.json")]
        found = branches_of(script.read_text(), reports, parts)
        total, missed = total + found.total, missed | found.missed
    return Branches(total, missed)
