"""Q2: the share of mutants of links, replay and job files that the tests kill, by mutmut.

Mutmut changes one thing at a time in a copy of the core and runs the tests that reach it. Only the Python
part is measured: the page's store (TypeScript) has its planted bugs, not mutants.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
WORK = ROOT / ".cache" / "mutants"
_REPLAY = ("replay_epochs", "replay_facts", "names_composed")
TESTS = {
    "job/links.py": ("links", "links_strangers", "links_samples", "names_told"),
    "job/stored.py": ("stored_checks", *_REPLAY),
    "job/replay.py": (*_REPLAY, "stored_checks", "old_plug", "service_events", "service_strangers"),
    "terminal/job_files.py": ("job_files", "terminal_jobs", "names_told"),
}
"""By file, the tests of the core whose task it is. Others may kill more; none of them is counted on."""

MUTATED = tuple(TESTS)
TOLD = re.compile(r"^\s*(?:footwell\.)?(\S+__mutmut_\d+): (.+)$", re.M)


@dataclass(frozen=True)
class Mutants:
    """How many there are by what became of them, and the names of those that live."""

    counts: Counter[str]
    alive: tuple[str, ...]

    @property
    def killed_percent(self) -> float:
        """A mutant that no test reaches, or that only ended by taking for ever, is counted as it is."""
        dead = self.counts["killed"] + self.counts["timeout"]
        return 100.0 * dead / max(1, self.counts.total())


def settings(files: Sequence[str]) -> str:
    mutated = "\n    ".join(f"footwell/{file}" for file in files)
    names = dict.fromkeys(name for file in files for name in TESTS[file])
    tests = "\n    ".join(f"tests/core/test_{name}.py" for name in names)
    return (
        "[mutmut]\nsource_paths=footwell\n"
        f"only_mutate=\n    {mutated}\n"
        "also_copy=\n    fixtures\n"
        f"pytest_add_cli_args_test_selection=\n    {tests}\n"
        "pytest_add_cli_args=\n    -x\n    -p\n    no:cacheprovider\n"
        "use_git_change_detection=False\n"
    )


def prepare(files: Sequence[str]) -> None:
    """A copy of the core, its tests and the fixtures, for mutmut alone."""
    shutil.rmtree(WORK, ignore_errors=True)
    WORK.mkdir(parents=True)
    shutil.copytree(ROOT / "py" / "footwell", WORK / "footwell")
    shutil.copytree(ROOT / "tests" / "core", WORK / "tests" / "core")
    shutil.copytree(ROOT / "fixtures", WORK / "fixtures")
    (WORK / "setup.cfg").write_text(settings(files))


def measured(files: Sequence[str] = MUTATED) -> Mutants:
    """Run mutmut over the files. Raises RuntimeError with its words when it could not."""
    prepare(files)
    mutmut = [str(Path(sys.executable).with_name("mutmut"))]
    run = subprocess.run([*mutmut, "run"], cwd=WORK, capture_output=True, text=True)
    told = subprocess.run(
        [*mutmut, "results", "--all", "true"], cwd=WORK, capture_output=True, text=True
    )
    found = TOLD.findall(told.stdout)
    if not found:
        raise RuntimeError(f"mutmut found nothing: {run.stdout[-600:]}{run.stderr[-600:]}")
    counts = Counter(state.strip() for _, state in found)
    alive = tuple(name for name, state in found if state.strip() not in ("killed", "timeout"))
    return Mutants(counts, alive)


if __name__ == "__main__":
    result = measured(sys.argv[1:] or MUTATED)
    print(dict(result.counts), f"killed {result.killed_percent:.1f} %")
    print("\n".join(result.alive))
