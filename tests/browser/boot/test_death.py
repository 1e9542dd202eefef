"""A worker that dies costs time and nothing else."""

from __future__ import annotations

import random
import time
from collections.abc import Callable

from asking import ask, start_asking
from counts import counted, rounds
from playwright.sync_api import Page
from waiting import kill_workers, until, until_python_is

KILLS = counted(5, 50, 500)
MOMENTS = random.Random(5)
READY = "footwell.state().state === 'ready'"


def test_a_call_waiting_when_its_worker_dies_is_answered_by_the_next(bridge: Page) -> None:
    start_asking(bridge, "answer")
    kill_workers(bridge)
    assert "ok" in str(until(bridge, "window.answer"))


def test_a_worker_that_dies_idle_is_replaced_before_it_is_asked(bridge: Page) -> None:
    until(bridge, READY)
    kill_workers(bridge)
    until(bridge, "footwell.state().state === 'loading'")
    until(bridge, READY)
    assert "ok" in ask(bridge)


def test_calls_survive_worker_after_worker(
    bridge: Page, record_property: Callable[[str, object], None]
) -> None:
    slowest = 0.0
    for number in rounds(KILLS):
        until(bridge, READY)
        start_asking(bridge, f"answer{number}")
        # Before, in and after the call; the seed only chooses the moments.
        bridge.wait_for_timeout(MOMENTS.randrange(40))
        kill_workers(bridge)
        begun = time.monotonic()
        assert "ok" in str(until(bridge, f"window.answer{number}"))
        slowest = max(slowest, time.monotonic() - begun)
    record_property("kills", number)
    record_property("slowest answer s", round(slowest, 1))


def test_a_start_that_is_cut_off_is_made_again(bridge: Page) -> None:
    kill_workers(bridge)
    until(bridge, READY)
    assert "ok" in ask(bridge)


def test_the_page_itself_gets_its_python_back(page: Page) -> None:
    until_python_is(page, "ready")
    kill_workers(page)
    until_python_is(page, "loading")
    until_python_is(page, "ready")


def test_brackets_without_end_are_refused_and_python_lives_on(bridge: Page) -> None:
    assert "error" in ask(bridge, text="[" * 200_000)
    assert "ok" in ask(bridge)


def test_an_unknown_call_is_refused_with_a_sentence(bridge: Page) -> None:
    answer = ask(bridge, name="no such call")
    assert isinstance(answer["error"], dict)
    assert answer["error"]["sentence"]
