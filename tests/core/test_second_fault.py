"""The second fault: found behind the first however rare it is, with nothing sound renewed on the way."""

from __future__ import annotations

import pytest
from parity.seed import some

from footwell.checks.check import CLAMP, Check
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.case import Hypothesis
from footwell.diagnosis.choose import confirms
from footwell.diagnosis.multiple import joined, several

from .loop_rig import Trial, tried
from .sample_circuits import MINIBUS, sample

HORN, PUMP, CHARGING = "coupe-horn", "estate-fuel-pump", "estate-charging"
BEHIND_ANOTHER = [
    Trial(HORN, (Fault("SP1", "high_resistance:2", 20.0), Fault("W1", "high_resistance", 20.0))),
    Trial(PUMP, (Fault("W2", "open"), Fault("X7.2", "open"))),
    Trial(CHARGING, (Fault("W6", "short_to_earth"), Fault("X2.1", "open"))),
]
"""The second is told by nothing before the first is mended, and many parts fail more often."""


@pytest.mark.long
@pytest.mark.parametrize("trial", some(BEHIND_ANOTHER, 1), ids=str)
def test_second_fault_that_shows_after_the_first_repair_is_found_without_a_sound_part(
    trial: Trial,
) -> None:
    done = tried(trial)
    assert done.right, (done.why, done.steps)
    assert not done.good_parts, done.steps


def test_third_fault_is_sought_beside_a_fault_and_the_damage_it_did() -> None:
    pair = Hypothesis((Fault("A", "short"), Fault("D", "open")), 1e-3, (("A", "renew"),))
    followed: list[Hypothesis] = []

    def follow(suspects: list[Hypothesis]) -> list[tuple[Hypothesis, float]]:
        followed.extend(suspects)
        return []

    several([RARE], [(pair, -1.0)], [], follow, lambda _: True, lambda _: {}, lambda _: False)
    assert tuple(sorted((*pair.faults, *RARE.faults))) in {h.faults for h in followed}


def test_two_mended_faults_are_tried_together_though_each_explains_nothing_that_came_since() -> (
    None
):
    followed: list[Hypothesis] = []

    def follow(suspects: list[Hypothesis]) -> list[tuple[Hypothesis, float]]:
        followed.extend(suspects)
        return []

    rare = [Hypothesis((Fault(e, "open"),), 1e-9, ((e, "renew"),)) for e in ("Y", "Z")]
    many = [Hypothesis((Fault(f"C{n}", "open"),), 1e-3, ((f"C{n}", "renew"),)) for n in range(400)]
    both = (Fault("Y", "open"), Fault("Z", "open"))
    for mended in (True, False):
        followed.clear()
        several(
            [*many, *rare],
            [(FIRST, 0.0)],
            [],
            follow,
            lambda _: True,
            lambda _: {},
            lambda fault, mended=mended: mended and fault in both,  # type: ignore[misc]
        )
        assert (both in {h.faults for h in followed}) is mended


FIRST = Hypothesis((Fault("A", "open"),), 1e-3, (("A", "renew"),))
COMMON = [
    Hypothesis((Fault(f"B{n}", "open"),), (2 + n) * 1e-3, ((f"B{n}", "renew"),)) for n in range(9)
]
RARE = Hypothesis((Fault("R", "open"),), 1e-4, (("R", "renew"),))
FITS = {FIRST.faults: 0.0}


def held(pairs: list[Hypothesis]) -> bool:
    return any(RARE.faults[0] in h.faults for h in pairs)


def test_rare_second_is_among_the_pairs_where_it_alone_explains_what_came_since_the_repair() -> (
    None
):
    since = {h.faults: -20.0 for h in COMMON} | {RARE.faults: 0.0}
    assert held(joined([FIRST], [*COMMON, RARE], 4, FITS, since))


def test_rare_second_has_no_place_where_commoner_ones_explain_as_much() -> None:
    since = dict.fromkeys((h.faults for h in [*COMMON, RARE]), 0.0)
    assert not held(joined([FIRST], [*COMMON, RARE], 4, FITS, since))


def test_more_current_confirms_a_stiff_motor_and_less_confirms_nothing() -> None:
    circuit = sample(MINIBUS)
    clamp = Check(CLAMP, "F1", "", set_up(circuit, {"S1": "3"}))
    assert confirms(circuit, clamp, Fault("M1", "stiff", 0.6))
    worn = Fault("M1", "worn_brushes", 4.0)
    assert worn.mode in circuit.elements["M1"].modes
    assert not confirms(circuit, clamp, worn)
