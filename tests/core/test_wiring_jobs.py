"""A connector wired wrongly by any slip: the job looks into it, says what it does and puts it right."""

from __future__ import annotations

import pytest

from footwell.circuit.circuit import arranged
from footwell.faults.miswiring import as_drawn, slips
from footwell.job.replay import replay
from footwell.page.wiring_view import finding

from .job_rig import Job
from .loop_rig import Trial, complains, tried, vehicle_of
from .sample_circuits import MINIBUS, NAMES, TRACTOR, VAN, sample

REWIRED = [(MINIBUS, "X2"), (TRACTOR, "X5"), (TRACTOR, "X8"), (VAN, "X1")]


@pytest.mark.parametrize(("name", "connector"), REWIRED)
def test_every_slip_of_a_rewired_connector_is_found_and_put_right(
    name: str, connector: str
) -> None:
    half = (connector, "a")
    for slip in slips(sample(name), half)[::4]:
        trial = Trial(name, (), arranged((), half, dict(slip.wiring)), connector)
        if complains(vehicle_of(trial)):
            done = tried(trial)
            assert done.right and not done.good_parts, (slip.title, done.steps)


@pytest.mark.parametrize("name", NAMES)
def test_finding_of_every_slip_tells_name_differences_effects_and_moves(name: str) -> None:
    case = replay(Job(name).stored()).case
    circuit = sample(name)
    for connector in circuit.connectors:
        half = (connector, "a")
        for slip in slips(circuit, half):
            told = finding(case, half, dict(slip.wiring))
            assert not told.same and told.slip.lower() == slip.title.lower()
            assert told.differences and told.effects and told.moves
            assert told.explains_complaint is None, "nothing was told yet"


@pytest.mark.parametrize("name", NAMES)
def test_wiring_as_drawn_is_said_to_be_the_same_and_needs_no_move(name: str) -> None:
    case = replay(Job(name).stored()).case
    for connector in sample(name).connectors:
        half = (connector, "a")
        told = finding(case, half, as_drawn(sample(name), half))
        assert told.same and told.slip == "" and not told.moves and not told.damage
