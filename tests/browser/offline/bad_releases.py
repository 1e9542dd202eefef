"""Making a release of which a file is bad, and a worker that is careless about it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

from faulty_host import FaultyHost
from site_server import Site

UNLISTED = ("service_worker.js", "build.json")
FALLBACK = ("python/wheels-", "python_stdlib.zip")
WORKER_WAITS = "navigator.serviceWorker.ready.then((it) => it.waiting !== null)"


def listed(site: Site) -> list[str]:
    files = [path for path in site.folder.rglob("*") if path.is_file()]
    names = sorted(path.relative_to(site.folder).as_posix() for path in files)
    return [n for n in names if n not in UNLISTED and not any(word in n for word in FALLBACK)]


def change(site: Site, *names: str) -> None:
    """Make a release in which these files are as they never were before; none of it is ever run."""
    for name in names:
        site.replace(name, (site.folder / name).read_bytes() + b"\n")
    site.list_anew()


@contextmanager
def faulty(site: Site) -> Iterator[FaultyHost]:
    """The site's files on its address by a host that can be told to give them wrongly."""
    port = int(site.address.rsplit(":", 1)[1].strip("/"))
    site.stop()
    host = FaultyHost(site.folder, port)
    yield host
    host.stop()


def careless(site: Site, pattern: re.Pattern[str], instead: str) -> None:
    """Change the release's worker as built, in one place."""
    text, count = pattern.subn(instead, site.path("service_worker.js").read_text())
    assert count == 1, "the change no longer fits"
    site.replace("service_worker.js", text.encode())
