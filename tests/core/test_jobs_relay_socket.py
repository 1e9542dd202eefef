"""The tractor's work lamps: dead since the relay's socket was wired anew, 85 and 86 exchanged.

With its cathode on 86 the coil's diode then lies across the feed. What it hurt is the truth's affair: the
diode, the output that feeds it, or nothing but the coil's fuse; each time the opposite must be said.
"""

from __future__ import annotations

from functools import cache

import pytest

from footwell.circuit.fault import Fault

from .jobs_rig import Road, road, vehicle, wired
from .sample_circuits import TRACTOR

EXCHANGED = wired(("X5", "a"), w30="W2", w86="W7", w85="W6", w87="W8")
DIODE, OUTPUT, FUSE = Fault("K1", "short:diode"), Fault("A1", "open"), Fault("F2", "open")
TRUTHS = ((), (DIODE,), (OUTPUT,), (FUSE,), (FUSE, DIODE))


@cache
def worked(*faults: Fault) -> Road:
    truth = vehicle(TRACTOR, *faults, arrangement=EXCHANGED)
    return road(TRACTOR, truth, ("meter",), rewired=["X5"])


def test_exchange_of_85_and_86_is_named_with_what_it_does() -> None:
    found = worked().finding("X5")
    assert "86 and 85 exchanged" in found.slip
    assert found.explains_complaint
    on = next(line for line in found.effects if "button on · right lamp switch on" in line)
    assert on.count("dark") == 3


@pytest.mark.parametrize(
    ("part", "check"),
    [
        ("work lamp relay K1, diode", "near 0 Ω across the coil is a shorted diode"),
        ("work lamp output A1", "Measure the voltage at its output with the load connected"),
        ("coil fuse F2 blows", "Look at it"),
    ],
)
def test_what_the_exchange_may_have_hurt_is_told_with_the_check_that_tells(
    part: str, check: str
) -> None:
    assert any(part in line and check in line for line in worked().finding("X5").damage)


def test_moves_put_the_socket_right() -> None:
    found = worked().finding("X5")
    assert found.corrected["86"] == "W6" and found.corrected["85"] == "W7"
    assert [m for m in found.moves if "W7" in m] and [m for m in found.moves if "W6" in m]


@pytest.mark.parametrize("faults", TRUTHS)
def test_relay_job_ends_solved_with_nothing_sound_replaced(faults: tuple[Fault, ...]) -> None:
    done = worked(*faults)
    last = done.last.step
    assert last.kind == "finished" and last.solved
    assert done.left == () and done.run.good_parts == []


@pytest.mark.parametrize("faults", [(DIODE,), (FUSE, DIODE)])
def test_shorted_diode_is_proven_by_ohms_across_the_coil_and_called_hurt(
    faults: tuple[Fault, ...],
) -> None:
    words = worked(*faults).words
    assert "Work lamp relay K1 shorted in its coil diode" in words
    assert "work lamp relay K1 carried 6.0 A, rated 1.0 A, and was hurt by it." in words
    assert "0.2 Ω" in words


@pytest.mark.parametrize("faults", [(), (OUTPUT,), (FUSE,)])
def test_unhurt_diode_is_called_unhurt_and_its_relay_stays(faults: tuple[Fault, ...]) -> None:
    done = worked(*faults)
    assert "work lamp relay K1 carried 6.0 A, rated 1.0 A, and came through unhurt." in done.words
    assert "K1" not in done.run.replaced


def test_dead_output_is_called_hurt_and_the_fuse_that_held_is_said_to_have_held() -> None:
    words = worked(OUTPUT).words
    assert "work lamp output A1 carried 6.0 A, rated 1.5 A, and was hurt by it." in words
    assert "coil fuse F2 held." in words


@pytest.mark.parametrize("faults", [(), (DIODE,), (FUSE,)])
def test_output_that_works_is_called_unhurt(faults: tuple[Fault, ...]) -> None:
    words = worked(*faults).words
    assert "work lamp output A1 carried 6.0 A, rated 1.5 A, and came through unhurt." in words
    assert "coil fuse F2 was blown by it." in words


def test_shorted_diode_is_mended_before_a_new_fuse_is_fitted() -> None:
    assert worked(FUSE, DIODE).run.replaced == ["K1", "F2"]
