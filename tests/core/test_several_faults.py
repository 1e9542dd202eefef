"""Suspects of several faults: which sets are looked at, and that none is chosen by its name."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Hypothesis
from footwell.diagnosis.multiple import Scored, Singles, firsts, joined, top
from footwell.diagnosis.search import Asked, several


def single(element: str, odds: float, size: float = 0.0, mode: str = "open") -> Hypothesis:
    return Hypothesis((Fault(element, mode, size),), odds, ((element, "renew"),))


def names(rows: list[Hypothesis]) -> list[set[str]]:
    return [{f.element for f in h.faults} for h in rows]


def test_every_pair_of_different_elements_is_joined_once() -> None:
    ones = [single(x, 0.1) for x in "ABC"]
    found = names(joined(ones, ones, 100))
    assert len(found) == 3 and {"A", "B"} in found and {"B", "C"} in found and {"A", "C"} in found


def test_odds_of_a_pair_are_the_product() -> None:
    (pair,) = joined([single("A", 0.5)], [single("B", 0.1)], 10)
    assert math.isclose(pair.odds, 0.05)


def test_a_pair_that_is_met_from_either_side_has_its_odds_once() -> None:
    """A poor joint and a break, both among the firsts; and two poor joints whose sizes differ by side."""
    poor = [single("A", 0.5, size, "high_resistance") for size in (1.0, 2.0)]
    other = [single("B", 0.2, size, "high_resistance") for size in (1.0, 3.0)]
    (pair,) = joined([poor[0], single("B", 0.1)], [poor[0], single("B", 0.1)], 10)
    assert math.isclose(pair.odds, 0.05)
    pairs = joined([poor[1], other[1]], [*poor, *other], 10)
    assert math.isclose(sum(h.odds for h in pairs), 0.5 * (0.2 + 0.2) / 2 + 0.2 * (0.5 + 0.5) / 2)
    assert len({h.faults for h in pairs}) == len(pairs) == 3


def test_a_poor_joint_of_a_set_is_moved_to_what_lies_near_it_and_may_have_one_of_its_size() -> None:
    poor = [
        single(x, odds, 3.0, "high_resistance") for x, odds in (("A", 0.4), ("C", 0.1), ("F", 0.1))
    ]
    other = [single("D", 0.1, 5.0, "high_resistance"), single("B", 0.2), single("E", 0.2)]
    (pair,) = joined([poor[0]], [other[1]], 10)
    near = {"A": {"B", "C", "D", "E"}}
    (moved,) = Singles.of([*poor, *other]).moved(pair, near.__getitem__)
    assert moved.faults == (Fault("B", "open"), Fault("C", "high_resistance", 3.0))
    assert moved.repairs == (("B", "renew"), ("C", "renew"))
    assert math.isclose(moved.odds, 0.1 * 0.2)


@given(st.lists(st.sampled_from([0.1, 0.2, 0.3]), min_size=1, max_size=12), st.integers(1, 12))
def test_a_cut_never_falls_among_equals_unless_all_are_equal(odds: list[float], most: int) -> None:
    rows = [(single(f"P{n}", x), math.log(x)) for n, x in enumerate(odds)]
    kept = top(rows, most)
    assert 1 <= len(kept) <= most or len(odds) <= most
    if len(odds) > most and len(set(odds)) > 1 and max(odds) != sorted(odds)[-most - 1]:
        left = {h.odds for h, _ in rows} - {h.odds for h in kept}
        assert not left & {h.odds for h in kept}


def test_the_best_size_of_a_fault_carries_the_odds_of_all_its_sizes() -> None:
    rows: list[Scored] = [
        (single("A", 0.1, 1.0, "high_resistance"), -1.0),
        (single("A", 0.1, 2.0, "high_resistance"), -1.0 + math.log(0.5)),
    ]
    (best,) = firsts(rows, ())
    assert best.faults[0].size == 1.0 and math.isclose(best.odds, 0.15)


def test_a_fault_that_the_evidence_threw_out_may_be_true_beside_another() -> None:
    found = firsts([(single("A", 0.1), -1.0)], [single("B", 0.1), single("C", 0.1)])
    assert names(found) == [{"A"}, {"C"}, {"B"}]


def weighed(gain: float, noticed: bool) -> list[set[str]]:
    """What is left of A beside B where B betters the fit by so many nats, noticed by people or not."""
    ones = [single("A", 0.1), single("B", 0.1)]
    alive: list[Scored] = [(ones[0], math.log(0.1) - 5.0)]

    def follow(rows: list[Hypothesis]) -> list[Scored]:
        return [(h, math.log(h.odds) - 5.0 + gain) for h in rows]

    asked = Asked(
        follow,
        noticed=lambda _: noticed,
        mended=lambda _: False,
        since=lambda _: {},
        before=lambda _: {},
        all_of_it=lambda _: {},
        share_of_it=lambda _: {},
        strays=lambda _: False,
        near=lambda _: frozenset(),
    )
    found = several(ones, alive, [], asked)
    return names([h for h, _ in found])


def test_a_second_fault_that_nobody_notices_counts_only_where_a_reading_calls_for_it() -> None:
    assert weighed(gain=3.0, noticed=False) == [{"A", "B"}]
    assert weighed(gain=0.1, noticed=False) == []
    assert weighed(gain=0.1, noticed=True) == [{"A", "B"}]
