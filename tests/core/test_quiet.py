"""Faults that change nothing are left out, those alike stand for each other, and nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

import pytest
from parity.seed import commit, some

from footwell.checks.catalogue import catalogue, working_setups
from footwell.checks.check import LAMP, VOLTS, Check
from footwell.checks.hands import Tools
from footwell.checks.idle import moves_no_current
from footwell.checks.outlook import activities, from_outside, outlooks
from footwell.checks.predict import PROBES, Reading, Words, _foretold, foretold
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.faults.suspects import Circumstances, single_faults

from .loop_rig import ALL_TOOLS
from .sample_circuits import FOLDER, MINIBUS, TRACTOR, sample

SHEETS = sorted(path.stem for path in FOLDER.glob("*.json"))
SETS = 40


def sets_of_faults(circuit: Circuit, chance: Random) -> Iterator[tuple[Fault, ...]]:
    """Sets of one to three faults at different elements."""
    every = [s.fault for s in single_faults(circuit, Circumstances())]
    for _ in range(SETS):
        drawn = chance.sample(every, chance.choice((1, 2, 2, 3)))
        yield tuple(sorted({f.element: f for f in drawn}.values()))


@pytest.mark.parametrize("name", some(SHEETS, 4))
def test_what_loads_and_fuses_do_is_the_same_without_faults_that_change_nothing(name: str) -> None:
    circuit, chance = sample(name), Random(f"{name} {commit()}")
    for faults in sets_of_faults(circuit, chance):
        setup = chance.choice(working_setups(circuit))
        fewer = from_outside(circuit, setup, faults)
        whole, left = outlooks(circuit, setup, faults), outlooks(circuit, setup, fewer)
        assert [s.weight for s in whole] == pytest.approx([s.weight for s in left], abs=ABOUT)
        for a, b in zip(whole, left, strict=True):
            assert a.outlook.blown == b.outlook.blown, (setup, faults, fewer)
            assert dict(a.outlook.activity) == pytest.approx(b.outlook.activity, abs=ABOUT), faults


@pytest.mark.parametrize("name", some(SHEETS, 4))
def test_a_reading_is_the_same_without_faults_that_change_nothing(name: str) -> None:
    circuit, chance = sample(name), Random(f"{name} {commit()}")
    checks = [c for c in catalogue(circuit, Tools(ALL_TOOLS), "off") if c.instrument in PROBES]
    for faults in sets_of_faults(circuit, chance):
        check = chance.choice(checks)
        said, whole = foretold(circuit, check, faults), _foretold(circuit, check, faults)
        assert len(said) == len(whole)
        for a, b in zip(said, whole, strict=True):
            assert a.weight == pytest.approx(b.weight, abs=ABOUT), (check.id, faults)
            assert are_alike(a.said, b.said), (check.id, faults, a.said, b.said)


ABOUT = 2e-3
"""Chances, which no two ways to the same operating point give to the last digit."""


def are_alike(one: Reading | Words, other: Reading | Words) -> bool:
    """Words with about the same chances, or numbers that an instrument cannot tell apart: at a loose place
    those within what may leak, of which a stretch with more places in it has more."""
    if isinstance(one, Reading) and isinstance(other, Reading):
        off = abs(one.mean - other.mean)
        sigmas = one.instrument_sigma, other.instrument_sigma
        return off == 0.0 or off <= (max if is_loose(one) and is_loose(other) else min)(sigmas)
    return bool(one == pytest.approx(other, abs=ABOUT))


def is_loose(said: Reading) -> bool:
    """Nobody knows what a meter shows there: its spread is as great as its mean."""
    return said.instrument_sigma >= abs(said.mean) > 0.0


def test_a_meter_at_a_loose_place_is_alike_whatever_leaks_and_not_like_one_on_a_live_wire() -> None:
    little, more, live = Reading(0.01, {}, 0.011), Reading(0.05, {}, 0.051), Reading(12.0, {}, 0.04)
    assert are_alike(little, more) and not are_alike(little, live)
    assert not are_alike(Reading(0.01, {}, 0.001), Reading(0.05, {}, 0.001))
    assert not are_alike(little, Reading(0.05, {}, 0.001))


def test_a_second_break_behind_an_open_fuse_changes_nothing_and_one_before_it_does() -> None:
    circuit = sample(MINIBUS)
    setup = set_up(circuit, {"S1": "3"})
    fuse, behind, before = Fault("F1", "open"), Fault("M1", "open"), Fault("G1", "weak", 0.85)
    (first,) = from_outside(circuit, setup, (fuse,))
    assert from_outside(circuit, setup, (fuse, behind)) == (first,)
    assert len(from_outside(circuit, setup, tuple(sorted((fuse, before))))) == 2


def test_a_break_before_a_short_is_kept_since_the_fuse_then_holds() -> None:
    """With the short alone all behind the blown fuse is dead in the end, the broken wire too."""
    circuit = sample(TRACTOR)
    setup = set_up(circuit, {"A1": "on", "S2": "on"})
    broken, shorted = Fault("W13", "open"), Fault("W15", "short_to_earth")
    assert outlooks(circuit, setup, from_outside(circuit, setup, (shorted,)))[0].outlook.blown
    both = from_outside(circuit, setup, (broken, shorted))
    assert broken in both and not outlooks(circuit, setup, both)[0].outlook.blown


def test_a_break_on_either_side_of_a_wire_that_lies_on_earth_is_not_the_same() -> None:
    """The charge lamp finds its earth through the short unless the break lies between them."""
    circuit = sample("estate-charging")
    setup = set_up(circuit, {"A9": "asleep", "S0": "off"}, engine="on")
    shorted, between, before = (
        Fault("W6", "short_to_earth"),
        Fault("X2.1", "open"),
        Fault("X7.2", "open"),
    )
    assert activities(circuit, setup, (shorted, between))["H1"] == pytest.approx(0.0, abs=1e-6)
    assert activities(circuit, setup, (shorted, before))["H1"] > 0.5


def test_a_wire_on_earth_before_a_break_pulls_the_relay_and_one_behind_it_does_not() -> None:
    """The break alone may stand anywhere in its stretch; beside a short it has its own place."""
    circuit = sample("coupe-horn")
    check = Check(VOLTS, "X2.1.a", "X2.2.a", set_up(circuit, {"S1": "down"}))
    broken = Fault("X4.1", "open")
    before, behind = (
        foretold(circuit, check, tuple(sorted((broken, Fault(wire, "short_to_earth")))))[0].said
        for wire in ("W10", "W11")
    )
    assert isinstance(before, Reading) and isinstance(behind, Reading)
    assert before.mean > 11.0 > 1.0 > abs(behind.mean)


def test_a_strap_that_a_meters_own_current_needs_is_kept() -> None:
    """Red on a live wire, black on a load that is off: the meter reads because that load has its earth."""
    circuit = sample(MINIBUS)
    setup = set_up(circuit, {"S1": "0"})
    check = Check(VOLTS, "F1.1", "X4.1.a", setup)
    sound, floating = (
        foretold(circuit, check, faults)[0].said for faults in ((), (Fault("E1", "open"),))
    )
    assert isinstance(sound, Reading) and isinstance(floating, Reading)
    assert sound.mean > 20.0 > 1.0 > floating.mean


@pytest.mark.parametrize("name", some(SHEETS, 4))
def test_what_no_current_feels_leaves_all_that_loads_and_fuses_do(name: str) -> None:
    circuit, chance = sample(name), Random(f"{name} {commit()}")
    every = [s.fault for s in single_faults(circuit, Circumstances())]
    for setup in chance.sample(working_setups(circuit), 1):
        sound = outlooks(circuit, setup, ())
        for fault in chance.sample(every, SETS):
            if moves_no_current(circuit, setup, fault):
                with_it = outlooks(circuit, setup, (fault,))
                assert [s.weight for s in with_it] == pytest.approx([s.weight for s in sound])
                for a, b in zip(sound, with_it, strict=True):
                    assert a.outlook.blown == b.outlook.blown, (setup, fault)
                    shown = dict(a.outlook.activity)
                    assert shown == pytest.approx(b.outlook.activity, abs=1e-5), (setup, fault)


JOINT = Fault("W12", "high_resistance", 20.0)
"""A poor joint before the right lamp's own switch."""


def test_a_poor_joint_is_no_matter_while_nothing_draws_through_it_and_one_once_it_does() -> None:
    circuit = sample(TRACTOR)
    off, on = (set_up(circuit, {"A1": "on", "S2": position}) for position in ("off", "on"))
    assert moves_no_current(circuit, off, JOINT) and from_outside(circuit, off, (JOINT,)) == ()
    assert not moves_no_current(circuit, on, JOINT)
    assert activities(circuit, on, (JOINT,)) != activities(circuit, on, ())


def test_what_would_draw_a_current_of_its_own_is_never_passed_over() -> None:
    """Where nothing draws yet a wire on earth does, and a lamp of another power once it is lit."""
    circuit = sample(TRACTOR)
    off, on = (set_up(circuit, {"A1": "on", "S2": position}) for position in ("off", "on"))
    assert not moves_no_current(circuit, off, Fault("W12", "short_to_earth"))
    lamp = circuit.elements["H1"].modes["wrong_part"]
    other = Fault("H1", "wrong_part", lamp.factors[0])
    dark = set_up(circuit, {"A1": "off", "S2": "off"})
    assert moves_no_current(circuit, dark, other) and not moves_no_current(circuit, on, other)


def test_a_reading_still_tells_what_no_current_feels() -> None:
    """A break before an open switch darkens no lamp, and takes the voltage off the wire behind it."""
    circuit = sample(TRACTOR)
    off = set_up(circuit, {"A1": "on", "S2": "off"})
    broken = Fault("W12", "open")
    assert moves_no_current(circuit, off, broken)
    check = Check(VOLTS, "S2.1", "earth", off)
    sound, dead = (foretold(circuit, check, faults)[0].said for faults in ((), (broken,)))
    assert isinstance(sound, Reading) and isinstance(dead, Reading)
    assert sound.mean > 11.0 > 1.0 > dead.mean


def test_two_poor_joints_in_line_are_as_uncertain_as_two() -> None:
    """Each may be off its size by itself, so that whether the relay holds is less open than behind a joint
    that is as poor as both."""
    circuit = sample("truck-starter")
    setup = set_up(circuit, {"S1": "start", "S2": "N"})
    fuse, wire = Fault("F1", "high_resistance", 2.0), Fault("W4", "high_resistance", 0.632)
    both, one = (fuse, wire), (Fault("F1", "high_resistance", 2.632),)
    check = Check(LAMP, "X1.85.a", "earth", setup)
    drops = {faults: foretold(circuit, check, faults)[-1].weight for faults in (both, one)}
    assert drops[both] == pytest.approx(_foretold(circuit, check, both)[-1].weight, abs=ABOUT)
    assert drops[one] > drops[both] + 0.02
    seen = {
        faults: outlooks(circuit, setup, from_outside(circuit, setup, faults)) for faults in drops
    }
    whole = outlooks(circuit, setup, both)
    assert [s.weight for s in seen[both]] == pytest.approx([s.weight for s in whole], abs=ABOUT)
