"""The store as a script for the test page, as it is or with bugs planted in it.

A test of loss has a control: the same test with a bug planted in the store's source, which must turn
it red. The bug is put in by exact replacement, so a plant that no longer fits fails by itself.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from branch_counting import FOLDER

ROOT = Path(__file__).parents[3]


@dataclass(frozen=True)
class Bug:
    """`right`, as it stands in a file of the store, and what a careless hand would have written."""

    file: str
    right: str
    wrong: str


@cache
def script(*bugs: Bug) -> str:
    """The test page's script, with the bugs in it."""
    with TemporaryDirectory() as copied:
        top = Path(copied)
        for part in ("web/src/storage", "tests/browser/storage"):
            shutil.copytree(ROOT / part, top / part)
        for bug in bugs:
            plant(top / "web/src/storage" / bug.file, bug)
        return bundled(top / "tests/browser/storage/page.ts")


def plant(file: Path, bug: Bug) -> None:
    source = file.read_text()
    if source.count(bug.right) != 1:
        raise ValueError(f"the bug no longer fits into {bug.file}")
    file.write_text(source.replace(bug.right, bug.wrong))


def bundled(entry: Path) -> str:
    esbuild = [ROOT / "node_modules/.bin/esbuild", entry, "--bundle", "--format=iife"]
    esbuild += ["--sourcemap=inline"] if FOLDER else []
    environment = {**os.environ, "NODE_PATH": str(ROOT / "node_modules")}
    return subprocess.run(
        esbuild, env=environment, check=True, capture_output=True, text=True
    ).stdout
