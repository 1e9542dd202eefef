"""Storing a release comes to an end: all of it is there, or it is refused and nothing of it goes on."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from bad_releases import careless, change, faulty, listed
from faulty_host import PIECES, SLOW, STANDSTILLS, FaultyHost
from offline_helpers import look_for_update
from parity.seed import some
from playwright.sync_api import Page
from pressing import soon
from site_server import Site

A_MINUTE = re.compile(r"\b6e4(?=/6)")
SHORT_S = 4.0
"""Takes the place of the minute in which nothing moves."""

A_WHILE_S, FOR_EVER = 60.0, 1e6
MOVED = re.compile(r"(?<==\(\)=>\{)(\w+)=0(?=\})")
STOPS_THE_REST = re.compile(r"throw \w+\.abort\((\w+)\),\1")


def in_short(site: Site, seconds: float = SHORT_S) -> None:
    careless(site, A_MINUTE, f"{1000 * seconds}")


def sheets(site: Site) -> list[str]:
    return [name for name in listed(site) if "/circuits/" in name]


def refused_when_nothing_moves(page: Page, host: FaultyHost, name: str, patience_s: float) -> None:
    for standstill in STANDSTILLS:
        host.faults = {name: standstill}
        assert look_for_update(page, patience_s) == "refused", f"did not end with {standstill}"


def stands_still(kept_page: Page, own_site: Site) -> None:
    name = sheets(own_site)[0]
    change(own_site, name)
    in_short(own_site)
    with faulty(own_site) as host:
        refused_when_nothing_moves(kept_page, host, name, A_WHILE_S)
        host.faults = {}
        assert look_for_update(kept_page) == "stored"


def waits_for_ever(kept_page: Page, own_site: Site) -> None:
    name = sheets(own_site)[0]
    change(own_site, name)
    in_short(own_site, FOR_EVER)
    with faulty(own_site) as host, pytest.raises(AssertionError, match="did not end"):
        refused_when_nothing_moves(kept_page, host, name, 3 * SHORT_S)


def taken_although_slow(page: Page, site: Site) -> None:
    """The file takes twice as long as nothing may move; no piece of it takes more than a quarter."""
    with faulty(site) as host:
        host.faults, host.piece_s = {sheets(site)[0]: SLOW}, 2 * SHORT_S / PIECES
        assert look_for_update(page) == "stored", "a slow file was refused"


def is_slow_and_moves(kept_page: Page, own_site: Site) -> None:
    change(own_site, sheets(own_site)[0])
    in_short(own_site)
    taken_although_slow(kept_page, own_site)


def gives_a_file_only_so_much_time(kept_page: Page, own_site: Site) -> None:
    change(own_site, sheets(own_site)[0])
    in_short(own_site)
    careless(own_site, MOVED, "0")
    with pytest.raises(AssertionError, match="a slow file was refused"):
        taken_although_slow(kept_page, own_site)


def all_is_let_go_of(page: Page, host: FaultyHost, patience_s: float) -> None:
    """A file left half read would keep one of the few connections to the host."""
    soon(page, lambda: not host.under_way, "the end of what was under way", patience_s)


def refused_whole(page: Page, site: Site, patience_s: float) -> None:
    """One sheet is missing while another stands still."""
    with faulty(site) as host:
        host.faults = dict(zip(sheets(site)[:2], (STANDSTILLS[0], "missing"), strict=True))
        assert look_for_update(page) == "refused"
        all_is_let_go_of(page, host, patience_s)


def is_missing_in_part(kept_page: Page, own_site: Site) -> None:
    change(own_site, *sheets(own_site)[:2])
    refused_whole(kept_page, own_site, A_WHILE_S)


def lets_the_rest_go_on(kept_page: Page, own_site: Site) -> None:
    change(own_site, *sheets(own_site)[:2])
    careless(own_site, STOPS_THE_REST, r"throw \1")
    with pytest.raises(AssertionError, match="never came"):
        refused_whole(kept_page, own_site, 2 * SHORT_S)


PROMISES = [
    (stands_still, waits_for_ever),
    (is_slow_and_moves, gives_a_file_only_so_much_time),
    (is_missing_in_part, lets_the_rest_go_on),
]
RELEASES, BUGS = zip(*some(PROMISES, 1), strict=True)
Shown = Callable[[Page, Site], None]


def named(shown: Shown) -> str:
    return shown.__name__


@pytest.mark.parametrize("release", RELEASES, ids=named)
def test_storing_comes_to_an_end_with_a_release_that(
    release: Shown, kept_page: Page, own_site: Site
) -> None:
    release(kept_page, own_site)


@pytest.mark.parametrize("bug", BUGS, ids=named)
def test_a_worker_is_found_out_that(bug: Shown, kept_page: Page, own_site: Site) -> None:
    bug(kept_page, own_site)
