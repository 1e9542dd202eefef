"""Branches are counted as taken only where some page or test took them, whatever bundle it ran."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest
from branches import STORE, Report, branches_of, read
from source_map import SourceMap

ROOT = Path(__file__).parents[2]
SOURCE = """export function save(wanted: boolean): string {
  return wanted
    ? "saved"
    : "left";
}
export function never(): string {
  return "never";
}
"""
USES = {
    "all": 'import { never, save } from "../web/src/storage/append";\nif (save(true) === "") never();\n',
    "one": '// moved\nimport { save } from "../web/src/storage/append";\nsave(false);\nsave(true);\n',
    "other": 'import { save } from "../web/src/other/append";\nsave(true);\n',
}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for place in ("storage", "other"):
        source = tmp_path / "web" / "src" / place / "append.ts"
        source.parent.mkdir(parents=True)
        source.write_text(SOURCE)
    return tmp_path


def ran(folder: Path, *uses: str) -> tuple[int, dict[str, list[int]]]:
    """What is found after Node ran these uses, each as a bundle of its own."""
    for use in uses:
        entry = folder / "tests" / f"{use}.test.ts"
        entry.parent.mkdir(exist_ok=True)
        entry.write_text(USES[use])
        built = entry.with_suffix(".mjs")
        esbuild = [ROOT / "node_modules/.bin/esbuild", entry, "--bundle", "--format=esm"]
        subprocess.run(
            [*esbuild, "--sourcemap=inline", f"--outfile={built}", "--log-level=error"], check=True
        )
        env = {**os.environ, "NODE_V8_COVERAGE": str(folder / "node")}
        subprocess.run(["node", built], env=env, check=True)
    found = read(folder, (STORE,))
    return found.total, found.missed


def test_a_branch_that_nobody_took_is_missed_and_so_is_a_function_that_never_ran(
    folder: Path,
) -> None:
    assert ran(folder, "all") == (3, {f"{STORE}append.ts": [4, 6]})


def test_a_branch_that_another_bundle_took_as_often_as_all_around_it_is_taken(folder: Path) -> None:
    total, missed = ran(folder, "all", "one")
    assert (total, missed) == (4, {f"{STORE}append.ts": [6]})


def test_what_is_not_of_the_store_does_not_count(folder: Path) -> None:
    assert ran(folder, "other") == (0, {})


def test_a_script_without_a_map_tells_nothing() -> None:
    told = {"ranges": [{"startOffset": 0, "endOffset": 9, "count": 1}]}
    assert branches_of([Report(SourceMap("save(1);\n"), [told], (STORE,))]).total == 0
