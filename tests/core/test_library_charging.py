"""Circuits of generator, batteries and pedal: each fact with its opposite (common practice, no source)."""

from __future__ import annotations

import pytest

from footwell.checks.outlook import outlook
from footwell.checks.sights import SLIP, chances
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.practice.hidden import complains

from .loop_rig import Trial, vehicle_of
from .sample_circuits import sample

CHARGING, DRAIN, SPLIT = "estate-charging", "hatchback-standing-drain", "camper-split-charge"
PEDAL = "pickup-pedal-two-sensors"


def seen(sheet: str, load: str, *faults: Fault, engine: str = "off", **on: str) -> str:
    """The likeliest word for a load in a position."""
    circuit = sample(sheet)
    setup = set_up(circuit, on, engine=engine)
    kind = circuit.elements[load].kind.seen_as
    now, usual = (outlook(circuit, setup, f).activity[load] for f in (faults, ()))
    words = chances(kind, now, usual, SLIP["me"])
    return max(words, key=lambda w: words[w])


@pytest.mark.parametrize(
    ("fault", "parked", "running"),
    [
        (None, "holds its charge", "holds its charge"),
        (Fault("G2", "dead"), "holds its charge", "goes flat"),
        (Fault("G2", "over_voltage"), "holds its charge", "gasses"),
        (Fault("G2", "short_diode", 15.0), "goes flat", "holds its charge"),
        (Fault("A9", "drains", 2.0), "goes flat", "holds its charge"),
        (Fault("W1", "open"), "holds its charge", "goes flat"),
    ],
    ids=str,
)
def test_battery_tells_a_drain_from_a_generator_that_gives_nothing_or_too_much(
    fault: Fault | None, parked: str, running: str
) -> None:
    faults = (fault,) if fault else ()
    assert seen(CHARGING, "G1", *faults, A9="asleep") == parked
    assert seen(CHARGING, "G1", *faults, engine="on", A9="awake", S0="on") == running


@pytest.mark.parametrize(
    ("fault", "off", "on"),
    [
        (None, "bright", "dark"),
        (Fault("G2", "dead"), "bright", "bright"),
        (Fault("H1", "open"), "dark", "dark"),
        (Fault("G2", "open:field"), "dark", "dark"),
        (Fault("W7", "short_to_earth"), "bright", "bright"),
    ],
    ids=str,
)
def test_charge_lamp_lights_before_the_engine_and_goes_out_with_it(
    fault: Fault | None, off: str, on: str
) -> None:
    faults = (fault,) if fault else ()
    words = {
        e: lit(sample(CHARGING), *faults, engine=e, at={"A9": "awake", "S0": "on"})
        for e in ("off", "on")
    }
    assert words == {"off": off, "on": on}


def lit(circuit, *faults: Fault, engine: str, at: dict[str, str]) -> str:  # type: ignore[no-untyped-def]
    share = outlook(circuit, set_up(circuit, at, engine=engine), faults).activity["H1"]
    return "bright" if share > 0.3 else "dark"


def standing_amps(*faults: Fault, **on: str) -> float:
    circuit = sample(DRAIN)
    return -operate(circuit, set_up(circuit, {"A1": "asleep"} | on), faults).amps("G1")


def test_locked_and_asleep_the_vehicle_draws_less_than_fifty_milliamperes() -> None:
    assert 0.01 < standing_amps() < 0.05
    assert standing_amps(S1="open") > 0.3
    assert standing_amps(A2="awake") > 1.0


@pytest.mark.parametrize(
    "fault",
    [
        Fault("S1", "stuck_closed:1-2"),
        Fault("A1", "drains", 0.3),
        Fault("A2", "stays_awake"),
        Fault("G2", "short_diode", 15.0),
    ],
    ids=str,
)
def test_a_drain_is_a_complaint_and_shows_in_the_standing_current(fault: Fault) -> None:
    assert standing_amps(fault) > 0.05 > standing_amps()
    assert complains(vehicle_of(Trial(DRAIN, (fault,))))
    assert not complains(vehicle_of(Trial(DRAIN, ())))


def split(*faults: Fault, engine: str) -> OperatingPoint:
    circuit = sample(SPLIT)
    return operate(circuit, set_up(circuit, {"S0": "on", "S2": "on"}, engine=engine), faults)


def test_second_battery_is_charged_while_the_engine_runs_and_alone_when_it_stands() -> None:
    running, standing = split(engine="on"), split(engine="off")
    assert running.states["K1"] == "pulled" and standing.states["K1"] == "rest"
    assert running.amps("G3") > 1.0 and standing.amps("G3") < -2.0
    # The first battery gives nothing to the living space but what D+ and the charge lamp take.
    assert abs(standing.amps("F1")) < 0.001


@pytest.mark.parametrize(
    "fault", [Fault("F1", "open"), Fault("K1", "open:coil"), Fault("W6", "open")], ids=str
)
def test_second_battery_that_is_not_charged_goes_flat_though_its_lamps_still_light(
    fault: Fault,
) -> None:
    at = {"S0": "on", "S2": "on"}
    assert seen(SPLIT, "G3", fault, engine="on", **at) == "goes flat"
    assert seen(SPLIT, "L1", fault, engine="on", **at) == "bright"
    assert seen(SPLIT, "G3", engine="on", **at) == "holds its charge"


def signals(*faults: Fault, pedal: str) -> tuple[float, float]:
    circuit = sample(PEDAL)
    point = operate(circuit, set_up(circuit, {"S0": "on", "B1": pedal}), faults)
    return point.at("X2.2.a"), point.at("X2.6.a")


def test_second_track_gives_half_of_the_first_in_every_position() -> None:
    for pedal, volts in (("0 %", 0.5), ("100 %", 4.5)):
        first, second = signals(pedal=pedal)
        assert first == pytest.approx(volts, abs=0.1)
        assert second == pytest.approx(first / 2.0, rel=0.05)


def test_a_fault_of_one_track_leaves_the_other_and_its_supply_alone() -> None:
    sound = signals(pedal="100 %")
    worn = signals(Fault("B1", "worn:100 %:2", 20_000.0), pedal="100 %")
    open_earth = signals(Fault("X1.3", "open"), pedal="0 %")
    assert worn[0] == pytest.approx(sound[0], abs=0.01) and worn[1] > 1.1 * sound[1]
    assert open_earth[0] > 4.0 and open_earth[1] == pytest.approx(signals(pedal="0 %")[1], abs=0.02)
