"""A release with any one file wrong is not taken, and the running one goes on.

One file at a time differs from all that was ever stored, and is given with each fault. The short form takes a
sample that the commit chooses; the long form all in an order that it chooses, or as many as the time allows.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from counts import FIRST, LONG, rounds
from faulty_host import FAULTS, FaultyHost
from offline_helpers import (
    cache_names,
    look_for_update,
    release_of,
)
from parity.seed import commit
from playwright.sync_api import Page
from site_server import Site
from waiting import until, until_python_is

UNLISTED = ("service_worker.js", "build.json")
FALLBACK = ("python/wheels-", "python_stdlib.zip")
WORKER_WAITS = "navigator.serviceWorker.ready.then((it) => it.waiting !== null)"
FORGET_ALL_BUT = """(own) => caches.keys().then((names) =>
  Promise.all(names.filter((name) => !own.includes(name)).map((name) => caches.delete(name))))"""
"""What a refused release had stored soundly is kept for the next try; hundreds would fill the phone."""

HASH_READ = re.compile(r'\.join\(""\)===(\w+)\.sha256')


def sampled(cases: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """One file for each fault, chosen by the commit; all of them, shuffled, in the long form."""
    chance = random.Random(commit())
    if LONG:
        return chance.sample(cases, len(cases))
    return [chance.choice([case for case in cases if case[1] == fault]) for fault in FAULTS]


def listed(site: Site) -> list[str]:
    files = [path for path in site.folder.rglob("*") if path.is_file()]
    names = sorted(path.relative_to(site.folder).as_posix() for path in files)
    return [n for n in names if n not in UNLISTED and not any(word in n for word in FALLBACK)]


def change(site: Site, name: str) -> None:
    """Make a release in which this file is as it never was before; none of it is ever run."""
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


def a_faulty_file_refuses_the_release(page: Page, host: FaultyHost, name: str, fault: str) -> None:
    host.path, host.fault = name, fault
    assert look_for_update(page) == "refused", f"taken with {name} {fault}"
    assert not page.evaluate(WORKER_WAITS)


@pytest.mark.long
def test_with_any_fault_of_any_file_the_running_release_goes_on(
    kept_page: Page, own_site: Site, record_property: Callable[[str, object], None]
) -> None:
    before = release_of(kept_page)
    names = listed(own_site)
    assert len(names) > 15
    cases = sampled([(name, fault) for name in names for fault in FAULTS])
    with faulty(own_site) as host:
        own = cache_names(kept_page)
        for tried in rounds(len(cases), FIRST):
            name, fault = cases[tried - 1]
            change(own_site, name)
            a_faulty_file_refuses_the_release(kept_page, host, name, fault)
            kept_page.evaluate(FORGET_ALL_BUT, own)
        host.fault = ""
        assert look_for_update(kept_page) == "stored", "refused without a fault"
        until(kept_page, WORKER_WAITS)
    kept_page.reload()
    until_python_is(kept_page, "ready")
    assert release_of(kept_page) == before
    record_property("files", len(names))
    record_property("files x faults", len(cases))
    record_property("of them tried, the first", FIRST)
    record_property("of them tried, the last", tried)


def test_a_worker_that_does_not_read_the_hashes_is_found_out(
    kept_page: Page, own_site: Site
) -> None:
    name = listed(own_site)[0]
    change(own_site, name)
    blinded(own_site.folder / "service_worker.js")
    with faulty(own_site) as host, pytest.raises(AssertionError, match="taken with"):
        a_faulty_file_refuses_the_release(kept_page, host, name, "truncated")


def blinded(worker: Path) -> None:
    text, count = HASH_READ.subn(r'.join("")===\1.sha256||!0', worker.read_text())
    assert count == 1, "the bug no longer fits"
    worker.unlink()
    worker.write_text(text)
