"""Relays near their pull-in and drop-out, fuses near their limit: one state or two, and how likely."""

from __future__ import annotations

import math

import pytest

from footwell.circuit.fault import Fault
from footwell.electrics.operating_point import OperatingPoint
from footwell.electrics.tipping import Alternative, alternatives, doubts
from footwell.electrics.turns import NOTHING, chance, given, learned
from footwell.parts.battery import Battery
from footwell.parts.fuse import Fuse
from footwell.parts.relay import Relay
from footwell.parts.resistor import Resistor
from footwell.reference.fuse_times import opening_time_seconds
from footwell.reference.relays import drop_out_volts, pull_in_volts

from .electrics_rig import EARTH, Part, circuit_of, run

PULL_IN, DROP_OUT = pull_in_volts(12), drop_out_volts(12)


def battery(volts: float, ohms: float = 0.001) -> Part:
    return Part("G1", "battery", Battery(volts, ohms), {"+": "plus", "-": EARTH})


def resistor(name: str, a: str, b: str, ohms: float) -> Part:
    return Part(name, "resistor", Resistor(ohms), {"1": a, "2": b})


def relay(name: str, coil: str, feed: str, make: str) -> Part:
    nets = {"86": coil, "85": EARTH, "30": feed, "87": make}
    return Part(name, "relay", Relay(85.0), nets)


def relay_on(volts: float, load_ohms: float = 20.0, ohms: float = 0.001) -> OperatingPoint:
    parts = [
        battery(volts, ohms),
        relay("K1", "plus", "plus", "out"),
        resistor("R1", "out", EARTH, load_ohms),
    ]
    return run(circuit_of(parts))


def fuse_at(percent: float, rating: float = 10.0) -> OperatingPoint:
    """A fuse that carries some percent of its rating."""
    ohms = 12.5 / (rating * percent / 100.0) - 0.014
    fuse = Part("F1", "fuse", Fuse(rating), {"1": "plus", "2": "out"})
    return run(circuit_of([battery(12.5), fuse, resistor("R1", "out", EARTH, ohms)]))


def states(found: tuple[Alternative, ...], element: str) -> dict[str, float]:
    """Chance of each state of an element."""
    rows: dict[str, float] = {}
    for a in found:
        state = a.point.states[element]
        rows[state] = rows.get(state, 0.0) + a.weight
    return rows


@pytest.mark.parametrize("volts", [3.0, 4.5, 9.0, 12.5])
def test_relay_far_from_its_pull_in_leaves_no_doubt(volts: float) -> None:
    point = relay_on(volts)
    (only,) = alternatives(point)
    assert only.point is point and only.weight == 1.0 and only.turns == ()
    assert doubts(point) == []


@pytest.mark.parametrize("off", [-0.6, -0.2, 0.2, 0.6])
def test_relay_near_its_pull_in_is_told_both_ways_the_likelier_first(off: float) -> None:
    found = alternatives(relay_on(PULL_IN.mean + off))
    assert [a.point.states["K1"] for a in found] == (
        ["pulled", "rest"] if off > 0.0 else ["rest", "pulled"]
    )
    # The limit spreads by 0.6 V (reference.relays), the supply by some 0.1 V.
    sure = 0.5 * math.erfc(-abs(off) / 0.6 / math.sqrt(2.0))
    assert found[0].weight == pytest.approx(sure, abs=0.02)
    assert sum(a.weight for a in found) == pytest.approx(1.0)


def test_what_hangs_on_the_relay_goes_with_it() -> None:
    by_state = {a.point.states["K1"]: a.point for a in alternatives(relay_on(PULL_IN.mean))}
    assert by_state["pulled"].at("R1.1") > 6.0
    assert abs(by_state["rest"].at("R1.1")) < 1e-3


def sagging(volts: float) -> OperatingPoint:
    """A relay that pulls in on a full supply, whose load then leaves so many volts to its coil."""
    load = 1.0 / (12.5 / volts - 1.0) - 0.0045
    return relay_on(12.5, load, ohms=1.0)


@pytest.mark.parametrize(("volts", "sure"), [(6.0, True), (2.6, False), (2.0, False)])
def test_relay_whose_load_drags_its_coil_down_may_not_hold(volts: float, sure: bool) -> None:
    found = alternatives(sagging(volts))
    assert (len(found) == 1) is sure
    if not sure:
        chance = 0.5 * math.erfc((DROP_OUT.mean - volts) / DROP_OUT.sigma / math.sqrt(2.0))
        assert states(found, "K1")["pulled"] == pytest.approx(chance, abs=0.03)


def test_which_way_it_went_is_said_in_the_words_of_the_trade() -> None:
    told = {a.point.states["K1"]: a.turns[0].words for a in alternatives(sagging(2.6))}
    assert told == {"pulled": "holds", "rest": "has dropped out"}
    told = {a.point.states["K1"]: a.turns[0].words for a in alternatives(relay_on(6.6))}
    assert told == {"pulled": "has pulled in", "rest": "has not pulled in"}


def test_relay_that_holds_itself_without_a_start_is_surely_at_rest() -> None:
    parts = [battery(12.5), relay("K1", "coil", "plus", "coil"), resistor("R1", "coil", EARTH, 9.0)]
    (only,) = alternatives(run(circuit_of(parts)))
    assert only.point.states["K1"] == "rest"


def test_relay_without_its_coil_is_surely_at_rest() -> None:
    parts = [battery(6.6), relay("K1", "plus", "plus", "out")]
    (only,) = alternatives(run(circuit_of(parts), None, Fault("K1", "open:coil")))
    assert only.point.states["K1"] == "rest"


def test_relay_behind_a_doubtful_one_follows_it_and_is_no_doubt_of_its_own() -> None:
    parts = [
        battery(12.5),
        resistor("R1", "plus", "weak", 85.0 * (12.5 / PULL_IN.mean - 1.0)),
        relay("K1", "weak", "plus", "c2"),
        relay("K2", "c2", "plus", "out"),
        resistor("R2", "out", EARTH, 20.0),
    ]
    found = alternatives(run(circuit_of(parts)))
    together = [(a.point.states["K1"], a.point.states["K2"]) for a in found]
    assert sorted(together) == [("pulled", "pulled"), ("rest", "rest")]


def doubtful_relays(count: int) -> OperatingPoint:
    """Relays with coils of their own, each near its pull-in."""
    parts = [battery(12.5)]
    for n in range(count):
        ohms = 85.0 * (12.5 / (PULL_IN.mean + 0.1 * n) - 1.0)
        parts += [
            resistor(f"R{n}", "plus", f"c{n}", ohms),
            relay(f"K{n}", f"c{n}", "plus", f"out{n}"),
            resistor(f"L{n}", f"out{n}", EARTH, 20.0),
        ]
    return run(circuit_of(parts))


def test_two_doubtful_relays_are_told_in_four_ways() -> None:
    found = alternatives(doubtful_relays(2))
    assert len({(a.point.states["K0"], a.point.states["K1"]) for a in found}) == 4
    assert states(found, "K0")["pulled"] == pytest.approx(0.5, abs=0.01)
    assert states(found, "K1")["pulled"] == pytest.approx(0.56, abs=0.02)


def test_of_three_doubtful_relays_the_two_most_doubtful_are_told_apart() -> None:
    found = alternatives(doubtful_relays(3))
    assert len(found) == 4
    assert {a.point.states["K2"] for a in found} == {"pulled"}


@pytest.mark.parametrize(("percent", "blown"), [(90.0, False), (120.0, False), (600.0, True)])
def test_fuse_far_from_its_limit_leaves_no_doubt(percent: float, blown: bool) -> None:
    (only,) = alternatives(fuse_at(percent))
    assert (only.point.states["F1"] == "blown") is blown


@pytest.mark.parametrize("percent", [140.0, 160.0])
def test_fuse_somewhat_over_its_rating_may_open_within_a_check(percent: float) -> None:
    # ISO 8820-3: from 135 % on between 0.75 s and ten minutes, at 160 % between 0.25 s and 50 s.
    found = alternatives(fuse_at(percent))
    times = opening_time_seconds("C", 10.0, percent / 10.0)
    assert times is not None
    middle, sigma = math.log(times[0] * times[1]) / 2.0, math.log(times[1] / times[0]) / 4.0
    blown = 0.5 * math.erfc(-(math.log(10.0) - middle) / sigma / math.sqrt(2.0))
    assert states(found, "F1")["blown"] == pytest.approx(blown, abs=0.05)
    gone = next(a.point for a in found if a.point.states["F1"] == "blown")
    assert gone.blown == ("F1",) and abs(gone.at("R1.1")) < 1e-3


def in_line(first: float, second: float) -> OperatingPoint:
    parts = [
        battery(12.5, 0.05),
        Part("F1", "fuse", Fuse(first), {"1": "plus", "2": "mid"}),
        Part("F2", "fuse", Fuse(second), {"1": "mid", "2": "out"}),
        resistor("R1", "out", EARTH, 0.01),
    ]
    return run(circuit_of(parts))


def test_of_two_fuses_in_a_short_the_much_smaller_one_surely_opens() -> None:
    (only,) = alternatives(in_line(30.0, 5.0))
    assert only.point.blown == ("F2",)


def test_of_two_equal_fuses_in_a_short_either_may_open_but_not_both() -> None:
    found = alternatives(in_line(10.0, 10.0))
    assert sorted(a.point.blown for a in found) == [("F1",), ("F2",)]
    assert found[0].weight == pytest.approx(0.5, abs=0.01)


def test_what_one_reading_supposes_of_a_relay_holds_for_the_next() -> None:
    pulled, rest = alternatives(relay_on(PULL_IN.mean + 0.1))
    known = learned(NOTHING, pulled.turns)
    assert chance(pulled.turns, known) == pytest.approx(1.0)
    assert chance(rest.turns, known) == pytest.approx(0.0)


def test_relay_that_pulled_in_on_little_pulls_in_on_more_and_the_other_way_round() -> None:
    little, more = alternatives(relay_on(PULL_IN.mean - 0.3)), alternatives(relay_on(PULL_IN.mean))
    assert [a.point.states["K1"] for a in little] == ["rest", "pulled"]
    after_pulled = learned(NOTHING, little[1].turns)
    after_rest = learned(NOTHING, little[0].turns)
    on_more = next(a for a in more if a.point.states["K1"] == "pulled")
    assert chance(on_more.turns, after_pulled) == pytest.approx(1.0)
    assert 0.05 < chance(on_more.turns, after_rest) < on_more.weight


def test_a_figure_that_leans_as_the_doubt_does_moves_to_its_side_and_narrows() -> None:
    pulled, rest = alternatives(relay_on(PULL_IN.mean + 0.01))
    leans = {key: 2.0 * x for key, x in pulled.turns[0].doubt.leans.items()}
    high, narrower = given(6.6, leans, pulled.turns)
    low, _ = given(6.6, leans, rest.turns)
    assert low < 6.6 < high
    assert sum(x * x for x in narrower.values()) < sum(x * x for x in leans.values())


def test_a_figure_that_leans_on_nothing_of_the_doubt_stays_as_it_is() -> None:
    pulled, _ = alternatives(relay_on(PULL_IN.mean + 0.01))
    mean, leans = given(6.6, {("W99", ""): 0.1}, pulled.turns)
    assert mean == 6.6 and leans["W99", ""] == 0.1
