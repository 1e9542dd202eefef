"""A release with any one file wrong is not taken, and the running one goes on.

One file at a time differs from all that was ever stored, and is given with each fault. The short form takes a
sample that the commit chooses; the long form all in an order that it chooses, or as many as the time allows.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable

import pytest
from bad_releases import WORKER_WAITS, careless, change, faulty, listed
from counts import FIRST, LONG, rounds
from faulty_host import FAULTS, FaultyHost
from offline_helpers import cache_names, look_for_update, release_of
from parity.seed import commit
from playwright.sync_api import Page
from site_server import Site
from waiting import until, until_python_is

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


def a_faulty_file_refuses_the_release(page: Page, host: FaultyHost, name: str, fault: str) -> None:
    host.faults = {name: fault}
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
        host.faults = {}
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
    careless(own_site, HASH_READ, r'.join("")===\1.sha256||!0')
    with faulty(own_site) as host, pytest.raises(AssertionError, match="taken with"):
        a_faulty_file_refuses_the_release(kept_page, host, name, "truncated")
