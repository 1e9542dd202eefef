"""The work lamps and the rear screen on a phone: a wiring slip that does damage, a lamp that glows
through the other one, a screen that shows full voltage and stays cold; each with its opposite twin."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from parity.seed import some
from playwright.sync_api import Page
from site_server import Site

from footwell.circuit.circuit import arranged
from footwell.circuit.fault import Fault
from story.hand import Hand, vehicle

pytestmark = pytest.mark.long

EXCHANGED = arranged((), ("X5", "a"), {"30": "W2", "86": "W7", "85": "W6", "87": "W8"})


@dataclass(frozen=True)
class Job:
    """A hidden truth, and what the phone has to say in the end."""

    circuit: str
    sheet: str
    faults: tuple[Fault, ...]
    says: str
    not_says: str
    rewired: str = ""
    arrangement: object = ()


LAMPS, SCREEN = "Rear work lamps", "Heated rear screen"
JOBS = {
    "relay socket exchanged, coil fuse and diode hurt": Job(
        LAMPS,
        "tractor-work-lamps",
        (Fault("F2", "open"), Fault("K1", "short:diode")),
        "relay K1 carried 6.0 A, rated 1.0 A, and was hurt by it",
        "relay K1 carried 6.0 A, rated 1.0 A, and came through unhurt",
        "X5",
        EXCHANGED,
    ),
    "relay socket exchanged, nothing hurt but the coil fuse": Job(
        LAMPS,
        "tractor-work-lamps",
        (Fault("F2", "open"),),
        "relay K1 carried 6.0 A, rated 1.0 A, and came through unhurt",
        "relay K1 carried 6.0 A, rated 1.0 A, and was hurt by it",
        "X5",
        EXCHANGED,
    ),
    "shared earth open": Job(
        LAMPS, "tractor-work-lamps", (Fault("E1", "open"),), "earth point E1", "left work lamp L1 b"
    ),
    "left lamp burnt out": Job(
        LAMPS, "tractor-work-lamps", (Fault("L1", "open"),), "left work lamp L1 b", "earth point E1"
    ),
    "poor joint in the hinge loom": Job(
        SCREEN,
        "van-rear-screen",
        (Fault("W4", "high_resistance", 20.0),),
        "W4 nearly broken through",
        "rear screen H1 broken",
    ),
    "screen broken, loom sound": Job(
        SCREEN, "van-rear-screen", (Fault("H1", "open"),), "H1 broken", "W4 nearly broken through"
    ),
}


TWINS = [list(JOBS)[n : n + 2] for n in range(0, len(JOBS), 2)]
PAIRS = some(TWINS, 1)
"""Twins stay together: all pairs with FOOTWELL_LONG=1, else one drawn by the commit."""


@pytest.mark.story
@pytest.mark.parametrize("name", [name for pair in PAIRS for name in pair])
def test_job_ends_with_its_own_cause_and_not_with_its_twins(
    page: Page, site: Site, name: str
) -> None:
    job = JOBS[name]
    truth = vehicle(job.sheet, job.faults, job.arrangement)
    hand = Hand(page, truth)
    hand.begin(site.address, job.circuit)
    hand.tell_what_each_load_does()
    if job.rewired:
        hand.tell_rewired(job.rewired)
    hand.commit("Start")
    hand.work()
    assert not hand.vehicle.faults, hand.steps
    found = " ".join(line for c in hand.view().causes for line in (c.title, *c.reasons))
    assert job.says.lower() in found.lower()
    assert job.not_says.lower() not in found.lower()
