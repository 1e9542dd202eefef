"""Has the browser count which branches of the store run, where FOOTWELL_BRANCHES names a folder."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar
from uuid import uuid4

from playwright.sync_api import CDPSession, Error, Page
from storage_bugs import script

T = TypeVar("T")
FOLDER = os.environ.get("FOOTWELL_BRANCHES")


class Counting:
    """Counts on the pages of one phone, unless a bug is planted in its store."""

    def __init__(self, page_script: str) -> None:
        self._script = page_script
        self._wanted = bool(FOLDER) and page_script == script()
        self._sessions: list[CDPSession] = []

    def count(self, page: Page) -> None:
        if not self._wanted:
            return
        session = page.context.new_cdp_session(page)
        session.send("Profiler.enable")
        session.send("Profiler.startPreciseCoverage", {"callCount": True, "detailed": True})
        self._sessions.append(session)
        page.on("crash", lambda _: self._sessions.remove(session))
        for ending in ("reload", "close"):
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
                if told["url"].endswith("page.js"):
                    self._leave(f"{uuid4().hex}.json", json.dumps(told["functions"]))

    def _leave(self, name: str, text: str) -> None:
        folder = Path(str(FOLDER))
        (folder / "script.js").write_text(self._script)
        (folder / name).write_text(text)
