"""The second fault: found behind the first however rare it is, with nothing sound renewed on the way."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

import pytest
from parity.seed import some

from footwell.checks.check import CLAMP, Check
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.case import Hypothesis
from footwell.diagnosis.choose import confirms
from footwell.diagnosis.multiple import Singles, joined
from footwell.diagnosis.search import Asked, several

from .loop_rig import Trial, tried
from .sample_circuits import MINIBUS, sample

HORN, PUMP, CHARGING = "coupe-horn", "estate-fuel-pump", "estate-charging"
CARAVAN = "caravan-13-pin-plug"
BEHIND_ANOTHER = [
    Trial(HORN, (Fault("SP1", "high_resistance:2", 20.0), Fault("W1", "high_resistance", 20.0))),
    Trial(PUMP, (Fault("W2", "open"), Fault("X7.2", "open"))),
    Trial(CHARGING, (Fault("W6", "short_to_earth"), Fault("X2.1", "open"))),
    Trial(CARAVAN, (Fault("L4", "open"), Fault("S2", "high_resistance:1-2", 6.32))),
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


OUTLET = "estate-power-outlet"
ONE_BEHIND_THE_OTHER = [
    Fault("W2", "high_resistance", 20000.0),
    Fault("X2.2", "high_resistance", 20000.0),
]


@pytest.mark.parametrize("count", [2, 1])
def test_two_poor_joints_of_one_size_in_a_line_are_found_wherever_they_are(count: int) -> None:
    """Between them stands half the supply, which no single joint leaves; many pairs would leave as much, and
    only one of them, the commonest, used to be thought of."""
    faults = tuple(ONE_BEHIND_THE_OTHER[:count])
    done = tried(Trial(OUTLET, faults))
    assert done.right and not done.good_parts, (done.why, done.steps)
    mended = {step.split()[1] for step in done.steps if step.startswith("repair")}
    assert mended == {fault.element for fault in faults}, done.steps


BLOWN = Fault("F1", "open")


@pytest.mark.long
@pytest.mark.parametrize(
    "other", [Fault("W1", "high_resistance", 200.0), Fault("W2", "short_to_earth")], ids=str
)
def test_beside_a_blown_fuse_a_poor_joint_before_it_is_told_from_a_short_behind_it(
    other: Fault,
) -> None:
    """The lamp in place of the fuse stays dark behind the joint and is bright before the short. While a
    fuse alone had no odds, only shorts were thought of beside it, and a sound wire was mended for one."""
    done = tried(Trial("saloon-seat-heater", (BLOWN, other)))
    assert done.right and not done.good_parts, (done.why, done.steps)
    mended = {step.split()[1] for step in done.steps if step.startswith("repair")}
    assert mended == {"F1", other.element}, done.steps


IN_ONE_STRETCH = [
    Fault("W14", "high_resistance", 20000.0),
    Fault("SP1", "high_resistance:2", 20000.0),
]


@pytest.mark.long
@pytest.mark.parametrize("poor", some(IN_ONE_STRETCH, 1), ids=str)
def test_beside_a_short_a_poor_joint_is_told_from_the_wire_in_it(poor: Fault) -> None:
    """Both look alike from outside, so both are thought of, and the joint is bared before either is made
    anew."""
    done = tried(Trial("coupe-rear-cluster", (poor, Fault("W8", "short_to_earth"))))
    assert done.right and not done.good_parts, (done.why, done.steps)
    mended = {step.split()[1] for step in done.steps if step.startswith("repair")}
    assert mended == {"F2", "W8", poor.element}, done.steps


def poor(element: str, size: float) -> Hypothesis:
    return Hypothesis((Fault(element, "high_resistance", size),), 0.1, ((element, "mend"),))


def test_joints_are_paired_in_two_sizes_either_way_round_each_set_once() -> None:
    singles = Singles.of([poor(e, size) for e in "ABC" for size in (1.0, 3.0)])
    told = [tuple((f.element, f.size) for f in h.faults) for h in singles.joints_in((1.0, 3.0))]
    assert len(told) == len(set(told)) == 6
    assert (("A", 1.0), ("B", 3.0)) in told and (("A", 3.0), ("B", 1.0)) in told
    assert len(singles.joints_in((3.0, 3.0))) == 3


def single(element: str, odds: float) -> Hypothesis:
    return Hypothesis((Fault(element, "open"),), odds, ((element, "renew"),))


@dataclass
class Evidence:
    """Stands for evidence: `mended` faults, sets that explain all of it, whether a reading strays from the
    others, and how well faults of a size explain what came `since` a repair and their share of it all
    (`sizes`). Writes down which sets are followed, and in which sizes."""

    mended: frozenset[Fault] = frozenset()
    explain: frozenset[frozenset[str]] = frozenset()
    strays: bool = False
    since: dict[float, float] = field(default_factory=dict)
    sizes: dict[float, float] = field(default_factory=dict)
    followed: set[frozenset[str]] = field(default_factory=set)
    in_sizes: set[Fault] = field(default_factory=set)

    def asked(self) -> Asked:
        return Asked(
            self._follow,
            lambda _: True,
            lambda fault: fault in self.mended,
            lambda faults: (
                {h.faults: self.since.get(h.faults[0].size, -30.0) for h in faults}
                if self.since
                else {}
            ),
            lambda sets: {h.faults: -1.0 for h in sets},
            lambda sets: {h.faults: 0.0 if parts(h) in self.explain else -30.0 for h in sets},
            lambda faults: {h.faults: self.sizes.get(h.faults[0].size, -30.0) for h in faults},
            lambda _: self.strays,
            lambda _: frozenset(),
        )

    def _follow(self, suspects: list[Hypothesis]) -> list[tuple[Hypothesis, float]]:
        self.followed |= {parts(h) for h in suspects}
        self.in_sizes |= {f for h in suspects for f in h.faults}
        return []


def parts(h: Hypothesis) -> frozenset[str]:
    return frozenset(f.element for f in h.faults)


def test_third_fault_is_sought_beside_a_fault_and_the_damage_it_did() -> None:
    pair = Hypothesis((Fault("A", "short"), Fault("D", "open")), 1e-3, (("A", "renew"),))
    evidence = Evidence()
    several([RARE], [(pair, -1.0)], [], evidence.asked())
    assert {"A", "D", "R"} in evidence.followed


POOR = [
    Hypothesis((Fault("P", "high_resistance", size),), 1e-3, (("P", "renew"),))
    for size in (0.2, 0.632, 2.0, 6.32, 20.0, 63.2, 200.0, 632.0, 2000.0)
]


@pytest.mark.parametrize("mended", [True, False])
def test_a_poor_joint_is_tried_in_the_size_that_explains_its_share(mended: bool) -> None:
    """Of nine sizes a second comes in three; a lamp that glows dimly does so behind one alone. What came
    after a repair tells the size of what is there, everything that of what was mended."""
    apt = {6.32: -1.0}
    evidence = Evidence(
        frozenset(h.faults[0] for h in POOR if mended),
        since={1.0: -2.0} if mended else apt,
        sizes=apt if mended else {1.0: -2.0},
    )
    several([RARE, *POOR], [(RARE, -1.0)], [], evidence.asked())
    assert Fault("P", "high_resistance", 6.32) in evidence.in_sizes


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


@pytest.mark.parametrize("mended", [True, False])
def test_a_third_is_sought_behind_two_mended_faults_that_explain_nothing_that_came_since(
    mended: bool,
) -> None:
    """As where a pump that is shorted blows its fuse once the break that kept it from doing so is mended."""
    both = [single(e, 1e-5) for e in ("Y", "Z")]
    many = [single(f"C{n}", 1e-3) for n in range(200)]
    evidence = Evidence(mended=frozenset(h.faults[0] for h in both if mended))
    several([*many, *both, RARE], [(FIRST, 0.0)], [], evidence.asked())
    assert ({"Y", "Z", "R"} in evidence.followed) is mended


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
    clamp = Check(CLAMP, "W10", "", set_up(circuit, {"S1": "3"}))
    assert confirms(circuit, clamp, Fault("M1", "stiff", 0.6))
    worn = Fault("M1", "worn_brushes", 4.0)
    assert worn.mode in circuit.elements["M1"].modes
    assert not confirms(circuit, clamp, worn)


def test_two_poor_joints_are_found_in_sizes_that_are_both_off_those_first_tried() -> None:
    true = {"P": 200.0, "Q": 2.0}
    asked: set[tuple[float, ...]] = set()

    def follow(suspects: list[Hypothesis]) -> list[tuple[Hypothesis, float]]:
        asked.update(tuple(f.size for f in h.faults) for h in suspects)
        return [
            (h, -sum(abs(math.log(f.size / true[f.element])) for f in h.faults)) for h in suspects
        ]

    both = [poor(e, f.size) for e in "PQ" for f in (h.faults[0] for h in POOR)]
    alone = [(h, -30.0) for h in both]
    several(both, alone, [], replace(Evidence().asked(), follow=follow))
    assert tuple(true.values()) in asked
