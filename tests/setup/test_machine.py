"""What the two commands say on a machine that lacks something."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
NODE = shutil.which("node") or "node"
SETUP = (ROOT / "web" / "build" / "setup").as_uri()


def said(script: str, path: str) -> str:
    """Run a few lines of the build's scripts; return what the person is told."""
    lines = f"import {{ command }} from '{SETUP}/say.mjs';\n{script}"
    run = subprocess.run(
        [NODE, "--input-type=module", "-e", lines],
        env={**os.environ, "PATH": path},
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert run.returncode == 1
    return run.stderr.strip()


def find_python(path: str) -> str:
    script = (
        f"import {{ systemPython }} from '{SETUP}/python.mjs';\n"
        "await command(async () => systemPython());"
    )
    return said(script, path)


def program(folder: Path, name: str, lines: str) -> None:
    """Put a program of our own where the scripts look for it."""
    file = folder / name
    file.write_text(f"#!/bin/sh\n{lines}\n")
    file.chmod(0o755)


def test_a_python_that_is_too_old_is_named_with_the_one_that_is_needed(tmp_path: Path) -> None:
    program(tmp_path, "python3", '[ "$1" = --version ] && echo Python 3.9.2 && exit 0; exit 1')
    assert find_python(str(tmp_path)) == (
        "Footwell needs Python 3.11 or newer. Only Python 3.9.2 was found. "
        "On Debian: sudo apt-get install python3 python3-venv"
    )


def test_a_missing_python_is_said_to_be_missing(tmp_path: Path) -> None:
    assert "No Python was found." in find_python(str(tmp_path))


@pytest.mark.parametrize("version", ["18.20.4", "16.0.0"])
def test_a_node_that_is_too_old_is_named_with_the_one_that_is_needed(version: str) -> None:
    script = (
        f"import {{ checkNode }} from '{SETUP}/node.mjs';\n"
        f"await command(async () => checkNode('{version}'));"
    )
    assert said(script, os.environ["PATH"]) == (
        f"Footwell needs Node 20 or newer; this is Node {version}."
    )


def test_a_program_that_cannot_be_installed_is_named_with_the_way_to_get_it(tmp_path: Path) -> None:
    program(tmp_path, "sh", "exit 1")  # nothing is there, apt-get included
    script = (
        f"import {{ ensurePrograms }} from '{SETUP}/debian.mjs';\n"
        "await command(async () => ensurePrograms(['chromium'], 'for the tests'));"
    )
    assert said(script, str(tmp_path)) == (
        "chromium is needed for the tests. On Debian: sudo apt-get install chromium"
    )
