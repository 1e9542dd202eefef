"""Facts of the trade, as far as electrics alone can show them (common practice, no source)."""

from __future__ import annotations

import pytest

from footwell.circuit.circuit import arranged, build, bundles
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.laying import Clip
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.battery import Battery
from footwell.parts.laws import Filament, Resistance
from footwell.parts.motor import Motor
from footwell.parts.resistor import Resistor
from footwell.reference.lamps import light_share, light_word

from .electrics_rig import EARTH, Part, circuit_of, run
from .sample_circuits import MINIBUS, TRACTOR, VAN, sample

METER_OHMS = 1e7
LAMP_21_WATTS = Filament.rated(13.5, 21.0)


def behind(ohms: float, volts: float, *clips: Clip, motor: Motor | None = None) -> OperatingPoint:
    """A supply, a resistance in the feed, and what is clipped or joined between "out" and earth."""
    parts = [
        Part("G1", "battery", Battery(volts, 1e-4), {"+": "plus", "-": EARTH}),
        Part("R1", "resistor", Resistor(ohms), {"1": "plus", "2": "out"}),
    ]
    if motor:
        parts.append(Part("M1", "motor", motor, {"+": "out", "-": EARTH}))
    circuit = circuit_of(parts)
    return operate(circuit, set_up(circuit), (), clips)


def test_ghost_voltage_reads_12_57_on_a_meter_and_under_5_millivolts_with_a_lamp() -> None:
    free = behind(20_000.0, 12.6)
    out = free.circuit.node_of["R1.2"]
    assert round(free.loaded(out, free.circuit.earth, METER_OHMS), 2) == 12.57
    clipped = behind(20_000.0, 12.6, Clip(out, free.circuit.earth, Resistance(METER_OHMS)))
    assert round(clipped.volts[out], 2) == 12.57
    lit = behind(20_000.0, 12.6, Clip(out, free.circuit.earth, LAMP_21_WATTS))
    assert 0.0 < lit.volts[out] < 0.005


def test_joint_of_0_3_ohm_passes_a_21_watt_lamp_and_starves_a_20_amp_motor() -> None:
    free = behind(0.3, 13.0)
    out = free.circuit.node_of["R1.2"]
    lamp = behind(0.3, 13.0, Clip(out, free.circuit.earth, LAMP_21_WATTS))
    motor = behind(0.3, 13.0, motor=Motor(20.0, 13.0))
    assert lamp.volts[out] == pytest.approx(12.6, abs=0.1)
    assert motor.at("M1.+") == pytest.approx(9.0, abs=0.5)


@pytest.mark.parametrize(
    "fault",
    [
        Fault("R1", "open:thermal fuse"),
        Fault("R1", "open:step 1"),
        Fault("R1", "open:step 2"),
        Fault("X3.3", "open"),
        Fault("W9", "high_resistance", 20.0),
    ],
)
def test_top_position_of_the_fan_bypasses_the_resistor_pack(fault: Fault) -> None:
    circuit = sample(MINIBUS)
    sound, broken = run(circuit, {"S1": "3"}), run(circuit, {"S1": "3"}, fault)
    assert broken.amps("M1") == pytest.approx(sound.amps("M1"), rel=1e-6)
    assert broken.amps("M1") > 6.0


def test_open_thermal_fuse_takes_the_lower_positions_and_leaves_the_top_one() -> None:
    amps = [
        run(sample(MINIBUS), {"S1": p}, Fault("R1", "open:thermal fuse")).amps("M1") for p in "123"
    ]
    assert abs(amps[0]) < 1e-6 and abs(amps[1]) < 1e-6 and amps[2] > 6.0


def test_switch_plug_wired_in_mirror_image_stills_the_fan_and_spares_the_pack() -> None:
    drawn = sample(MINIBUS)
    half = ("X2", "a")
    mirrored = {str(7 - int(way)): wires for way, wires in bundles(drawn.sheet, half).items()}
    circuit = build(drawn.sheet, drawn.values, arranged((), half, mirrored))
    for position in "123":
        point = run(circuit, {"S1": position})
        assert abs(point.amps("M1")) < 1e-6 and abs(point.amps("R1", "thermal fuse")) < 1e-6
        assert point.blown == ()


def test_stiff_fan_gives_the_pack_more_current() -> None:
    circuit = sample(MINIBUS)
    for position in "12":
        stiff = run(circuit, {"S1": position}, Fault("M1", "stiff", 0.6))
        sound = run(circuit, {"S1": position})
        assert stiff.amps("R1", "thermal fuse") > 1.2 * sound.amps("R1", "thermal fuse")


def test_shared_earth_open_makes_the_left_lamp_glow_through_the_right_one() -> None:
    circuit = sample(TRACTOR)
    broken = run(circuit, {"A1": "on", "S2": "off"}, Fault("E1", "open"))
    glow = abs(broken.at("L1.1") - broken.at("L1.2"))
    assert light_word(light_share(glow, 12.0)) in ("glow", "dim")
    assert broken.amps("L2") == pytest.approx(-broken.amps("L1"), rel=1e-6)
    sound = run(circuit, {"A1": "on", "S2": "off"})
    assert light_word(light_share(sound.at("L1.1") - sound.at("L1.2"), 12.0)) == "normal"
    # The left lamp's current lifts the shared joints, and the right lamp with them, by millivolts.
    assert light_word(light_share(sound.at("L2.1") - sound.at("L2.2"), 12.0)) == "dark"


def test_exchanged_85_and_86_of_the_work_lamp_relay_conduct_and_leave_it_at_rest() -> None:
    drawn = sample(TRACTOR)
    half = ("X5", "a")
    found = bundles(drawn.sheet, half)
    found["85"], found["86"] = found["86"], found["85"]
    circuit = build(drawn.sheet, drawn.values, arranged((), half, found))
    point = run(circuit, {"A1": "on", "S2": "off"})
    assert point.states["K1"] == "rest" and abs(point.amps("L1")) < 1e-6
    limit = drawn.values["A1"].limit_amps
    at_limit = point.amps("A1") == pytest.approx(limit, rel=0.01)
    assert at_limit or "F2" in point.blown


def test_screen_behind_a_bad_hinge_loom_shows_full_voltage_unplugged_and_little_connected() -> None:
    circuit = sample(VAN)
    on = {part.part: "on" for part in circuit.sheet.controls}
    loom = Fault(_feed_wire_of_the_hinge(), "high_resistance", 20.0)
    feed, earth = circuit.node_of["X2.1.a"], circuit.earth
    apart = operate(circuit, set_up(circuit, on, ("X2",)), (loom,))
    joined = operate(circuit, set_up(circuit, on), (loom,))
    assert apart.loaded(feed, earth, METER_OHMS) > 12.0
    assert joined.loaded(feed, earth, METER_OHMS) < 1.0


def _feed_wire_of_the_hinge() -> str:
    return next(w.id for w in sample(VAN).sheet.wires if w.moves and w.start.startswith("X1."))


def test_open_feed_reads_nothing_beyond_it_and_an_open_earth_lifts_the_load() -> None:
    circuit = sample(MINIBUS)
    open_feed = run(circuit, {"S1": "3"}, Fault("W8", "open"))
    open_earth = run(circuit, {"S1": "3"}, Fault("E1", "open"))
    earth = circuit.earth
    plus, minus = circuit.node_of["X4.1.a"], circuit.node_of["X4.2.a"]
    assert abs(open_feed.loaded(plus, earth, METER_OHMS)) < 0.01
    assert open_earth.loaded(minus, earth, METER_OHMS) == pytest.approx(25.0, abs=0.05)
