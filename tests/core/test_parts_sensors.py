"""Potentiometer, Hall and reed switch, and the 5 V they share: what a meter reads at each terminal."""

from __future__ import annotations

import pytest

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.electrics.problems import troubles
from footwell.parts.battery import Battery
from footwell.parts.hall_switch import HallSwitch
from footwell.parts.module_input import KIND as INPUT
from footwell.parts.module_input import ModuleInput
from footwell.parts.potentiometer import Potentiometer
from footwell.parts.reed_switch import ReedSwitch
from footwell.parts.regulator import LIFTED, LIMITED, OFF, ON, PASSING, Regulator
from footwell.parts.resistor import Resistor
from footwell.reference import sensors

from .electrics_rig import EARTH, Part, circuit_of, run
from .sensor_rig import BATTERY, unit

SUPPLY = Part("N1", "regulator", Regulator(), {"in": "30", "out": "5V", "-": EARTH})


def pedal(values: Potentiometer | None = None, *others: Part) -> Circuit:
    """A pedal's potentiometer on the sensor supply; the unit holds its line down by 100 kΩ."""
    sensor = Part(
        "B1", "potentiometer", values or Potentiometer(), {"+": "5V", "wiper": "line", "-": EARTH}
    )
    load = Part("R9", "resistor", Resistor(100_000.0), {"1": "line", "2": EARTH})
    return circuit_of([BATTERY, SUPPLY, sensor, load, *others], {"B1": ["0 %", "50 %", "100 %"]})


def wiper(position: str, *faults: Fault) -> float:
    return run(pedal(), {"B1": position}, *faults).at("B1.wiper")


# Ratiometric sensor: 0.5 V to 4.5 V at 5.00 V (makers' practice, memory).
@pytest.mark.parametrize(("position", "volts"), [("0 %", 0.5), ("50 %", 2.5), ("100 %", 4.5)])
def test_the_wiper_goes_from_half_a_volt_to_four_and_a_half(position: str, volts: float) -> None:
    assert wiper(position) == pytest.approx(volts, abs=0.02)


def test_a_worn_spot_shows_at_its_own_travel_and_nowhere_else() -> None:
    worn = Fault("B1", "worn:50 %", 20_000.0)
    assert wiper("50 %", worn) == pytest.approx(2.5 * 100 / 120.6, abs=0.05)
    assert wiper("50 %") - wiper("50 %", worn) > 0.3
    for position in ("0 %", "100 %"):
        assert wiper(position, worn) == pytest.approx(wiper(position), abs=1e-9)


def test_an_open_wiper_leaves_the_line_to_the_unit() -> None:
    assert wiper("100 %", Fault("B1", "open:wiper")) == pytest.approx(0.0, abs=0.01)


def test_the_side_of_the_track_that_is_open_shows_in_the_reading() -> None:
    assert wiper("50 %", Fault("B1", "open:upper")) == pytest.approx(0.0, abs=0.01)
    assert wiper("50 %", Fault("B1", "open:lower")) == pytest.approx(4.94, abs=0.05)
    assert wiper("50 %", Fault("B1", "short:lower")) == pytest.approx(0.0, abs=0.01)


def test_a_lifted_wiper_is_the_star_of_three_resistances() -> None:
    """The triangle between the terminals reads as the star it came from: 2.5 V behind 550 + 5000 Ω."""
    load = 100_000.0
    expected = 2.5 * load / (load + 550.0 + 5000.0)
    assert wiper("50 %", Fault("B1", "worn:50 %", 5000.0)) == pytest.approx(expected, abs=0.01)


def test_five_volts_within_the_trades_limits_and_none_without_feed() -> None:
    sound, dead = run(pedal()), run(pedal(), None, Fault("N1", "dead"))
    assert 4.75 <= sound.at("N1.out") <= 5.25 and sound.states["N1"] == ON
    assert dead.at("N1.out") == pytest.approx(0.0, abs=1e-3)


def test_one_shorted_sensor_pulls_the_five_volts_of_all_down() -> None:
    sound, shorted = run(pedal(), {"B1": "50 %"}), run(with_short(), {"B1": "50 %"})
    assert sound.states["N1"] == ON and sound.at("B1.wiper") == pytest.approx(2.5, abs=0.03)
    assert shorted.states["N1"] == LIMITED
    assert shorted.at("N1.out") < 0.5 and shorted.at("B1.wiper") < 0.3
    assert shorted.amps("N1", "out") == pytest.approx(-sensors.REGULATOR_LIMIT_AMPS.value, rel=1e-3)


def with_short() -> Circuit:
    return pedal(None, Part("R8", "resistor", Resistor(0.5), {"1": "5V", "2": EARTH}))


@pytest.mark.parametrize(
    ("volts", "state", "out"), [(0.5, OFF, 0.0), (4.5, PASSING, 3.5), (12.6, ON, 5.0)]
)
def test_what_a_weak_feed_leaves_of_the_five_volts(volts: float, state: str, out: float) -> None:
    feed = Part("G1", "battery", Battery(volts, 0.01), {"+": "30", "-": EARTH})
    point = run(circuit_of([feed, SUPPLY]))
    assert point.states["N1"] == state and point.at("N1.out") == pytest.approx(out, abs=0.03)


def test_a_short_to_supply_lifts_the_five_volts_and_takes_no_current() -> None:
    lifted = run(pedal(None, Part("R8", "resistor", Resistor(1.0), {"1": "5V", "2": "30"})))
    assert lifted.at("N1.out") == pytest.approx(12.6, abs=0.1)
    assert lifted.states["N1"] == LIFTED and abs(lifted.amps("N1", "out")) < 1e-9
    assert run(pedal()).states["N1"] == ON


@pytest.mark.parametrize(("size", "out"), [(0.85, 4.25), (0.6, 3.0)])
def test_a_low_sensor_supply_lowers_every_sensor(size: float, out: float) -> None:
    low = Fault("N1", "low", size)
    assert run(pedal(), None, low).at("N1.out") == pytest.approx(out, abs=0.01)
    assert run(pedal(), None, Fault("N1", "passes")).at("N1.out") > 12.0


def hall(values: HallSwitch | None = None, **nets: str) -> Circuit:
    part = Part(
        "B3", "hall_switch", values or HallSwitch(), {"+": "30", "out": "line", "-": EARTH} | nets
    )
    return circuit_of([BATTERY, part, unit(ModuleInput(2200.0))], {"B3": ["away", "near"]})


def line(circuit: Circuit, magnet: str, *faults: Fault) -> float:
    return run(circuit, {"B3": magnet}, *faults).at("A1.in")


def test_a_hall_switch_pulls_its_line_down_with_the_magnet_near_only() -> None:
    assert line(hall(), "away") == pytest.approx(5.0, abs=0.01)
    assert line(hall(), "near") < sensors.HALL_ON_VOLTS.value
    other = HallSwitch("away")
    assert line(hall(other), "near") == pytest.approx(5.0, abs=0.01)
    assert line(hall(other), "away") < sensors.HALL_ON_VOLTS.value


@pytest.mark.parametrize("nets", [{"+": "cut"}, {"-": "cut"}], ids=["no supply", "no earth"])
def test_a_hall_switch_without_supply_or_earth_switches_nothing(nets: dict[str, str]) -> None:
    assert line(hall(**nets), "near") > 4.5
    assert line(hall(), "near") < 0.4


def test_a_hall_switch_fails_either_way() -> None:
    assert line(hall(), "near", Fault("B3", "stuck_open")) == pytest.approx(5.0, abs=0.01)
    assert line(hall(), "away", Fault("B3", "stuck_closed")) < 0.4


def reed(position: str, *faults: Fault) -> tuple[float, str]:
    part = Part("B4", "reed_switch", ReedSwitch(), {"1": "line", "2": EARTH})
    circuit = circuit_of([BATTERY, part, unit(ModuleInput(2200.0))], {"B4": ["away", "near"]})
    point = run(circuit, {"B4": position}, *faults)
    assert INPUT.taken_for is not None
    taken = INPUT.taken_for(circuit.elements["A1"].values, point.felt("A1"), circuit.context)
    return point.at("A1.in"), taken


def test_a_reed_switch_closes_near_the_magnet_and_a_welded_one_stays_closed() -> None:
    assert reed("away") == (pytest.approx(5.0, abs=0.01), "an open switch")
    assert reed("near") == (pytest.approx(0.0, abs=0.001), "a closed switch")
    assert reed("away", Fault("B4", "stuck_closed"))[1] == "a closed switch"
    assert reed("near", Fault("B4", "open"))[1] == "an open switch"


def test_a_closed_reed_contact_lies_below_the_published_limit() -> None:
    assert sensors.REED_CLOSED_OHMS.value < sensors.REED_MOST_CLOSED_OHMS.value


@pytest.mark.parametrize(
    ("ohms", "to", "words"), [(0.5, EARTH, "gives all"), (1.0, "30", "lifted")]
)
def test_a_sensor_supply_that_is_pulled_down_or_lifted_is_told(
    ohms: float, to: str, words: str
) -> None:
    fault = Part("R8", "resistor", Resistor(ohms), {"1": "5V", "2": to})
    found = [t.sentence for t in troubles(run(pedal(None, fault))) if t.code == "odd_state"]
    assert len(found) == 1 and words in found[0]
    assert [t for t in troubles(run(pedal())) if t.code == "odd_state"] == []
