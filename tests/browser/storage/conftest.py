from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from counts import LONG
from playwright.sync_api import Browser, BrowserContext
from storage_bugs import Bug, script
from storage_rig import Phone

# Needs strace, which no other test does.
collect_ignore = [] if LONG else ["test_storage_flushes.py"]


@pytest.fixture
def phone(chromium: Browser) -> Iterator[Callable[..., Phone]]:
    """Makes a new phone; the bugs given are planted in its store."""
    contexts: list[BrowserContext] = []

    def new_phone(*bugs: Bug) -> Phone:
        contexts.append(chromium.new_context())
        return Phone(contexts[-1], script(*bugs))

    yield new_phone
    for context in contexts:
        context.close()
