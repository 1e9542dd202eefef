from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from counts import LONG
from playwright.sync_api import Browser
from storage_bugs import Bug, script
from storage_rig import Phone

# Needs strace, which no other test does.
collect_ignore = [] if LONG else ["test_storage_flushes.py"]


@pytest.fixture
def phone(chromium: Browser) -> Iterator[Callable[..., Phone]]:
    """Makes a new phone; the bugs given are planted in its store."""
    phones: list[Phone] = []

    def new_phone(*bugs: Bug) -> Phone:
        phones.append(Phone(chromium.new_context(), script(*bugs)))
        return phones[-1]

    yield new_phone
    for phone in phones:
        phone.branches.write()
        phone.context.close()
