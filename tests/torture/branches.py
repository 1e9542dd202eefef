"""Q1 of the page: which branches of its store, links and files the tests take, as V8 counts.

The browser tells, for each function that ran, the stretches that ran another number of times than what
stands around them (Chrome DevTools Protocol, Profiler.takePreciseCoverage); Node tells the same of tests
without a browser. A stretch that never ran in any test is a branch not taken; a function that never ran is
one too. A stretch that always ran as often as what stands around it is not told and not counted. Bundles
differ, so a stretch goes by the first and last token that it has in its source.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from source_map import SourceMap, Token

Stretch = tuple[Token, Token]
STORE = "web/src/storage/"
LINKS_AND_FILES = (
    *(f"web/src/features/{name}/" for name in ("openlink", "share", "files")),
    *(f"web/src/features/jobs/{name}" for name in ("JobsFileKey", "Rescue", "files")),
    "web/src/app/ui/FileKey",
)


@dataclass(frozen=True)
class Branches:
    """How many there are, and the lines of those never taken, by file."""

    total: int
    missed: dict[str, list[int]]

    @property
    def covered_percent(self) -> float:
        return 100.0 * (1 - sum(map(len, self.missed.values())) / max(1, self.total))


class Report:
    """What one page, or one process of Node, told of a script, as far as it is of these parts."""

    def __init__(self, script: SourceMap, functions: list[dict[str, Any]], parts: tuple[str, ...]):
        self._script = script
        self._told: list[tuple[int, int, int]] = []
        self.stretches: set[Stretch] = set()
        for start, end, count in _told(functions):
            tokens = script.within(start, end)
            if tokens and tokens[0].file == tokens[1].file and tokens[0].file.startswith(parts):
                self.stretches.add(tokens)
                self._told.append((start, end, count))

    def times(self, stretch: Stretch) -> int:
        """How often it ran: as often as the closest stretch told around it; 0 where it is not there."""
        first, last = (self._script.offset_of.get(token, -1) for token in stretch)
        around = [it for it in self._told if it[0] <= first and last < it[1]]
        return min(around, key=lambda it: it[1] - it[0])[2] if around and first >= 0 else 0


def _told(functions: list[dict[str, Any]]) -> Iterator[tuple[int, int, int]]:
    for function in functions:
        for told in function["ranges"]:
            yield told["startOffset"], told["endOffset"], told["count"]


def branches_of(reports: Iterable[Report]) -> Branches:
    reports = list(reports)
    known: set[Stretch] = set().union(*(report.stretches for report in reports))
    missed = [it for it in sorted(known) if not any(report.times(it) for report in reports)]
    by_file: dict[str, list[int]] = {}
    for first, _ in without_inner(missed):
        by_file.setdefault(first.file, []).append(first.line + 1)
    return Branches(len(known), by_file)


def without_inner(missed: list[Stretch]) -> list[Stretch]:
    """Of a stretch that never ran, what lies inside it is not counted again."""
    return [
        one
        for one in missed
        if not any(it != one and it[0] <= one[0] and one[1] <= it[1] for it in missed)
    ]


def read(folder: Path, parts: tuple[str, ...] = (STORE,)) -> Branches:
    """From what the tests left in a folder: scripts with a file for each page, and Node's own reports."""
    return branches_of([*_of_pages(folder, parts), *_of_node(folder / "node", parts)])


def _of_pages(folder: Path, parts: tuple[str, ...]) -> Iterator[Report]:
    for file in folder.glob("*.js"):
        script = SourceMap(file.read_text())
        for report in folder.glob(f"{file.name}.*.json"):
            yield Report(script, json.loads(report.read_text()), parts)


def _of_node(folder: Path, parts: tuple[str, ...]) -> Iterator[Report]:
    for report in folder.glob("coverage-*.json"):
        for told in json.loads(report.read_text())["result"]:
            file = Path(told["url"].removeprefix("file://"))
            if file.name.endswith(".test.mjs"):
                yield Report(SourceMap(file.read_text()), told["functions"], parts)
