"""Facts of the trade that reasoning must keep (common practice, no source), each with its opposite."""

from __future__ import annotations

import pytest
from parity.seed import some

from footwell.checks.catalogue import catalogue, working_setups
from footwell.checks.check import CLAMP, FEED, OHMS, SUBSTITUTE, VOLTS, Check
from footwell.checks.hands import Tools
from footwell.checks.predict import Reading, expected
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState, set_up
from footwell.diagnosis.belief import Belief, believe
from footwell.diagnosis.choose import confirms, distinct
from footwell.electrics.laying import lamp_volts
from footwell.electrics.operating_point import operate
from footwell.job.events import ReadingTaken
from footwell.job.replay import replay
from footwell.page.check_view import check_view
from footwell.practice.electrician import Run, begin, take, work
from footwell.reference.lamps import light_share

from .job_rig import Job
from .jobs_rig import road, vehicle
from .loop_rig import ALL_TOOLS, read
from .sample_circuits import MINIBUS, TRACTOR, VAN, sample

ALL = Tools(("clamp", "fused jumper", "meter", "substitute lamp", "test lamp"))
TOP = {"S1": "3"}
FEED_PATH = ("F1", "S1", "W1", "W2", "W5", "W8", "X1.3", "X2.1", "X2.4")
"""What carries the fan's current in its top position, from the fuse to the last wire."""


def share(belief: Belief, *elements: str) -> float:
    return sum(w.share for w in belief.suspects if any(f.element in elements for f in w.faults))


def after(sheet: str, fault: Fault, *checks: Check) -> Belief:
    """Belief after the complaint and some readings on a vehicle with one fault."""
    truth = vehicle(sheet, fault)
    run = begin(read(sheet).sheet, truth, ["meter", "clamp", "substitute lamp"])
    for check in checks:
        take(run, truth, check, 0.0, "fact")
    return believe(replay(run.events).case)


def volts(sheet: str, red: str, black: str, apart: tuple[str, ...] = (), **on: str) -> Check:
    return Check(VOLTS, red, black, set_up(sample(sheet), on, apart))


def lamped(plug: str, watts: float, **on: str) -> SetupState:
    return set_up(sample(MINIBUS), on, (), {plug: watts})


# ---- a feed that holds, with current and without ---------------------------------------------------


def test_feed_that_holds_while_the_load_draws_proves_fuse_switch_and_wires_together() -> None:
    stiff = Fault("M1", "stiff", 1.2)
    across = volts(MINIBUS, "X4.1.a", "X4.2.a", S1="3")
    drawn = Check(CLAMP, "W10", "", set_up(sample(MINIBUS), TOP))
    before, now = after(MINIBUS, stiff), after(MINIBUS, stiff, drawn, across)
    assert share(now, *FEED_PATH) < 0.05 * share(before, *FEED_PATH)
    assert share(now, "M1") > 0.9


def test_feed_that_holds_without_current_proves_nothing_about_its_joints() -> None:
    open_motor = Fault("M1", "open")
    free = volts(MINIBUS, "X4.1.a", "earth", ("X4",), S1="3")
    before, now = after(MINIBUS, open_motor), after(MINIBUS, open_motor, free)
    joints = ("F1", "W2", "X2.1")
    for element in joints:
        assert poor(now, element) > 0.0
        assert poor(now, element) / broken(now, "M1") == pytest.approx(
            poor(before, element) / broken(before, "M1"), rel=0.15
        )
    assert broken(now, *joints) < 0.05 * broken(before, *joints)


def poor(belief: Belief, element: str) -> float:
    """Share of a high resistance far below that of the meter."""
    return sum(
        w.share
        for w in belief.suspects
        for f in w.faults
        if [f] == [*w.faults] and f.element == element and f.mode == "high_resistance"
        if f.size < 2000.0
    )


def broken(belief: Belief, *elements: str) -> float:
    return sum(
        w.share
        for w in belief.suspects
        for f in w.faults
        if [f] == [*w.faults] and f.element in elements and f.mode == "open"
    )


def test_feed_that_holds_at_the_warm_screen_proves_fuse_relay_and_loom_together() -> None:
    half_broken = Fault("H1", "high_resistance", 0.889)
    on = {"S0": "on", "S1": "on"}
    across = volts(VAN, "H1.+", "H1.-", **on)
    drawn = Check(CLAMP, "W2", "", set_up(sample(VAN), on))
    now = after(VAN, half_broken, across, drawn)
    assert share(now, "F1", "K1", "W3", "W4", "X1.1", "X2.1") < 0.02
    assert share(now, "H1") > 0.9


# ---- the stepped resistor --------------------------------------------------------------------------


def fan(**states: str) -> Belief:
    return believe(replay(Job().tools("meter").positions(**states).stored()).case)


def test_fan_that_runs_on_top_only_points_at_the_pack_its_fuse_or_its_plug() -> None:
    belief = fan(p1="still", p2="still", p3="runs")
    assert share(belief, "R1", "X3.3", "W9") > 0.9
    assert share(belief, "R1") > 0.3
    assert share(belief, "F1", "W8", "W10", "E1", "X4.1") < 0.05


def test_fan_that_is_still_on_top_only_clears_the_pack() -> None:
    belief = fan(p1="runs", p2="runs", p3="still")
    assert share(belief, "R1", "X3.3", "W9") < 0.01
    assert share(belief, "W5", "W8", "X1.3", "X2.4", "S1") > 0.8


def test_top_position_says_nothing_about_the_resistor() -> None:
    """What runs or stands still on top leaves the pack's own odds as they were to each other."""
    silent, runs = believe(replay(Job().stored()).case), fan(p3="runs")
    modes = ("open:thermal fuse", "open:step 1", "open:step 2")
    before, now = ([of_mode(b, m) for m in modes] for b in (silent, runs))
    assert [n / now[0] for n in now] == pytest.approx([b / before[0] for b in before], rel=1e-3)
    assert before[0] == pytest.approx(now[0], rel=0.2)


def of_mode(belief: Belief, mode: str) -> float:
    return sum(w.share for w in belief.suspects if [f.mode for f in w.faults] == [mode])


# ---- ghost voltage and substitute lamp -------------------------------------------------------------


@pytest.mark.parametrize(("ohms", "lit"), [(200.0, False), (0.05, True)])
def test_meter_shows_full_voltage_through_a_joint_that_may_not_light_a_lamp(
    ohms: float, lit: bool
) -> None:
    circuit, joint = sample(TRACTOR), (Fault("W11", "high_resistance", ohms),)
    on = set_up(circuit, {"A1": "on"}, ("X6",))
    free = expected(circuit, Check(VOLTS, "X6.1.a", "earth", on), joint)
    assert isinstance(free, Reading) and free.mean > 12.0
    lamp = expected(
        circuit, Check(SUBSTITUTE, "X6", "", set_up(circuit, {"A1": "on"}, (), {"X6": 21.0})), joint
    )
    assert isinstance(lamp, dict)
    assert (lamp["bright"] > 0.5) is lit and (lamp["dark"] > 0.9) is not lit


def test_bright_substitute_lamp_clears_opens_and_large_joints_and_leaves_small_ones() -> None:
    """On 24 V a lamp of 21 W draws 0.75 A and has 37 Ω: joints far below a tenth of that stay."""
    truth = Fault("W10", "high_resistance", 0.632)
    bright = Check(SUBSTITUTE, "X4", "", lamped("X4", 21.0, S1="3"))
    before, now = after(MINIBUS, truth), after(MINIBUS, truth, bright)
    assert of_size(before, "W10", 0.3, 1.0) > 0.0
    assert of_size(now, "W10", 0.3, 1.0) > 0.8 * of_size(before, "W10", 0.3, 1.0)
    circuit = sample(MINIBUS)
    sound, gone, small, large = (
        words(circuit, bright, faults)
        for faults in (
            (),
            (Fault("W10", "open"),),
            (Fault("W10", "high_resistance", 0.632),),
            (Fault("W10", "high_resistance", 200.0),),
        )
    )
    assert distinct(sound, gone) and distinct(sound, large) and not distinct(sound, small)


def of_size(belief: Belief, element: str, low: float, high: float) -> float:
    return sum(
        w.share
        for w in belief.suspects
        for f in w.faults
        if f.element == element and low <= f.size <= high
    )


def words(circuit, check: Check, faults: tuple[Fault, ...]) -> dict[str, float]:  # type: ignore[no-untyped-def]
    found = expected(circuit, check, faults)
    assert isinstance(found, dict)
    return found


def test_voltage_under_the_lamp_shows_the_joint_that_the_eye_passes() -> None:
    circuit = sample(MINIBUS)
    across = Check(VOLTS, "X4.1.a", "X4.2.a", lamped("X4", 21.0, S1="3"))
    sound = expected(circuit, across, ())
    poor_joint = expected(circuit, across, (Fault("W10", "high_resistance", 6.32),))
    assert isinstance(sound, Reading) and isinstance(poor_joint, Reading)
    assert sound.mean - poor_joint.mean > 2.0


def test_step_with_a_substitute_lamp_names_its_watts() -> None:
    case = replay(Job().tools("substitute lamp", "meter").dead().stored()).case
    belief = believe(case)
    for check in catalogue(case.now, ALL):
        if check.setup.stand_in:
            assert "21 W" in check_view(case, belief, check).do


NEAR = 0.8
"""Light that is at least so much of another cannot be told from it by eye."""


@pytest.mark.parametrize("name", [MINIBUS, TRACTOR])
def test_light_that_differs_by_less_than_a_fifth_is_told_apart_in_volts_and_not_by_eye(
    name: str,
) -> None:
    circuit = sample(name)
    checks = catalogue(circuit, ALL)
    by_eye = [c for c in checks if c.instrument == SUBSTITUTE]
    assert by_eye
    close = 0
    for check in by_eye:
        sound = light(circuit, check, ())
        for wire in (w.id for w in circuit.sheet.wires):
            for ohms in (0.2, 0.632, 2.0):
                poor_wire = (Fault(wire, "high_resistance", ohms),)
                if sound > 0.5 and NEAR * sound < light(circuit, check, poor_wire) < sound:
                    close += 1
                    assert not distinct(words(circuit, check, poor_wire), words(circuit, check, ()))
        in_volts = [c for c in checks if c.instrument == VOLTS and c.setup == check.setup]
        assert in_volts, check.id
    assert close > 10


def light(circuit, check: Check, faults: tuple[Fault, ...]) -> float:  # type: ignore[no-untyped-def]
    point = operate(circuit, check.setup, faults)
    lamp = next(s for s in point.slots if s.element == "stand-in")
    return light_share(abs(point.across(lamp)), lamp_volts(circuit))


# ---- a motor is not condemned by what stands in front of it ----------------------------------------


MOTOR_FAULTS = [Fault("M1", "open"), Fault("M1", "worn_brushes", 15.0), Fault("M1", "seized")]
TOOL_SETS = [
    ("meter",),
    ("meter", "substitute lamp"),
    ("clamp", "meter"),
    ("fused jumper", "meter"),
]


def shows_the_motor(reading: ReadingTaken) -> bool:
    """Drop on feed and earth with the motor connected, its current, a direct feed, or itself alone."""
    plugged = "X4" not in reading.setup.apart
    held = {reading.red, reading.black}
    if reading.instrument == VOLTS:
        return plugged and held == {"X4.1.a", "X4.2.a"}
    if reading.instrument == OHMS:
        return held == {"X4.1.b", "X4.2.b"}
    return reading.instrument == FEED or (reading.instrument == CLAMP and plugged)


@pytest.mark.parametrize("tools", some(TOOL_SETS, 2), ids="+".join)
@pytest.mark.parametrize("fault", MOTOR_FAULTS, ids=lambda f: f.mode)
def test_bad_motor_is_condemned_only_after_it_was_shown_itself(
    fault: Fault, tools: tuple[str, ...]
) -> None:
    done = road(MINIBUS, vehicle(MINIBUS, fault), tools)
    assert "M1" in done.run.replaced and done.run.good_parts == [] and done.left == ()
    assert any(shows_the_motor(r) for r in before_the_repair(done.run))


def before_the_repair(run: Run) -> list[ReadingTaken]:
    cut = next(n for n, e in enumerate(run.events) if e.kind == "repair done")
    return [
        ReadingTaken.model_validate_json(e.body)
        for e in run.events[:cut]
        if e.kind == "reading taken"
    ]


@pytest.mark.parametrize("tools", some(TOOL_SETS, 2), ids="+".join)
@pytest.mark.parametrize(
    "joint",
    [
        Fault("X4.1", "high_resistance", 6.32),
        Fault("X4.2", "open"),
        Fault("W10", "high_resistance", 6.32),
        Fault("E1", "high_resistance", 6.32),
    ],
    ids=lambda f: f"{f.element} {f.mode}",
)
def test_bad_joint_before_or_behind_the_motor_does_not_cost_the_motor(
    joint: Fault, tools: tuple[str, ...]
) -> None:
    truth = vehicle(MINIBUS, joint)
    run = begin(read(MINIBUS).sheet, truth, list(tools))
    truth = work(run, truth)
    assert "M1" not in run.replaced and truth.standing == ()


@pytest.mark.parametrize("fault", MOTOR_FAULTS, ids=lambda f: f.mode)
def test_neither_substitute_lamp_nor_volts_to_earth_confirm_a_bad_motor(fault: Fault) -> None:
    circuit = sample(MINIBUS)
    for check in catalogue(circuit, ALL):
        if check.instrument == SUBSTITUTE or (check.instrument == VOLTS and check.black == "earth"):
            assert not confirms(circuit, check, fault)


def test_switch_is_measured_by_itself_in_the_position_that_fails() -> None:
    done = road(MINIBUS, vehicle(MINIBUS, Fault("S1", "open:B-3")), ("meter",))
    asked = [v.step.check for v in done.views if v.step.kind == "check"]
    alone = next(c for c in asked if c.instrument == OHMS)
    assert alone.record.setup.controls == TOP and alone.record.setup.apart == ["X2"]
    assert "unplug switch plug X2, then put the fan switch at 3" in alone.do
    assert done.run.replaced == ["S1"] and done.left == ()


def test_repair_that_nothing_can_prove_is_called_a_try_and_the_report_says_so() -> None:
    """A lamp of diodes the wrong way round stays dark when fed, and so does a dead one."""
    sheet = "truck-side-markers"
    done = road(sheet, vehicle(sheet, Fault("L2", "reversed")), ALL_TOOLS)
    (repair,) = (v.step for v in done.views if v.step.kind == "repair")
    assert repair.element == "L2" and done.left == ()
    assert "No check at hand tells the rest apart" in repair.why


def test_a_wire_between_a_splice_and_a_plug_is_told_from_the_splice_at_its_bare_joint() -> None:
    done = road(TRACTOR, vehicle(TRACTOR, Fault("W10", "open")), ("meter",))
    (repair,) = (v.step for v in done.views if v.step.kind == "repair")
    assert repair.element == "W10" and done.left == ()
    assert "everything else is ruled out" in repair.why


@pytest.mark.parametrize(
    ("mode", "size", "told"),
    [("over_voltage", 0.0, True), ("dead", 0.0, False), ("low", 0.1, False)],
)
def test_only_too_much_voltage_over_the_battery_proves_the_generator(
    mode: str, size: float, told: bool
) -> None:
    """What is missing there a broken wire would take as well; what is too much nothing else gives."""
    circuit = sample("estate-charging")
    setup = working_setups(circuit, "on")[0]
    over_battery, to_body = (Check(VOLTS, "G1.+", black, setup) for black in ("G1.-", "earth"))
    fault = Fault("G2", mode, size)
    assert confirms(circuit, over_battery, fault) == told
    assert not confirms(circuit, to_body, fault)
