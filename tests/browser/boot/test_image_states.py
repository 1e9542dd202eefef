"""Plain start, start from the image and CPython show the same of a job: belief, next check, every word."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from math import isclose
from random import Random
from typing import Any

import pytest
from chromium import SIMPLE_CODE, launch
from core.job_rig import sheet
from counts import LONG, counted, rounds
from parity.cases import sample_sheets
from parity.seed import commit
from playwright.sync_api import Browser, BrowserContext, Playwright
from site_server import BUILT, ROOT, Site

from footwell import messages as m
from footwell.job.events import EVENT_FORMAT, Event
from footwell.job.replay import replay
from footwell.page.practice_view import begin
from footwell.practice.electrician import Run, work
from footwell.practice.hidden import hidden_vehicle
from footwell.service import call

STATES = counted(2, 50, 50)
"""At a time, at least; in the long forms all of each job that is drawn."""

TIMES = counted(1, 20, 20)
ALLOWED = 1e-9
"""Relative, of anything above a billionth."""

ASK = """([way, texts]) => {
  window.ways ??= {};
  window.ways[way] = bench.answers(way, "look", texts);
  window.ways[way].catch(() => {});
}"""
"""Without waiting: the ways work side by side, and CPython beside them."""


@pytest.fixture(scope="module")
def chromium(browsers: Playwright) -> Iterator[Browser]:
    """Hundreds of states are worth the making of fast code, which is also what phones run."""
    browser = launch(browsers, *([] if LONG else [SIMPLE_CODE]))
    yield browser
    browser.close()


def job(name: str, seed: int) -> list[Event]:
    """A whole job with something hidden, worked by the simulated electrician."""
    entries = begin(m.PracticeWanted(sheet=sheet(name), seed=seed)).entries
    run = Run()
    for entry in entries:
        body = entry.body if isinstance(entry.body, str) else json.dumps(entry.body)
        event = Event(
            device="practice",
            n=len(run.events) + 1,
            job="practice",
            kind=entry.kind,
            format=EVENT_FORMAT,
            body=body,
        )
        run.events.append(event)
    work(run, hidden_vehicle(replay(run.events)))
    return run.events


def states(chance: Random, least: int) -> list[str]:
    """Jobs left after any of their events, each state once, as the page asks about them. A job grows: what
    was worked out of its earlier events need not be worked out anew."""
    asked: list[str] = []
    while len(asked) < least:
        events = job(chance.choice(sample_sheets()), chance.randrange(2**31))
        every = range(1, len(events) + 1)
        after = every if LONG else sorted(chance.sample(every, min(least, len(events))))
        told = [event.model_dump(mode="json") for event in events]
        asked += [json.dumps({"events": told[:n]}) for n in after]
    return asked


def differences(one: Any, other: Any, at: str = "") -> list[str]:
    """Where two answers do not agree: words to the letter, numbers to a billionth."""
    if isinstance(one, dict) and isinstance(other, dict) and list(one) == list(other):
        return [it for key in one for it in differences(one[key], other[key], f"{at}.{key}")]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        pairs = enumerate(zip(one, other, strict=True))
        return [it for n, (a, b) in pairs for it in differences(a, b, f"{at}[{n}]")]
    if isinstance(one, float) and isinstance(other, float):
        alike = isclose(one, other, rel_tol=ALLOWED, abs_tol=ALLOWED)
    else:
        alike = bool(one == other)
    return [] if alike else [f"{at}: {one} and {other}"]


def core_since_the_build() -> list[str]:
    """Files of the core that are newer than the built site: the browser would answer by another core."""
    built = (BUILT / "build.json").stat().st_mtime
    files = (ROOT / "py" / "footwell").rglob("*.py")
    return [file.name for file in files if file.stat().st_mtime > built]


@pytest.mark.timeout(3600 if LONG else 600)
def test_plain_image_and_cpython_show_the_same_of_a_job(
    new_phone: Callable[[], BrowserContext],
    harness_site: Site,
    record_property: Callable[[str, object], None],
) -> None:
    assert not core_since_the_build(), "the site is older than the core: npm run build"
    page = new_phone().new_page()
    page.goto(f"{harness_site.address}harness/bench.html")
    assert page.evaluate("bench.makeImage()")
    seed, count = commit(), 0
    chance = Random(seed)
    for _ in rounds(TIMES):
        asked = states(chance, STATES)
        for way in ("bundle", "image"):
            page.evaluate(ASK, [way, asked])
        ours = [call("look", text) for text in asked]
        plain, image = (page.evaluate(f"ways.{way}") for way in ("bundle", "image"))
        assert page.evaluate("bench.image('ping', '{}').then(({ found }) => found)")
        assert image == plain
        for text, one, other in zip(asked, ours, image, strict=True):
            assert not differences(json.loads(one), json.loads(other)), f"{seed}: {text}"
        count += len(asked)
        print(f"{count} job states, seed {seed}", flush=True)
    record_property("job states", count)


@pytest.mark.parametrize(
    ("one", "other", "alike"),
    [
        ({"a": [1.0, "b"]}, {"a": [1.0 + 1e-12, "b"]}, True),
        ({"a": [1.0, "b"]}, {"a": [1.0 + 1e-6, "b"]}, False),
        ({"a": [1.0, "b"]}, {"a": [1.0, "c"]}, False),
        ({"a": [1.0, "b"]}, {"a": [1.0]}, False),
    ],
)
def test_answers_that_differ_are_told_apart(one: Any, other: Any, alike: bool) -> None:
    assert (differences(one, other) == []) is alike
