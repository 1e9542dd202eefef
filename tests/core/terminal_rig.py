"""Commands run as from a terminal, with what they print."""

from __future__ import annotations

import io
import sys
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from typing import TypeVar

import pytest

from footwell.cli import main
from footwell.messages import Message

from .job_rig import FOLDER, MINIBUS, TRACTOR, VAN

Shape = TypeVar("Shape", bound=Message)

MINIBUS_FILE, TRACTOR_FILE, VAN_FILE = (
    str(FOLDER / f"{name}.json") for name in (MINIBUS, TRACTOR, VAN)
)


@dataclass(frozen=True)
class Ended:
    """A command that has ended: exit code, output, error output."""

    code: int
    out: str
    err: str


def run(*arguments: str) -> Ended:
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        try:
            code = main(arguments)
        except SystemExit as told:  # --help and --version
            code = int(told.code or 0)
    return Ended(code, out.getvalue(), err.getvalue())


def printed(*arguments: str) -> str:
    """What a command that goes well prints."""
    ended = run(*arguments)
    assert (ended.code, ended.err) == (0, "")
    return ended.out


def answer(shape: type[Shape], *arguments: str) -> Shape:
    """What a command prints with --json, read strictly by its shape."""
    return shape.model_validate_json(printed(*arguments, "--json"))


def refused(*arguments: str) -> str:
    """The sentence of a command that is refused: the first line, and nothing printed beside."""
    ended = run(*arguments)
    assert (ended.code, ended.out) == (2, "")
    assert "Traceback" not in ended.err
    return ended.err.splitlines()[0]


def typed_in(patch: pytest.MonkeyPatch, data: bytes) -> Callable[[], None]:
    """Gives a command its input."""
    patch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))
    return patch.undo
