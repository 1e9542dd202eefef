"""Practice on the phone: no vehicle, no typing, a fault that is not told before the end."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, Route, expect
from pressing import press_through, soon
from screen_probe import faults_of_access, faults_of_size
from site_server import Site
from waiting import until_python_is
from walk import CIRCUIT, Walk

NewPhone = Callable[..., BrowserContext]
AS_DRAWN = "Both as the sheet has them"
ACTS = (
    "Understood",
    "Next",
    "Measure",
    "Look",
    "Try every position",
    AS_DRAWN,
    "I have renewed it",
)
MARK = "practice · no vehicle"


def begun(page: Page, address: str) -> Walk:
    walk = Walk(page, address, lambda name: None)
    page.goto(address)
    until_python_is(page, "ready")
    walk.tap("Practice")
    walk.tap(CIRCUIT)
    soon(page, lambda: standing(walk), "the first step")
    return walk


def key_of(walk: Walk, name: str) -> Locator:
    return walk.key(name, exact=name != "Look at")


def standing(walk: Walk) -> str:
    """The name of the key that does the step that stands there; what is hidden changes the first one."""
    names = [*ACTS, "Look at", "Show what was hidden"]
    return next((name for name in names if key_of(walk, name).is_visible()), "")


def act(walk: Walk) -> bool:
    """Do what stands there; False once the job is finished."""
    name = soon(walk.page, lambda: standing(walk), "something to do")
    assert walk.page.get_by_text(MARK).is_visible()
    if name == "Show what was hidden":
        return False
    press_through(key_of(walk, name))
    if name == "Look at":
        walk.tap("Look inside")
        walk.go("Keep what I found")
        if soon(
            walk.page, lambda: walk.key("I have moved them").is_visible() or standing(walk), "more"
        ):
            moved = walk.key("I have moved them")
            if moved.is_visible():
                press_through(moved)
    return True


@pytest.mark.long
def test_a_practice_job_is_worked_by_touch_alone_and_tells_both_roads(
    new_phone: NewPhone, site: Site
) -> None:
    page = new_phone(locale="en-GB").new_page()
    walk = begun(page, site.address)
    for step in range(60):
        if not act(walk):
            break
        if step == 2:
            page.reload()
    else:
        raise AssertionError("never finished")
    walk.tap("Show what was hidden")
    expect(page.get_by_role("heading", name="What was hidden")).to_be_visible()
    expect(page.get_by_text("All of it is mended.")).to_be_visible()
    expect(page.get_by_role("heading", name="Footwell’s road from the same start")).to_be_visible()
    assert faults_of_size(page) + faults_of_access(page) == []


def test_a_practice_circuit_chosen_while_python_starts_begins_once_it_is_there(
    new_phone: NewPhone, site: Site
) -> None:
    """It says what it waits for, and nobody has to press again."""
    page = new_phone(locale="en-GB").new_page()
    walk = Walk(page, site.address, lambda name: None)
    held: list[Route] = []
    page.route("**/*.wasm*", lambda route: held.append(route))
    page.goto(site.address)
    walk.tap("Practice")
    walk.tap(CIRCUIT)
    expect(page.get_by_text("Python is starting. Then a fault is hidden.")).to_be_visible()
    page.unroute("**/*.wasm*")  # lets go what was held as well
    soon(page, lambda: standing(walk), "the first step")


def test_a_practice_job_given_up_tells_what_is_still_there_and_its_report_says_what_it_is(
    new_phone: NewPhone, site: Site
) -> None:
    page = new_phone(locale="en-GB").new_page()
    walk = begun(page, site.address)
    walk.tap("More", exact=True)
    expect(walk.key("Record a reading")).to_be_hidden()
    walk.tap("Report")
    expect(page.get_by_text("There is no vehicle behind this job.")).to_be_visible()
    walk.tap("More", exact=True)
    walk.tap("Show what was hidden")
    # Footwell's own road is a whole job: with some hidden faults minutes beside other work.
    expect(page.get_by_text("Still there:")).to_be_visible(timeout=400_000)
    expect(page.get_by_text("Nothing measured yet.")).to_be_visible()
