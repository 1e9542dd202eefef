"""The second fault: found behind the first however rare it is, with nothing sound renewed on the way."""

from __future__ import annotations

from dataclasses import dataclass, field

import pytest
from parity.seed import some

from footwell.checks.check import CLAMP, Check
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.case import Hypothesis
from footwell.diagnosis.choose import confirms
from footwell.diagnosis.multiple import joined
from footwell.diagnosis.search import Asked, several

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


def single(element: str, odds: float) -> Hypothesis:
    return Hypothesis((Fault(element, "open"),), odds, ((element, "renew"),))


@dataclass
class Evidence:
    """Stands for evidence: `mended` faults, sets that explain all of it, and whether a reading strays from
    the others. Writes down which sets are followed."""

    mended: frozenset[Fault] = frozenset()
    explain: frozenset[frozenset[str]] = frozenset()
    strays: bool = False
    followed: set[frozenset[str]] = field(default_factory=set)

    def asked(self) -> Asked:
        return Asked(
            self._follow,
            lambda _: True,
            lambda fault: fault in self.mended,
            lambda _: {},
            lambda sets: {h.faults: 0.0 if parts(h) in self.explain else -30.0 for h in sets},
            lambda _: self.strays,
        )

    def _follow(self, suspects: list[Hypothesis]) -> list[tuple[Hypothesis, float]]:
        self.followed |= {parts(h) for h in suspects}
        return []


def parts(h: Hypothesis) -> frozenset[str]:
    return frozenset(f.element for f in h.faults)


def test_third_fault_is_sought_beside_a_fault_and_the_damage_it_did() -> None:
    pair = Hypothesis((Fault("A", "short"), Fault("D", "open")), 1e-3, (("A", "renew"),))
    evidence = Evidence()
    several([RARE], [(pair, -1.0)], [], evidence.asked())
    assert {"A", "D", "R"} in evidence.followed


@pytest.mark.parametrize("mended", [True, False])
def test_two_mended_faults_are_tried_together_though_each_explains_nothing_that_came_since(
    mended: bool,
) -> None:
    rare = [single(e, 1e-9) for e in ("Y", "Z")]
    many = [single(f"C{n}", 1e-3) for n in range(400)]
    both = frozenset(h.faults[0] for h in rare)
    evidence = Evidence(mended=both if mended else frozenset())
    several([*many, *rare], [(FIRST, 0.0)], [], evidence.asked())
    assert ({"Y", "Z"} in evidence.followed) is mended


@pytest.mark.parametrize("strays", [True, False])
def test_two_rare_faults_beside_a_sure_one_are_tried_where_a_reading_fits_nothing_else(
    strays: bool,
) -> None:
    rare = [single(e, 1e-6) for e in ("Y", "Z")]
    many = [single(f"C{n}", 1e-3 + n * 1e-6) for n in range(200)]
    leads = frozenset([frozenset({"A", "Y"})])
    evidence = Evidence(explain=leads, strays=strays)
    several([FIRST, *many, *rare], [(FIRST, 0.0)], [], evidence.asked())
    assert ({"A", "Y", "Z"} in evidence.followed) is strays


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
