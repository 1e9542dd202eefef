"""A wire that runs elsewhere: its ends are told by touch, and it is put back."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import Page, expect
from pressing import press, press_through
from site_server import Site

from footwell.circuit.circuit import AS_DRAWN, arranged
from footwell.diagnosis.conclude import conclude
from footwell.faults.miswiring import as_drawn
from footwell.job.events import Event
from footwell.job.replay import replay
from footwell.practice.electrician import begin, do
from tests.core.job_rig import MINIBUS, Job, asked
from tests.core.loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from tests.core.misplaced_rig import EXCHANGED, GLOW, found_wrong
from tests.core.sample_circuits import sample

ODD = (("X1.1.a", -7.77), ("F1.1", 41.3), ("F1.2", -6.41), ("F1.2", -6.41))
"""Volts that no fault of the minibus makes, the last of them read twice."""


def at_the_ends(page: Page, site: Site) -> None:
    """A job in which no fault fits and every plug was found as it should be."""
    job = Job().tools("meter").dead()
    for place, volts in ODD:
        job.volts(place, volts, "1")
    circuit = sample(MINIBUS)
    for name in circuit.connectors:
        drawn = as_drawn(circuit, (name, "a"))
        job.add("wiring found", connector=name, half="a", found=drawn)
    page.goto(f"{site.address}#{job.ask('link_make')['text']}")
    press(page.get_by_role("button", name="Take over as a new job"))
    expect(page.get_by_role("heading", name="No fuse guards this wire")).to_be_visible()
    press(page.get_by_role("button", name="Understood"))
    expect(page.get_by_role("heading", name="Find both ends of")).to_be_visible()


def choose(page: Page, question: str, ending: str) -> None:
    """An answer by how it ends."""
    answers = page.get_by_label(question)
    told = [each for each in answers.locator("option").all_inner_texts() if each.endswith(ending)]
    answers.select_option(label=told[0])


def test_ends_as_drawn_lead_on_to_the_next_wire_and_are_undone(page: Page, site: Site) -> None:
    at_the_ends(page, site)
    heading = page.get_by_role("heading", level=1)
    first = heading.inner_text()
    press_through(page.get_by_role("button", name="Both as the sheet has them"))
    expect(heading).not_to_have_text(first)
    press_through(page.get_by_role("button", name="Undo"))
    expect(page.get_by_role("heading", name=first)).to_be_visible()


def test_a_wire_found_where_it_does_harm_is_put_back(page: Page, site: Site) -> None:
    at_the_ends(page, site)
    press(page.get_by_role("button", name="Something is otherwise"))
    keep = page.get_by_role("button", name="Keep what I found")
    expect(keep).to_be_disabled()
    at = page.get_by_label("What is otherwise?").locator("option")
    away = [each for each in at.all_inner_texts() if "does not end at" in each]
    page.get_by_label("What is otherwise?").select_option(label=away[0])
    expect(keep).to_be_disabled()
    choose(page, "Where does it end?", "terminal - of batteries G1")
    press_through(keep)
    press(page.get_by_role("button", name="Understood"))
    expect(page.get_by_role("heading", name="back where the sheet has it")).to_be_visible()
    page.reload()
    press_through(page.get_by_role("button", name="It is where the sheet has it"))
    press(page.get_by_role("button", name="Understood"))
    expect(page.get_by_role("heading", name="Try every position again")).to_be_visible()


def test_a_wire_found_in_another_way_of_its_plug_leads_to_a_look_into_the_plug(
    page: Page, site: Site
) -> None:
    events = [json.loads(event.model_dump_json()) for event in at_exchanged_wires()]
    page.goto(f"{site.address}#{asked('link_make', {'events': events})['text']}")
    press(page.get_by_role("button", name="Take over as a new job"))
    press(page.get_by_role("button", name="Something is otherwise"))
    at = page.get_by_label("What is otherwise?").locator("option").all_inner_texts()
    away = next(each for each in at if "does not end at" in each and "X1" in each)
    page.get_by_label("What is otherwise?").select_option(label=away)
    choose(page, "Where does it end?", "way 85 (YE/RD) of glow plug relay socket X1, wire side")
    press_through(page.get_by_role("button", name="Keep what I found"))
    expect(page.get_by_role("heading", name="Look at glow plug relay socket X1")).to_be_visible()
    expect(
        page.get_by_text("One of its wires was found in another way than on the sheet.")
    ).to_be_visible()


def at_exchanged_wires() -> list[Event]:
    """A job that asks for the ends of a wire that sits in another one's way."""
    vehicle = vehicle_of(Trial(GLOW, (), arranged(AS_DRAWN, ("X1", "a"), EXCHANGED)))
    run = begin(read(GLOW).sheet, vehicle, ALL_TOOLS)
    while (found := conclude(replay(run.events).case)).step.kind != "ends":
        vehicle = do(run, replay(run.events), found, vehicle)
    return run.events


@pytest.mark.parametrize(("hazard", "may"), [("restraint system", False), ("hot part", True)])
def test_nobody_is_asked_to_look_at_a_plug_that_only_qualified_people_may_open(
    page: Page, site: Site, hazard: str, may: bool
) -> None:
    page.goto(f"{site.address}#{found_wrong(hazard).ask('link_make')['text']}")
    press(page.get_by_role("button", name="Take over as a new job"))
    for caution in ["Battery", "hot enough"] if may else ["Airbag"]:
        expect(page.get_by_role("heading", name=caution)).to_be_visible()
        press(page.get_by_role("button", name="Understood"))
    noted = page.get_by_role("button", name="What was noted of its wires")
    look = page.get_by_role("button", name="Look at glow plug relay socket X1")
    expect(look if may else noted).to_be_visible()
    expect(noted if may else look).to_have_count(0)
    expect(page.get_by_text("Qualified work only.")).to_have_count(0 if may else 1)
