"""A bare host for the files of a site, on the same address, that gives one of them wrongly."""

from __future__ import annotations

import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urlsplit

HTML = b"<!doctype html><title>Sorry</title>"
FAULTS = ("500", "truncated", "HTML as 200", "cut off", "missing")
TYPES = {".html": "text/html", ".js": "text/javascript", ".mjs": "text/javascript"}


class FaultyHost:
    """Serves a folder; `path` is the file with `fault`, one of FAULTS, or "" for none."""

    def __init__(self, folder: Path, port: int) -> None:
        self.path, self.fault = "", ""
        host = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                host.answer(self, folder)

            def log_message(self, *_: object) -> None:
                """Nobody reads it."""

        self._server = ThreadingHTTPServer(("127.0.0.1", port), Handler)
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        self._server.shutdown()
        self._server.server_close()

    def answer(self, request: BaseHTTPRequestHandler, folder: Path) -> None:
        name = urlsplit(request.path).path.lstrip("/") or "index.html"
        file = folder / name
        fault = self.fault if name == self.path else ""
        if fault == "missing" or not file.is_file():
            return give(request, 404, b"No such file.")
        body = file.read_bytes()
        if fault == "500":
            return give(request, 500, body)
        if fault == "HTML as 200":
            return give(request, 200, HTML)
        half = body[: len(body) // 2]
        if fault == "truncated":
            return give(request, 200, half, suffix=file.suffix)
        sent = half if fault == "cut off" else body
        return give(request, 200, sent, len(body), file.suffix)


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
