"""Where the check is, on the diagram: a part that is looked at is ringed as a place that is probed is."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect
from pressing import press
from site_server import Site

from tests.core.job_rig import Job

SLOW, FAST = {"S1": "warm", "S2": "on"}, {"S1": "hot", "S2": "on"}
READ = [("X1.85.a", SLOW, 0.0), ("X1.86.a", SLOW, 0.0), ("X1.87.a", FAST, 12.11)]
"""A fan without its slow speed: nothing parts a joint of the coil feed splice from the wire beside it."""


def link(readings: int) -> str:
    job = Job("hatchback-radiator-fan").tools("meter")
    states = [
        {
            "controls": {"S1": s1, "S2": s2},
            "load": "M1",
            "state": "runs" if s1 == "hot" else "still",
        }
        for s1, s2 in (("cold", "on"), ("warm", "on"), ("hot", "on"))
    ]
    job.add("positions tried", seen_by="me", states=states)
    for red, controls, value in READ[:readings]:
        setup = {"controls": controls}
        job.add(
            "reading taken", instrument="volts", red=red, black="earth", setup=setup, value=value
        )
    return str(job.ask("link_make")["text"])


@pytest.mark.parametrize(("readings", "asked"), [(3, "take the tape off"), (2, "Back-probe")])
def test_the_place_of_a_check_is_ringed_in_view(
    page: Page, site: Site, readings: int, asked: str
) -> None:
    page.goto(f"{site.address}#{link(readings)}")
    press(page.get_by_role("button", name="Take over as a new job"))
    if readings == 3:  # the joint is bare and live
        press(page.get_by_role("button", name="Understood"))
    expect(page.get_by_text(asked).first).to_be_visible()
    press(page.get_by_role("button", name="Circuit", exact=True))
    ring = page.locator(".place-ring")
    expect(ring).to_have_count(1)
    expect(ring).to_be_in_viewport(ratio=1)
    # Alone where the tape comes off a splice; at a place that can be tapped where one is probed.
    expect(page.locator(".place .place-ring")).to_have_count(0 if readings == 3 else 1)
