"""A copy of the built site, served on a port of its own, that a test may break or take away."""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import threading
from pathlib import Path
from typing import IO, Any

ROOT = Path(__file__).resolve().parents[2]
BUILT = ROOT / "web" / "dist"


class Site:
    """Files in a folder, and a server for them."""

    def __init__(self, folder: Path, source: Path = BUILT) -> None:
        self.folder = folder / "site"
        # What was asked so far: path, status, bytes sent.
        self.requests: list[dict[str, Any]] = []
        self.take(source)
        self._port = free_port()
        self._server: subprocess.Popen[str] | None = None
        self.start()

    @property
    def address(self) -> str:
        """Where the site is, with a slash at the end."""
        return f"http://127.0.0.1:{self._port}/"

    def take(self, source: Path) -> None:
        """Show the files of another folder from now on, as linked copies."""
        shutil.rmtree(self.folder, ignore_errors=True)
        shutil.copytree(source, self.folder, copy_function=link_or_copy)

    def start(self) -> None:
        """Serve; does nothing while the server runs."""
        if self._server is None:
            command = ["node", "web/build/serve.mjs", "--log", "--port", str(self._port)]
            self._server = subprocess.Popen(
                [*command, "--dir", str(self.folder)], cwd=ROOT, stdout=subprocess.PIPE, text=True
            )
            assert self._server.stdout
            assert self._server.stdout.readline().startswith("Footwell is at")
            self._reader = threading.Thread(target=self._note, args=[self._server.stdout])
            self._reader.start()

    def _note(self, lines: IO[str]) -> None:
        with lines:
            for line in lines:
                self.requests.append(json.loads(line))

    def stop(self) -> None:
        """Refuse all connections."""
        if self._server:
            self._server.terminate()
            self._server.wait()
            self._reader.join()
            self._server = None

    def path(self, pattern: str) -> Path:
        """Return the one file whose path in the site fits a pattern."""
        [found] = self.folder.glob(pattern)
        return found

    def replace(self, pattern: str, content: bytes) -> None:
        """Put other bytes in a file's place; the built site keeps its own."""
        path = self.path(pattern)
        path.unlink()
        path.write_bytes(content)

    def list_anew(self) -> None:
        """Let the build list the files as they are now: a new release."""
        for written in ("index.html", "service_worker.js"):
            self.replace(written, self.path(written).read_bytes())
        command = ["node", "service_worker/build.mjs", str(self.folder)]
        subprocess.run(command, cwd=ROOT, check=True, timeout=60)

    def remove(self, pattern: str) -> None:
        """Take a file away."""
        self.path(pattern).unlink()


def link_or_copy(source: str, target: str) -> None:
    """Link, or copy where the folders lie on different disks."""
    try:
        os.link(source, target)
    except OSError:
        shutil.copy2(source, target)


def free_port() -> int:
    """Return a port that nobody uses now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port
