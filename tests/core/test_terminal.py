"""The program itself: its shapes are published, and it ends without a traceback whatever happens."""

from __future__ import annotations

import os
import subprocess
import sys
from argparse import Namespace
from pathlib import Path

import pytest

from footwell import RELEASE
from footwell.cli import main
from footwell.terminal import commands
from footwell.terminal.schemas import FOLDER, PUBLISHED, file_of, schema_text
from footwell.terminal.shapes import Refusal

from .terminal_rig import MINIBUS_FILE, VAN_FILE, printed, run

SOURCES = Path(__file__).parents[2] / "py"


def started(*arguments: str) -> subprocess.Popen[str]:
    """`python -m footwell` in a process of its own."""
    return subprocess.Popen(
        [sys.executable, "-m", "footwell", *arguments],
        env=os.environ | {"PYTHONPATH": str(SOURCES), "PYTHONIOENCODING": "utf-8"},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
    )


@pytest.mark.parametrize("name", PUBLISHED)
def test_the_published_schema_is_that_of_what_is_printed(name: str) -> None:
    assert file_of(name).read_text("utf-8") == schema_text(name)


def test_every_command_has_a_published_schema_and_no_other_is_there() -> None:
    commands_there = set(printed("--help").partition("COMMAND\n")[2].split()) & set(PUBLISHED)
    assert commands_there == set(PUBLISHED) - {"refusal", "explain"}
    assert {file.name for file in FOLDER.iterdir()} == {f"{n}.schema.json" for n in PUBLISHED}


def test_it_runs_as_a_module() -> None:
    process = started("sheet", MINIBUS_FILE)
    out, err = process.communicate()
    assert (process.returncode, err) == (0, "")
    assert out.startswith("Saloon heater fan, Minibus, 24 V")


def test_a_reader_that_has_seen_enough_is_no_error() -> None:
    process = started("expect", VAN_FILE, "--json")
    assert process.stdout and process.stderr
    process.stdout.readline()
    process.stdout.close()
    assert process.stderr.read() == ""
    process.stderr.close()
    assert process.wait() == 0


def test_the_version_is_the_release() -> None:
    assert run("--version").out == f"footwell {RELEASE}\n"


def test_with_json_a_refusal_is_json_too_and_still_a_sentence() -> None:
    ended = run("expect", VAN_FILE, "--fault", "R9:open", "--json")
    problem = Refusal.model_validate_json(ended.out).error
    assert ended.code == 2
    assert ended.err == f"{problem.sentence}\n"


def test_a_mistake_of_our_own_is_a_sentence(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(_: Namespace) -> commands.Answer:
        raise ZeroDivisionError("secret of the sheet")

    monkeypatch.setattr(commands, "sheet", broken)
    assert main(["sheet", MINIBUS_FILE]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("Footwell made a mistake here")
    assert "ZeroDivisionError in broken, line " in err
    assert "secret" not in err
