"""The tractor's left work lamp: faint through the right one for want of their shared earth, or dark."""

from __future__ import annotations

from functools import cache

import pytest

from footwell.circuit.fault import Fault

from .jobs_rig import Road, road, vehicle
from .sample_circuits import TRACTOR

EARTH_OPEN, LAMP_OPEN = Fault("E1", "open"), Fault("L1", "open")


@cache
def worked(fault: Fault, tools: tuple[str, ...] = ("meter",)) -> Road:
    return road(TRACTOR, vehicle(TRACTOR, fault), tools)


def shares(done: Road) -> dict[str, float]:
    """Share of each suspect after the complaint, before anything was measured."""
    groups = done.views[0].suspects.groups
    return {s.element: s.share for group in groups for s in group.suspects}


def test_lamp_that_glows_through_the_other_one_points_to_the_shared_earth() -> None:
    done = worked(EARTH_OPEN)
    assert "left work lamp L1 glows" in done.views[0].complaint
    suspected = shares(done)
    assert suspected["E1"] > 0.5 and suspected.keys() <= {"E1", "W19", "SP2"}
    assert "left work lamp L1" in {c.title for c in done.views[0].suspects.cleared}


def test_lamp_that_stays_dark_beside_a_bright_one_clears_the_shared_earth() -> None:
    done = worked(LAMP_OPEN)
    suspected = shares(done)
    assert suspected["L1"] > 0.3 and not {"E1", "W19"} & suspected.keys()
    assert "earth point E1" in {c.title for c in done.views[0].suspects.cleared}


@pytest.mark.parametrize("tools", [("meter",), ("test lamp",)])
@pytest.mark.parametrize("fault", [EARTH_OPEN, LAMP_OPEN])
def test_lamp_job_ends_with_the_true_fault_alone_mended(
    fault: Fault, tools: tuple[str, ...]
) -> None:
    done = worked(fault, tools)
    last = done.last.step
    assert last.kind == "finished" and last.solved and done.left == ()
    assert done.run.replaced == [fault.element]


def test_open_earth_is_proven_by_the_voltage_that_stands_on_it() -> None:
    cause = worked(EARTH_OPEN).last.causes[0]
    assert cause.title == "Earth point E1 open"
    assert cause.proof and "V at terminal 1 of earth point E1" in cause.proof[0]


def test_burnt_out_lamp_is_proven_by_itself() -> None:
    cause = worked(LAMP_OPEN).last.causes[0]
    assert cause.title == "Left work lamp L1 burnt out"
    assert cause.proof and "of left lamp plug X6, lamp" in cause.proof[0]
