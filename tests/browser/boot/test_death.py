"""A worker that dies costs time and nothing else."""

from __future__ import annotations

import random
import time
from collections.abc import Callable, Iterable

import pytest
from asking import ask, kill_idle, kill_over_a_call, start_asking
from counts import counted, rounds
from playwright.sync_api import Page
from waiting import kill_workers, until, until_python_is

KILLS = counted(4, 50, 500)
"""Half of them on a phone that has no image of Python's memory yet."""

MOMENTS = random.Random(5)
READY = "footwell.state().state === 'ready'"

LOST_WITH_ITS_WORKER = (
    "web/src/worker/bridge.ts",
    "if (entry.deaths < DEATHS_TOO_MANY) this.#queue.putBack(entry);\n    else entry.reject",
    "if (entry.deaths > DEATHS_TOO_MANY) entry.reject",
)


def a_call_in_hand_is_answered_by_the_next_worker(bridge: Page) -> None:
    until(bridge, READY)
    kill_over_a_call(bridge, "answer")
    # Calls are answered in their order: what has no answer when a later one has it never gets any.
    assert "ok" in ask(bridge)
    assert "ok" in str(bridge.evaluate("window.answer")), "a call in hand is lost"


def test_a_bridge_that_loses_the_call_in_hand_is_found_out(
    planted_bridge: Callable[..., Page],
) -> None:
    with pytest.raises(AssertionError, match="is lost"):
        a_call_in_hand_is_answered_by_the_next_worker(planted_bridge(LOST_WITH_ITS_WORKER))


def test_a_worker_that_dies_idle_is_replaced_before_it_is_asked(bridge: Page) -> None:
    until(bridge, READY)
    kill_idle(bridge)
    until(bridge, READY)
    assert "ok" in ask(bridge)


def slowest_answer_after_a_kill(bridge: Page, numbers: Iterable[int]) -> tuple[int, float]:
    """Kill at so many moments; how many they were, and the longest seconds from a kill to an answer."""
    slowest, kills = 0.0, 0
    for kills in numbers:
        until(bridge, READY)
        start_asking(bridge, f"answer{kills}")
        # Before, in and after the call; the seed only chooses the moments.
        bridge.wait_for_timeout(MOMENTS.randrange(40))
        kill_workers(bridge)
        begun = time.monotonic()
        assert "ok" in ask(bridge)
        slowest = max(slowest, time.monotonic() - begun)
        assert "ok" in str(bridge.evaluate(f"window.answer{kills}")), "a call is lost"
    return kills, round(slowest, 1)


def test_calls_survive_worker_after_worker(
    bridge: Page, record_property: Callable[[str, object], None]
) -> None:
    a_call_in_hand_is_answered_by_the_next_worker(bridge)
    plain, slowest = slowest_answer_after_a_kill(bridge, rounds(KILLS // 2))
    bridge.evaluate("footwell.makeImage()")
    imaged, slowest_imaged = slowest_answer_after_a_kill(bridge, rounds(KILLS // 2))
    record_property("kills", 1 + plain + imaged)
    record_property("slowest answer s", max(slowest, slowest_imaged))
    record_property("slowest with an image s", slowest_imaged)


def test_a_start_that_is_cut_off_is_made_again(bridge: Page) -> None:
    kill_workers(bridge)
    until(bridge, READY)
    assert "ok" in ask(bridge)


def test_the_page_itself_gets_its_python_back(page: Page) -> None:
    until_python_is(page, "ready")
    page.evaluate("document.documentElement.dataset.python = 'another word'")
    kill_workers(page)
    until_python_is(page, "ready")


def test_brackets_and_lists_without_end_are_refused_and_python_lives_on(bridge: Page) -> None:
    until(bridge, READY)
    bridge.evaluate("workersOfThisPage.splice(0, workersOfThisPage.length - 1)")
    for endless in ("[" * 200_000, '{"text": [' + "0," * 2_000_000 + "0]}", '"' * 1_000_001):
        assert "error" in ask(bridge, text=endless)
    assert "ok" in ask(bridge)
    assert bridge.evaluate("workersOfThisPage.length") == 1, "it was another Python that answered"


def test_an_unknown_call_is_refused_with_a_sentence(bridge: Page) -> None:
    answer = ask(bridge, name="no such call")
    assert isinstance(answer["error"], dict)
    assert answer["error"]["sentence"]
