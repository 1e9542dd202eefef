"""Runs the rows and prints each with its figure, floor, goal, counts and minutes."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from xml.etree import ElementTree

from branches import LINKS_AND_FILES, STORE, Branches
from branches import read as branches_in
from counts import GOAL, LONG, MINUTES, counted, rounds
from hostile_links import LARGE_BYTES, SLOW_S, Cost, corpus, cost_of, mutations
from rows import ROWS, Row

ROOT = Path(__file__).parents[2]
SEED = 1


@dataclass
class Found:
    """What came of a row: tests that held, tests that did not, planted bugs found, figures."""

    passed: int = 0
    failed: list[str] = field(default_factory=list)
    bugs: int = 0
    figures: dict[str, float] = field(default_factory=dict)

    def take(self, report: Path) -> None:
        """Add pytest's own report."""
        for case in ElementTree.parse(report).iter("testcase"):
            name = case.get("name", "")
            for told in case.iter("property"):
                key, value = told.get("name", ""), float(told.get("value", "nan"))
                self.figures[key] = max(value, self.figures.get(key, value))
            if any(case.find(bad) is not None for bad in ("failure", "error", "skipped")):
                self.failed.append(name)
            elif "found_out" in name:
                self.bugs += 1
            else:
                self.passed += 1


def tested(row: Row) -> Found:
    """Run the tests of a row."""
    found = Found()
    env = dict(os.environ)
    if row.always_long:
        env.setdefault("FOOTWELL_LONG", "1")
    times = counted(1, *row.repeats)
    for number in rounds(times):
        if times > 1:
            found.figures["rounds"] = number
        with TemporaryDirectory() as folder:
            report = Path(folder) / "report.xml"
            command = [sys.executable, "-m", "pytest", "-q", "-c", "py/pyproject.toml"]
            command += ["--rootdir", ".", f"--junitxml={report}", *row.tests]
            command += ["--timeout", "0"] if LONG else []
            command += ["-o", "junit_family=xunit1"]
            command += ["-k", row.chosen] if row.chosen else []
            ended = subprocess.run(command, cwd=ROOT, env=env, capture_output=True, text=True)
            if ended.returncode > 1 or not report.exists():
                found.failed.append(f"not run: {ended.stdout[-300:]}{ended.stderr[-300:]}")
                continue
            found.take(report)
    return found


LEAST_COVERED = 95.0
BROWSER = "tests/browser/test_"
OF_THE_PAGE = {
    # Without the tests in which the page dies: such a page tells nothing.
    "store": (("tests/browser/storage", "-k", "not found_out and not dies"), (STORE,)),
    "links and files": (
        tuple(
            f"{BROWSER}{name}.py"
            for name in (
                *("screens_links", "links_opened_hostile", "circuit_files", "stored_formats"),
                *("screens_abilities", "screens_erase"),
            )
        ),
        LINKS_AND_FILES,
    ),
}
"""Of the page: the tests, and whose sources count."""


def covered(row: Row) -> Found:
    """Q1: the share of branches that the tests of links and replay take."""
    found = Found()
    with TemporaryDirectory() as folder:
        data, report = Path(folder) / "data", Path(folder) / "report.json"
        coverage = [sys.executable, "-m", "coverage"]
        pytest = ["-m", "pytest", "-q", "-c", "py/pyproject.toml", "--rootdir", ".", *row.tests]
        run = [
            *coverage,
            "run",
            f"--data-file={data}",
            "--branch",
            "--source=footwell.job",
            *pytest,
        ]
        subprocess.run(run, cwd=ROOT, check=True, capture_output=True)
        told = [*coverage, "json", f"--data-file={data}", "-o", str(report)]
        subprocess.run(told, cwd=ROOT, check=True, capture_output=True)
        totals = json.loads(report.read_text())["totals"]
    share = 100.0 * totals["covered_branches"] / totals["num_branches"]
    found.figures |= {"branches": totals["num_branches"], "covered %": round(share, 1)}
    shares = {"core": share}
    for name, (chosen, parts) in OF_THE_PAGE.items():
        page = page_covered(chosen, parts)
        shares[name] = page.covered_percent
        print(f"    not taken of {name}: {page.missed}", flush=True)
        found.figures |= {name: page.total, f"{name} %": round(page.covered_percent, 1)}
    found.passed = 1
    for name, percent in shares.items():
        if percent < LEAST_COVERED:
            found.failed.append(f"{percent:.1f} % of the branches of the {name}")
    return found


def page_covered(chosen: Sequence[str], parts: tuple[str, ...]) -> Branches:
    """Q1 of a part of the page: by pytest's arguments, and by the tests that need no browser."""
    with TemporaryDirectory() as folder:
        pytest = [sys.executable, "-m", "pytest", "-q", "-c", "py/pyproject.toml", "--rootdir", "."]
        run([*pytest, *chosen], FOOTWELL_BRANCHES=folder)
        run(["node", "tests/run/node_tests.mjs"], NODE_V8_COVERAGE=str(Path(folder) / "node"))
        return branches_in(Path(folder), parts)


def run(command: list[str], **env: str) -> None:
    """Raises RuntimeError with what it printed last where it fails."""
    ended = subprocess.run(
        command, cwd=ROOT, env=dict(os.environ) | env, capture_output=True, text=True
    )
    if ended.returncode:
        raise RuntimeError(f"{command[1:3]}: {ended.stdout[-2000:]}{ended.stderr[-300:]}")


def mutated(most: int) -> Cost:
    """The cost of mutated links, a thousand of one seed after another."""
    cost = Cost()
    for number in rounds(most // 1_000):
        cost.add(cost_of(mutations(1_000, SEED + number - 1), False))
    return cost


def links_measured(found: Found) -> None:
    """C1 in CPython. Time and room are taken apart, since weighing slows."""
    timed, weighed = cost_of(corpus(), False), cost_of(corpus(), True)
    changed = mutated(counted(1_000, 20_000, 5_000_000))
    slowest = max(timed.slowest_s, changed.slowest_s)
    found.figures |= {"slowest s": round(slowest, 2), "MB": round(weighed.largest_bytes / 1e6, 1)}
    found.figures |= {"corpus": timed.tried, f"mutations (from seed {SEED})": changed.tried}
    found.failed += [*timed.faults, *changed.faults]
    if slowest > SLOW_S:
        found.failed.append(f"a link took over {SLOW_S:g} s")
    if weighed.largest_bytes > LARGE_BYTES:
        found.failed.append(f"a link took over {LARGE_BYTES / 1e6:g} MB")


def measured(row: Row) -> Found:
    if row.id == "Q1":
        return covered(row)
    return tested(row) if row.tests else Found()


def verdict(row: Row, found: Found) -> str:
    over = [f"{key} above {top:g}" for key, top in row.limits if found.figures.get(key, 1e9) > top]
    below = [*found.failed, *over]
    if below:
        return "BELOW THE FLOOR: " + "; ".join(below)
    if found.passed == 0:
        return "not measured"
    return "holds as far as it is measured" if row.missing else "holds"


def told(row: Row, found: Found, minutes: float) -> str:
    figures = ", ".join(f"{key} {value:g}" for key, value in found.figures.items())
    lines = [
        f"{row.id}  {row.measure}",
        f"    {verdict(row, found)}: {found.passed} tests held, {found.bugs} planted bugs found"
        + (f"; {figures}" if figures else ""),
        f"    floor {row.floor}; goal {row.goal}; {minutes:.1f} minutes",
    ]
    return "\n".join([*lines, f"    short of the row: {row.missing}"] if row.missing else lines)


LEAST_KILLED = 80.0


def mutants_told() -> int:
    """Q2, with the name of each mutant that lives."""
    from mutants import MUTATED, measured  # its tool is installed only when it is asked for

    found = measured()
    verdict = "holds" if found.killed_percent >= LEAST_KILLED else "BELOW THE FLOOR"
    print(f"Q2  mutants killed in {', '.join(MUTATED)} (Python; the page's store is not measured)")
    print(f"    {verdict}: {found.killed_percent:.1f} % killed, {dict(found.counts)}")
    print("    floor 80 %; goal 95 %; alive:", *found.alive, sep="\n      ")
    return int(verdict != "holds")


COUNTS = ("long", "goal", "--")


def told_counts() -> str:
    if not LONG:
        return "Short form: the counts of floor and goal are for `long` and `goal`"
    allowed = "" if float("inf") == MINUTES else f", {MINUTES:g} minutes a row at most"
    return f"Counts of the {'goal' if GOAL else 'floor'}{allowed}"


def main(words: list[str]) -> int:
    if "mutants" in words:
        return mutants_told()
    names = [word for word in words if word not in (*COUNTS, "firefox")]
    if "firefox" in words:
        from firefox_rows import main as firefox  # as above

        return firefox(names)
    unknown = set(names) - {row.id for row in ROWS}
    if unknown:
        print(f"There is no such row: {', '.join(sorted(unknown))}")
        return 2
    print(told_counts())
    below = 0
    for row in ROWS:
        if names and row.id not in names:
            continue
        begun = time.monotonic()
        found = measured(row)
        if row.id == "C1":
            links_measured(found)
        print(told(row, found, (time.monotonic() - begun) / 60), flush=True)
        below += verdict(row, found).startswith("BELOW")
    print(f"{below} rows below their floor")
    return 1 if below else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
