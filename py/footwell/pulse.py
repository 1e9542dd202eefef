"""A sign of life while an answer takes long: whoever waits for it can tell work from silence."""

from __future__ import annotations

from collections.abc import Callable

_hearers: list[Callable[[], object]] = []


def listen(hear: Callable[[], object]) -> None:
    """Have something called again and again while the core works, many times a second; it must be quick."""
    _hearers[:] = [hear]


def beat() -> None:
    """Tell whoever listens that work goes on. Called where all long work passes through."""
    for hear in _hearers:
        hear()
