"""Plain start, start from the image and CPython show the same of a job: belief, next check, every word."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from math import isclose
from random import Random
from typing import Any

import pytest
from core.job_rig import sheet
from counts import counted
from parity.cases import sample_sheets
from parity.seed import commit
from playwright.sync_api import BrowserContext, Page
from site_server import Site

from footwell import messages as m
from footwell.job.events import EVENT_FORMAT, Event
from footwell.job.replay import replay
from footwell.page.practice_view import begin
from footwell.practice.electrician import Run, work
from footwell.practice.hidden import hidden_vehicle
from footwell.service import call

STATES = counted(3, 1_000, 1_000)
STATES_A_JOB = 3
ALLOWED = 1e-9
"""Relative, of anything above a billionth."""


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


def states() -> Iterator[str]:
    """Jobs left after any of their events, as the page asks about them."""
    chance = Random(commit())
    for _ in range(-(-STATES // STATES_A_JOB)):
        events = job(chance.choice(sample_sheets()), chance.randrange(2**31))
        for _ in range(STATES_A_JOB):
            left = events[: chance.randint(1, len(events))]
            yield json.dumps({"events": [event.model_dump(mode="json") for event in left]})


def looked(page: Page, way: str, text: str) -> str:
    page.evaluate(f"window.way === '{way}' || bench.begin(window.way = '{way}')")
    return str(page.evaluate("(text) => bench.ask({ ask: 'call', name: 'look', text })", text))


def same(one: Any, other: Any) -> bool:
    """Whether two answers agree: words to the letter, numbers to a billionth."""
    if isinstance(one, dict) and isinstance(other, dict):
        return list(one) == list(other) and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, float) and isinstance(other, float):
        return isclose(one, other, rel_tol=ALLOWED, abs_tol=ALLOWED)
    return bool(one == other)


def test_plain_image_and_cpython_show_the_same_of_a_job(
    new_phone: Callable[[], BrowserContext],
    harness_site: Site,
    record_property: Callable[[str, object], None],
) -> None:
    page = new_phone().new_page()
    page.goto(f"{harness_site.address}harness/bench.html")
    asked = list(states())[:STATES]
    plain = [looked(page, "bundle", text) for text in asked]
    assert page.evaluate("bench.makeImage()")
    image = [looked(page, "image", text) for text in asked]
    assert page.evaluate("bench.image('ping', '{}').then(({ found }) => found)")
    assert image == plain
    for text, theirs in zip(asked, image, strict=True):
        ours = call("look", text)
        assert same(json.loads(ours), json.loads(theirs)), f"{commit()}: {text}"
    record_property("job states", len(asked))
    print(f"{len(asked)} job states, seed {commit()}")


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
    assert same(one, other) is alike
