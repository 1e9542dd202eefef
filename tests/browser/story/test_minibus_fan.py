"""The saloon fan, dead since the owner renewed the switch and its plug, worked on a phone offline."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from parity.seed import some
from playwright.sync_api import BrowserContext, Page
from site_server import Site
from waiting import kill_workers, until_python_is, until_ready_offline

from footwell.circuit.circuit import arranged
from footwell.circuit.fault import Fault
from story.hand import Hand, vehicle

pytestmark = pytest.mark.long

MIRRORED = arranged(
    (), ("X2", "a"), {"1": None, "2": None, "3": "W5", "4": "W4", "5": "W3", "6": "W2"}
)
OPEN_FUSE = Fault("R1", "open:thermal fuse")
STIFF = Fault("M1", "stiff", 0.6)

NewPhone = Callable[..., BrowserContext]


def tell_story(hand: Hand, tools: list[str]) -> None:
    """What the owner renewed and re-wired, and what is at hand."""
    page = hand.page
    hand.tap("Dead in every position")
    for tool in tools:
        key = page.get_by_role("button", name=tool, exact=True).first
        if key.get_attribute("aria-pressed") != "true":
            key.tap()
    hand.tap("More of the story")
    renewed = page.get_by_role("group", name="What was renewed?")
    renewed.get_by_role("button", name="fan switch S1").tap()
    rewired = page.get_by_role("group", name=re.compile("wired", re.I))
    rewired.get_by_role("button", name="switch plug X2").tap()
    hand.commit("Keep the story")
    hand.commit("Start")


def offline(page: Page, site: Site) -> None:
    """Cut the phone off: the server is gone, and the browser says there is no network."""
    until_python_is(page, "ready")
    until_ready_offline(page)
    page.context.set_offline(True)
    site.stop()


def begin(new_phone: NewPhone, site: Site, faults: tuple[Fault, ...]) -> Hand:
    page = new_phone().new_page()
    page.goto(site.address)
    offline(page, site)
    hand = Hand(page, vehicle("minibus-saloon-fan", faults, MIRRORED))
    hand.begin(site.address, "Saloon heater fan")
    tell_story(hand, ["Meter", "Current clamp"])
    return hand


@pytest.mark.story
def test_stiff_fan_behind_a_mirrored_plug_and_an_open_thermal_fuse(
    new_phone: NewPhone, site: Site
) -> None:
    hand = begin(new_phone, site, (STIFF, OPEN_FUSE))

    assert hand.step() == "wiring", "the plug that the owner wired is looked into first"
    assert hand.sees("This wiring alone is enough for the complaint.")
    assert hand.sees("It cannot have overloaded resistor pack R1.")
    assert hand.step() == "wiring"
    assert hand.step() == "positions", "after the correction every position is tried again"
    assert hand.steps[-1] == "positions still still runs"

    assert hand.step() == "check"
    before = hand.view()
    hand.page.reload()
    hand.page.get_by_role("button", name="Now", exact=True).wait_for()
    kill_workers(hand.page)
    assert hand.view() == before, "a reload and a killed worker lose nothing"

    other = begin_from_link(hand, new_phone, site)
    assert other.view().step == hand.view().step
    assert other.view().suspects == hand.view().suspects

    hand.work()
    assert hand.readings <= 9
    assert not hand.vehicle.faults, hand.steps
    confirming = [s for s in hand.steps if s.startswith("confirm") and "R1.link" in s]
    assert confirming, "the thermal fuse is condemned by a reading at itself"
    current = [n for n, s in enumerate(hand.steps) if "clamp" in s or "F1.1 F1.2" in s]
    finished = len(hand.steps)
    assert current and current[0] < finished, "the motor's current was measured"
    titles = [cause.title for cause in hand.view().causes]
    assert "Fan motor M1 stiff in its bearing" in titles
    assert "Resistor pack R1 open at its thermal fuse" in titles
    assert hand.sees("Mended and proven")


@pytest.mark.story
def test_sound_fan_behind_the_same_story(new_phone: NewPhone, site: Site) -> None:
    hand = begin(new_phone, site, (OPEN_FUSE,))
    hand.work()
    assert hand.readings <= 9
    assert not hand.vehicle.faults
    assert "repair M1" not in " ".join(hand.steps), "a sound motor is not condemned"
    cause = next(c for c in hand.view().causes if "thermal fuse" in c.title)
    assert any(line.startswith("Ruled out as the cause behind it") for line in cause.reasons)


def begin_from_link(hand: Hand, new_phone: NewPhone, site: Site) -> Hand:
    """The same job on another phone, by the link of the first."""
    hand.settle()
    hand.tap("More", exact=True)
    hand.tap("Share this job")
    link = hand.page.get_by_role("textbox")
    link.wait_for()
    address = link.input_value()
    hand.tap("Back")
    hand.tap("Now", exact=True)
    site.start()
    page = new_phone().new_page()
    page.goto(address)
    page.get_by_role("button", name="Take over").wait_for()
    other = Hand(page, hand.vehicle)
    other.commit("Take over")
    other.settle()
    site.stop()
    return other


DEAD = [
    ("Saloon heater fan", "Dead in every position"),
    ("Rear work lamps", "Dark in every position"),
    ("Heated rear screen", "Cold in every position"),
]


@pytest.mark.parametrize(("circuit", "says"), some(DEAD, 1))
def test_first_check_stands_after_eight_touches(
    page: Page, site: Site, circuit: str, says: str
) -> None:
    hand = Hand(page, vehicle("minibus-saloon-fan", ()))
    hand.begin(site.address, circuit)
    hand.tap(says)
    hand.commit("Start")
    hand.settle()
    hand.pass_cautions()
    page.get_by_role("button", name=re.compile("Enter reading|Another check")).first.wait_for()
    assert hand.touches <= 8
