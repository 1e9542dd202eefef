"""Has the browser count which branches of scripts run, where FOOTWELL_BRANCHES names a folder."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar
from uuid import uuid4

from playwright.sync_api import BrowserContext, CDPSession, Error, Page

T = TypeVar("T")
FOLDER = os.environ.get("FOOTWELL_BRANCHES")


class Counting:
    """Counts on the pages of one phone what runs of these scripts, by their addresses: a page with a bug
    planted in it has scripts of the same names."""

    def __init__(self, scripts: Mapping[str, str]) -> None:
        self._scripts = scripts if FOLDER else {}
        self._sessions: list[CDPSession] = []

    def follow(self, phone: BrowserContext) -> None:
        """Count on every page that a phone opens from now on."""
        if not self._scripts:
            return
        opening = phone.new_page

        def new_page() -> Page:
            page = opening()
            self.count(page)
            return page

        phone.new_page = new_page  # type: ignore[method-assign]

    def count(self, page: Page) -> None:
        if not self._scripts:
            return
        session = page.context.new_cdp_session(page)
        session.send("Profiler.enable")
        session.send("Profiler.startPreciseCoverage", {"callCount": True, "detailed": True})
        self._sessions.append(session)
        page.on("crash", lambda _: self._sessions.remove(session))
        for ending in ("reload", "close", "goto"):
            setattr(page, ending, self._after_writing(session, getattr(page, ending)))

    def _after_writing(self, session: CDPSession, ending: Callable[..., T]) -> Callable[..., T]:
        def written_first(*arguments: Any, **named: Any) -> T:
            self._write(session)
            return ending(*arguments, **named)

        return written_first

    def write(self) -> None:
        for session in self._sessions:
            self._write(session)

    def _write(self, session: CDPSession) -> None:
        """Leave what a page counted since; a page that died tells nothing."""
        with suppress(Error):
            for told in session.send("Profiler.takePreciseCoverage")["result"]:
                if told["url"] in self._scripts:
                    self._leave(told["url"], json.dumps(told["functions"]))

    def _leave(self, address: str, functions: str) -> None:
        folder, name = Path(str(FOLDER)), address.rsplit("/", 1)[-1]
        (folder / name).write_text(self._scripts[address])
        (folder / f"{name}.{uuid4().hex}.json").write_text(functions)
