"""A bare host for the files of a site, on the same address, that gives some of them wrongly."""

from __future__ import annotations

import select
import threading
from contextlib import suppress
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urlsplit

HTML = b"<!doctype html><title>Sorry</title>"
FAULTS = ("500", "truncated", "HTML as 200", "cut off", "missing")
STANDSTILLS = ("half of it", "no answer")
"""What was given when nothing more comes, while the connection stays."""

SLOW, PIECES = "slow", 8
TYPES = {".html": "text/html", ".js": "text/javascript", ".mjs": "text/javascript"}
LOOK_S = 0.1


class FaultyHost:
    """Serves a folder; `faults` has the files that are given with one of the faults above."""

    def __init__(self, folder: Path, port: int) -> None:
        self.faults: dict[str, str] = {}
        # What is being given now: what nobody reads to its end, and nobody lets go of, stays here.
        self.under_way: list[str] = []
        self.piece_s = 0.0
        self._folder = folder
        self._ended = threading.Event()
        host = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                host.answer(self)

            def log_message(self, *_: object) -> None:
                """Nobody reads it."""

        self._server = ThreadingHTTPServer(("127.0.0.1", port), Handler)
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        self._ended.set()
        self._server.shutdown()
        self._server.server_close()

    def answer(self, request: BaseHTTPRequestHandler) -> None:
        name = urlsplit(request.path).path.lstrip("/") or "index.html"
        self.under_way.append(name)
        try:
            # Whoever lets go of a file ends the connection.
            with suppress(ConnectionError):
                self.give(request, self._folder / name, self.faults.get(name, ""))
        finally:
            self.under_way.remove(name)

    def give(self, request: BaseHTTPRequestHandler, file: Path, fault: str) -> None:
        if fault == "missing" or not file.is_file():
            return give(request, 404, b"No such file.")
        if fault == "HTML as 200":
            return give(request, 200, HTML)
        body = file.read_bytes()
        if fault == "500":
            return give(request, 500, body)
        if fault == SLOW:
            return self.give_slowly(request, body, file.suffix)
        if fault in STANDSTILLS:
            return self.hold(request, body if fault == "half of it" else b"")
        half = body[: len(body) // 2]
        if fault == "truncated":
            return give(request, 200, half, suffix=file.suffix)
        return give(request, 200, half if fault == "cut off" else body, len(body), file.suffix)

    def give_slowly(self, request: BaseHTTPRequestHandler, body: bytes, suffix: str) -> None:
        give(request, 200, b"", len(body), suffix)
        size = -(-len(body) // PIECES)
        for start in range(0, len(body), size):
            self._ended.wait(self.piece_s)
            request.wfile.write(body[start : start + size])

    def hold(self, request: BaseHTTPRequestHandler, body: bytes) -> None:
        """Give half of a file, if there is one, and no more until the other end goes away."""
        if body:
            give(request, 200, body[: len(body) // 2], len(body))
        while not self._ended.is_set():
            heard, _, _ = select.select([request.connection], [], [], LOOK_S)
            if heard and not request.connection.recv(1):
                return


def give(
    request: BaseHTTPRequestHandler,
    status: int,
    body: bytes,
    length: int | None = None,
    suffix: str = ".html",
) -> None:
    """Answer; a body shorter than its told length is one whose connection was lost on the way."""
    request.send_response(status)
    request.send_header("content-type", TYPES.get(suffix, "application/octet-stream"))
    request.send_header("content-length", str(len(body) if length is None else length))
    request.send_header("cache-control", "no-store")
    request.end_headers()
    request.wfile.write(body)
