"""After a repair one odd word may be a mistake of the eye: the positions are asked for once more."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from footwell.circuit.fault import Fault
from footwell.diagnosis.conclude import Next, conclude
from footwell.job.events import Event
from footwell.job.replay import replay
from footwell.practice.electrician import begin, work

from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from .sample_circuits import MINIBUS

TRIAL = Trial(MINIBUS, (Fault("R1", "open:thermal fuse"),))


@cache
def mended() -> tuple[Event, ...]:
    """The events of a job that ends well, the last of them the positions tried after the repair."""
    vehicle = vehicle_of(TRIAL)
    run = begin(read(TRIAL.sheet).sheet, vehicle, ALL_TOOLS)
    work(run, vehicle)
    assert run.solved and run.events[-1].kind == "positions tried"
    return tuple(run.events)


def looked(n: int, odd: str | None = None) -> Event:
    """The last positions once more as event n, the fan's last word another one."""
    last = mended()[-1]
    body: dict[str, Any] = json.loads(last.body)
    if odd:
        body["states"][-1]["state"] = odd
    return last.model_copy(update={"n": n, "body": json.dumps(body, ensure_ascii=False)})


def step(*looks: str | None) -> Next:
    """The step after the repair, once the positions have been looked at so often."""
    before = mended()[:-1]
    after = [looked(len(before) + 1 + k, odd) for k, odd in enumerate(looks)]
    return conclude(replay([*before, *after]).case).step


def test_one_odd_word_after_the_repair_is_looked_at_again() -> None:
    found = step("slow")
    assert found.kind == "positions" and found.purpose == "look again"


def test_a_second_look_that_is_well_ends_the_job() -> None:
    found = step("slow", None)
    assert found.kind == "finished" and found.solved


def test_a_word_that_stays_odd_is_not_asked_for_a_third_time() -> None:
    found = step("slow", "slow")
    assert found.kind != "positions"
    assert not (found.kind == "finished" and found.solved)
