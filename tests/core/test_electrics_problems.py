"""What is said of a circuit that cannot come to rest, or should not be switched on."""

from __future__ import annotations

import dataclasses

import pytest

from footwell.circuit.fault import Fault
from footwell.electrics.operating_point import OperatingPoint
from footwell.electrics.problems import troubles
from footwell.parts.battery import Battery
from footwell.parts.fuse import Fuse
from footwell.parts.motor import Motor
from footwell.parts.relay import Relay
from footwell.parts.resistor import Resistor

from .electrics_rig import EARTH, Part, circuit_of, run
from .sample_circuits import MINIBUS, NAMES, TRACTOR, VAN, sample

BATTERY = Part("G1", "battery", Battery(12.5, 0.005), {"+": "plus", "-": EARTH})


def codes(point: OperatingPoint) -> list[str]:
    return [trouble.code for trouble in troubles(point)]


@pytest.mark.parametrize("name", NAMES)
def test_sound_circuits_have_nothing_against_them_in_any_position(name: str) -> None:
    circuit = sample(name)
    for control in circuit.sheet.controls:
        for position in control.positions:
            assert troubles(run(circuit, {control.part: position.id})) == []


def test_short_behind_the_fuse_names_the_fuse_its_rating_and_the_current() -> None:
    point = run(sample(MINIBUS), {"S1": "3"}, Fault("W8", "short_to_earth"))
    trouble, _ = troubles(point)
    assert trouble.code == "fuse_blows" and trouble.elements == ("F1",)
    assert trouble.sentence.startswith("Fuse F1 (15 A) blows at once: ")
    amps = float(trouble.sentence.split(": ")[1].split(" A")[0])
    # 25 V through fuse, switch and 6 m of wire before the dead short: some 90 mΩ, and the short.
    assert 150 < amps < 350


def test_short_before_any_fuse_names_the_wire_that_would_burn_and_says_to_leave_it_off() -> None:
    # The chafe lies at the battery's end, so the short is only the wire's own when at its far end.
    parts = [BATTERY, Part("R1", "resistor", Resistor(0.01), {"1": "plus", "2": EARTH})]
    point = run(circuit_of(parts))
    (trouble,) = troubles(point)
    assert trouble.code == "wire_burns"
    assert "would burn" in trouble.sentence and "Leave this switched off" in trouble.sentence
    assert trouble.elements[0] in point.circuit.elements and point.settled


def test_relay_that_chatters_is_explained_by_its_coil_in_both_states() -> None:
    nets = {"30": "plus", "87": "x", "87a": "coil", "86": "coil", "85": EARTH}
    parts = [BATTERY, Part("K1", "relay", Relay(85.0, changeover=True), nets)]
    (trouble,) = troubles(run(circuit_of(parts)))
    assert trouble.code == "relay_chatters" and trouble.elements == ("K1",)
    assert "at rest its coil gets 12.5 V" in trouble.sentence
    assert "pulled in it gets 0.0 V" in trouble.sentence


def test_two_fuses_that_open_one_after_the_other_are_told_in_that_order() -> None:
    shorts = [
        Part(f"{kind}{n}", "fuse", Fuse(amps), {"1": "plus", "2": f"s{n}"})
        for n, (kind, amps) in enumerate((("F", 20.0), ("F", 5.0)))
    ]
    loads = [
        Part(f"R{n}", "resistor", Resistor(0.05), {"1": f"s{n}", "2": EARTH}) for n in range(2)
    ]
    point = run(circuit_of([BATTERY, *shorts, *loads]))
    assert [trouble.elements for trouble in troubles(point)] == [("F1",), ("F0",)]


def test_motor_whose_own_drop_is_more_than_its_volts_is_named_when_no_rest_is_found() -> None:
    # 8 A through 2 Ω is 16 V, more than the 12 V the sheet claims: no such motor can be.
    nets = {"+": "plus", "-": EARTH}
    point = run(circuit_of([BATTERY, Part("M1", "motor", Motor(8.0, 12.0, 2.0), nets)]))
    unsettled = dataclasses.replace(point, settled=False)
    (trouble,) = troubles(unsettled)
    assert trouble.code == "not_settled" and "part M1" in trouble.sentence
    assert "only the last ones tried" in trouble.sentence


@pytest.mark.parametrize("name", [MINIBUS, TRACTOR, VAN])
def test_every_sentence_is_whole_and_names_what_is_on_the_sheet(name: str) -> None:
    circuit = sample(name)
    controls = {c.part: c.positions[-1].id for c in circuit.sheet.controls}
    said = 0
    for wire in circuit.sheet.wires:
        for trouble in troubles(run(circuit, controls, Fault(wire.id, "short_to_earth"))):
            said += 1
            names = [circuit.elements[e].name.lower() for e in trouble.elements]
            assert names and all(name in trouble.sentence.lower() for name in names)
            assert trouble.sentence.endswith(".") and "None" not in trouble.sentence
    assert said > 0


def coil_on(volts: float, ohms: float, load: float) -> OperatingPoint:
    """A relay on a supply with a resistance inside, which its own load drags down."""
    supply = Part("G1", "battery", Battery(volts, ohms), {"+": "plus", "-": EARTH})
    nets = {"30": "plus", "87": "out", "86": "plus", "85": EARTH}
    parts = [supply, Part("K1", "relay", Relay(85.0), nets)]
    return run(
        circuit_of([*parts, Part("R1", "resistor", Resistor(load), {"1": "out", "2": EARTH})])
    )


def test_relay_near_its_drop_out_is_told_with_its_coil_and_both_chances() -> None:
    doubt = next(t for t in troubles(coil_on(12.5, 1.0, 0.2584)) if t.code == "in_doubt")
    assert doubt.elements == ("K1",)
    assert doubt.sentence.startswith(
        "Part K1 is near its drop-out: its coil gets 2.6 V. It holds ("
    )
    shares = [int(word[1:]) for word in doubt.sentence.split() if word.startswith("(")]
    assert sum(shares) == 100 and shares[0] > shares[1] > 20


def test_relay_near_its_pull_in_is_told_and_one_far_from_it_is_not() -> None:
    near = [t.sentence for t in troubles(coil_on(6.5, 0.005, 20.0)) if t.code == "in_doubt"]
    assert len(near) == 1 and "near its pull-in: its coil gets 6.5 V" in near[0]
    assert "has not pulled in" in near[0] and "or it has pulled in" in near[0]
    assert "in_doubt" not in codes(coil_on(12.5, 0.005, 20.0))
    assert "in_doubt" not in codes(coil_on(3.0, 0.005, 20.0))


def fuse_of(amps: float, load_amps: float) -> OperatingPoint:
    nets = {"1": "plus", "2": "out"}
    load = Resistor(12.5 / load_amps - 0.013)
    parts = [BATTERY, Part("F1", "fuse", Fuse(amps), nets)]
    return run(circuit_of([*parts, Part("R1", "resistor", load, {"1": "out", "2": EARTH})]))


def test_fuse_at_140_percent_is_told_as_near_its_limit_and_one_at_its_rating_is_not() -> None:
    (near,) = [t for t in troubles(fuse_of(10.0, 14.0)) if t.code == "in_doubt"]
    assert "is near its limit: 14 A would flow through it for 10 s." in near.sentence
    assert "It holds (" in near.sentence and "or it has blown (" in near.sentence
    assert "in_doubt" not in codes(fuse_of(10.0, 10.0))
    assert "in_doubt" not in codes(fuse_of(10.0, 60.0))
