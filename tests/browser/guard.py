"""Notices what no page of ours may do: break its policy, ask another host, throw."""

import contextlib
from collections.abc import Iterator
from urllib.parse import urlsplit

from chromium import close, phone
from playwright.sync_api import (
    Browser,
    BrowserContext,
    ConsoleMessage,
    Error,
    Request,
    WebError,
    Worker,
)
from pressing import soon

POLICY_WORDS = ("Content Security Policy", "Trusted Type", "TrustedScript")

# The browser tells a page's violations on the console, a worker's only to the worker itself.
TELL_VIOLATIONS = """
addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI, sample }) =>
  console.error("Content Security Policy:", violatedDirective, blockedURI, sample));
"""


class Guard:
    """Collects the misdeeds of all pages and workers of one browser context."""

    def __init__(self, context: BrowserContext) -> None:
        self.problems: list[str] = []
        self._context = context
        self._forgiven: list[str] = []
        context.on("console", self._console)
        context.on("request", self._request)
        context.on("weberror", self._error)
        context.on("page", lambda page: page.on("worker", self._watch))
        context.on("serviceworker", self._watch)

    def _watch(self, worker: Worker) -> None:
        worker.on("console", self._console)
        with contextlib.suppress(Error):  # a worker may have ended before it could be asked
            worker.evaluate(TELL_VIOLATIONS)

    def _console(self, message: ConsoleMessage) -> None:
        if any(word in message.text for word in POLICY_WORDS):
            self.problems.append(f"policy: {message.text}")

    def _request(self, request: Request) -> None:
        address = urlsplit(request.url)
        if address.scheme in ("http", "https") and address.hostname != "127.0.0.1":
            self.problems.append(f"other host: {request.url}")

    def _error(self, error: WebError) -> None:
        self.problems.append(f"error: {error.error}")

    def forgive(self, word: str) -> None:
        """Let pass the problems that a test has caused on purpose; waits for one to be told."""
        page = self._context.pages[0]

        def is_told() -> bool:
            return any(word in problem for problem in self.problems)

        soon(page, is_told, f"a problem that speaks of {word}: {self.problems}")
        self._forgiven.append(word)

    def check(self) -> None:
        """Raise AssertionError for what was done and not forgiven."""
        left = [p for p in self.problems if not any(word in p for word in self._forgiven)]
        assert not left, "\n".join(left)


@contextlib.contextmanager
def watched_phone(browser: Browser) -> Iterator[BrowserContext]:
    """A phone for what several tests share; its misdeeds are told at its end."""
    context = phone(browser)
    guard = Guard(context)
    yield context
    close(context)
    guard.check()
