"""Facts of the trade on the two fans with a stepped resistor (common practice, no source), as twins: the
resistor on the earth side of the motor, and on its supply side.

A lamp in place of the motor draws its own current, so it shows what hinders that current and nothing less.
"""

from __future__ import annotations

import itertools

import pytest

from footwell.checks.check import SUBSTITUTE, VOLTS, Check
from footwell.checks.predict import Reading, expected
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.choose import distinct
from footwell.electrics.laying import lamp_volts
from footwell.electrics.operating_point import operate
from footwell.reference.lamps import light_share

from .sample_circuits import MINIBUS, sample

PICKUP = "pickup-cabin-fan"
EARTH_SIDE, SUPPLY_SIDE = (PICKUP, "X1", "1234"), (MINIBUS, "X4", "123")
FANS = pytest.mark.parametrize(
    ("sheet", "plug", "steps"), [EARTH_SIDE, SUPPLY_SIDE], ids=["earth side", "supply side"]
)
WATTS = 55.0
"""Of a lamp that draws some amps, as the steps are made for a motor's current."""


def motor_volts(sheet: str, step: str, *faults: Fault) -> tuple[float, float, float]:
    """Supply, feed side and other side of the running motor, to the body."""
    circuit = sample(sheet)
    point = operate(circuit, set_up(circuit, {"S1": step}), faults)
    return point.at("G1.+"), point.at("M1.+"), point.at("M1.-")


@FANS
def test_one_side_of_the_motor_stands_in_every_position_and_the_other_goes_step_by_step(
    sheet: str, plug: str, steps: str
) -> None:
    found = [motor_volts(sheet, step) for step in steps]
    feeds, returns = [v[1] for v in found], [v[2] for v in found]
    if sheet == PICKUP:
        assert all(supply - feed < 0.5 for supply, feed, _ in found)
        assert returns == sorted(returns, reverse=True) and returns[0] > 0.4 * found[0][0]
    else:
        assert all(back < 0.2 for back in returns)
        assert feeds == sorted(feeds) and feeds[0] < 0.7 * found[0][0]


@FANS
def test_top_position_leaves_the_resistor_out(sheet: str, plug: str, steps: str) -> None:
    circuit = sample(sheet)
    open_pack = (Fault("R1", "open:thermal fuse"),)
    for step in steps:
        setup = set_up(circuit, {"S1": step})
        sound, broken = operate(circuit, setup), operate(circuit, setup, open_pack)
        alike = abs(broken.amps("M1")) == pytest.approx(abs(sound.amps("M1")), rel=0.02)
        assert alike is (step == steps[-1])
    supply, feed, back = motor_volts(sheet, steps[-1])
    assert feed - back > 0.93 * supply


@FANS
def test_with_the_pack_open_the_standing_side_stands_still_and_the_other_tells_which_fan_it_is(
    sheet: str, plug: str, steps: str
) -> None:
    """A motor open at its earth is live at both ways of its plug; open at its feed it is dead at both."""
    supply, feed, back = motor_volts(sheet, steps[0], Fault("R1", "open:thermal fuse"))
    live = 0.95 * supply
    assert (feed > live, back > live) == ((True, True) if sheet == PICKUP else (False, False))


def lamp_light(sheet: str, plug: str, step: str, *faults: Fault, watts: float = WATTS) -> float:
    circuit = sample(sheet)
    point = operate(circuit, set_up(circuit, {"S1": step}, (), {plug: watts}), faults)
    lamp = next(s for s in point.slots if s.element == "stand-in")
    return light_share(abs(point.across(lamp)), lamp_volts(circuit))


def lamp_reading(sheet: str, plug: str, step: str, *faults: Fault) -> Reading:
    """Volts under the lamp at the motor's plug."""
    circuit = sample(sheet)
    ways = [f"{plug}.1.a", f"{plug}.2.a"]
    setup = set_up(circuit, {"S1": step}, (plug,), {plug: WATTS})
    found = expected(circuit, Check(VOLTS, *ways, setup), faults)
    assert isinstance(found, Reading)
    return found


@FANS
def test_substitute_lamp_at_the_motor_plug_shows_every_step(
    sheet: str, plug: str, steps: str
) -> None:
    lights = [lamp_light(sheet, plug, step) for step in steps]
    volts = [lamp_reading(sheet, plug, step).mean for step in steps]
    assert lights == sorted(lights) and lights[0] > 0.05 and lamp_light(sheet, plug, "0") < 1e-4
    assert all(b - a > 0.2 for a, b in itertools.pairwise(volts))


@FANS
def test_lamp_too_small_for_the_steps_shows_them_alike(sheet: str, plug: str, steps: str) -> None:
    """The twin: 5 W leave most of the supply to the lamp in every step, and the eye sees no steps."""
    lights = [lamp_light(sheet, plug, step, watts=5.0) for step in steps]
    assert lights[0] > 0.55 * lights[-1]
    assert lamp_light(sheet, plug, steps[0]) < lights[0]


def words(circuit: Circuit, plug: str, *faults: Fault) -> dict[str, float]:
    setup = set_up(circuit, {"S1": "1"}, (plug,), {plug: 21.0})
    found = expected(circuit, Check(SUBSTITUTE, plug, "", setup), faults)
    assert isinstance(found, dict)
    return found


@FANS
def test_bright_lamp_clears_what_is_open_and_large_joints_and_leaves_small_ones(
    sheet: str, plug: str, steps: str
) -> None:
    """The lamp's own resistance decides: a joint far below a tenth of it stays under the eye."""
    circuit = sample(sheet)
    lamp_ohms = circuit.sheet.system_volts**2 / 21.0
    wire = {PICKUP: "W2", MINIBUS: "W10"}[sheet]
    sound = words(circuit, plug)
    for fault, cleared in [
        (Fault(wire, "open"), True),
        (Fault(wire, "high_resistance", 20.0 * lamp_ohms), True),
        (Fault(wire, "high_resistance", 0.02 * lamp_ohms), False),
    ]:
        assert distinct(sound, words(circuit, plug, fault)) is cleared, fault


@FANS
def test_joint_that_the_lamp_passes_slows_the_motor_and_shows_under_its_current(
    sheet: str, plug: str, steps: str
) -> None:
    circuit = sample(sheet)
    ohms = 0.03 * circuit.sheet.system_volts**2 / 21.0
    joint = Fault("F1", "high_resistance", ohms)
    sound, poor = (fuse_drop(circuit, steps[-1], faults) for faults in ((), (joint,)))
    assert sound < 0.1 < 0.5 < poor
    assert lamp_light(sheet, plug, steps[-1], joint, watts=21.0) > 0.8 * lamp_light(
        sheet, plug, steps[-1], watts=21.0
    )


def fuse_drop(circuit: Circuit, step: str, faults: tuple[Fault, ...]) -> float:
    point = operate(circuit, set_up(circuit, {"S1": step}), faults)
    return point.at("F1.1") - point.at("F1.2")
