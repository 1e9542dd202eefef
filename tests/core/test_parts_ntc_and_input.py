"""Temperature sensors and pulled-up inputs: what a meter reads on the line, sound and faulty."""

from __future__ import annotations

import pytest

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.electrics.problems import troubles
from footwell.parts import ntc
from footwell.parts.base import Context
from footwell.parts.module_input import AWAKE, DEAD, ModuleInput
from footwell.parts.module_input import KIND as INPUT
from footwell.parts.ntc import Ntc, ohms_at
from footwell.parts.switch import Switch
from footwell.reference import sensors

from .electrics_rig import EARTH, Part, circuit_of, run
from .sensor_rig import BATTERY, line_to_earth, unit

SENSOR_INPUT = ModuleInput(2200.0, "5 V", "sensor")
TWELVE = Context(12, 5.0)


USUAL = Ntc()


def coolant(values: Ntc = USUAL) -> Circuit:
    sensor = Part("B1", "ntc", values, {"1": "line", "2": EARTH})
    return line_to_earth(sensor, SENSOR_INPUT, list(ntc.positions(values)))


def read(circuit: Circuit, position: str, *faults: Fault) -> tuple[float, str]:
    """Volts on the line, and what the unit takes them for."""
    point = run(circuit, {"B1": position}, *faults)
    assert INPUT.taken_for is not None
    unit_values = circuit.elements["A1"].values
    return point.at("A1.in"), INPUT.taken_for(unit_values, point.felt("A1"), TWELVE)


# Published check table of a 10 kohm thermistor (reference.sensors): B25/100 is 3988 K.
@pytest.mark.parametrize(("celsius", "ohms"), sensors.NTC_CHECK_TABLE)
def test_beta_law_meets_the_published_check_table_within_its_tolerance(
    celsius: float, ohms: float
) -> None:
    assert ohms_at(Ntc(ohms_25=10000.0, beta=3988.0), celsius) == pytest.approx(ohms, rel=0.047)
    assert ohms_at(Ntc(table=sensors.NTC_CHECK_TABLE), celsius) == pytest.approx(ohms, rel=1e-9)


def test_a_sensor_of_another_family_misses_the_published_table() -> None:
    assert ohms_at(Ntc(), 25.0) != pytest.approx(10000.0, rel=0.3)


@pytest.mark.parametrize(("celsius", "least", "most"), sensors.COOLANT_NTC_OHMS[1:2])
def test_the_usual_coolant_sensor_hot_is_as_the_trade_has_it(
    celsius: float, least: float, most: float
) -> None:
    assert least <= ohms_at(Ntc(), celsius) <= most


def test_ten_kilohms_under_a_pull_up_of_2200_ohms_leave_4_098_volts() -> None:
    circuit = coolant(Ntc((25.0, 100.0), 10000.0, 3988.0))
    assert read(circuit, "25 °C")[0] == pytest.approx(4.098, abs=0.002)


def test_the_warmer_the_sensor_the_lower_the_line() -> None:
    cold, hot = (read(coolant(), position)[0] for position in ("20 °C", "80 °C"))
    assert cold == pytest.approx(2.70, abs=0.02) and hot == pytest.approx(0.647, abs=0.01)


@pytest.mark.parametrize(
    ("fault", "volts", "words"),
    [
        ((), 2.70, "a reading"),
        ((Fault("B1", "open"),), 5.0, "an open line"),
        ((Fault("B1", "short"),), 0.0, "a short to earth"),
        ((Fault("B1", "drifted", 2.0),), 3.50, "a reading"),
        ((Fault("B1", "wrong_part", 5.0),), 4.27, "a reading"),
        ((Fault("A1", "open:pull-up"),), 0.0, "a short to earth"),
        ((Fault("A1", "short_to_earth"),), 0.0, "a short to earth"),
    ],
)
def test_what_the_line_reads_and_what_the_unit_makes_of_it(
    fault: tuple[Fault, ...], volts: float, words: str
) -> None:
    found = read(coolant(), "20 °C", *fault)
    assert found[0] == pytest.approx(volts, abs=0.02) and found[1] == words


def test_a_unit_without_supply_pulls_nothing_up() -> None:
    sensor = Part("B1", "ntc", Ntc(), {"1": "line", "2": EARTH})
    dead = circuit_of([BATTERY, sensor, unit(SENSOR_INPUT, **{"+": "cut"})], {"B1": ["20 °C"]})
    point = run(dead)
    assert point.states["A1"] == DEAD and point.at("A1.in") == pytest.approx(0.0, abs=1e-6)
    assert run(coolant()).states["A1"] == AWAKE


@pytest.mark.parametrize(
    ("pulls_to", "volts"), [("5 V", 5.0), ("supply", 12.6)], ids=["five", "supply"]
)
def test_an_open_switch_leaves_the_whole_pull_up_on_the_line_and_a_closed_one_nothing(
    pulls_to: str, volts: float
) -> None:
    switch = Part(
        "B1", "switch", Switch(("1", "2"), {"0": (), "1": (("1", "2"),)}), {"1": "line", "2": EARTH}
    )
    circuit = line_to_earth(switch, ModuleInput(2200.0, pulls_to), ["0", "1"])  # type: ignore[arg-type]
    assert read(circuit, "0") == (pytest.approx(volts, abs=0.02), "an open switch")
    assert read(circuit, "1") == (pytest.approx(0.0, abs=0.001), "a closed switch")
    shorted = Fault("A1", "short_to_earth")
    assert read(circuit, "0", shorted) == (pytest.approx(0.0, abs=0.001), "a closed switch")


def test_green_crust_in_a_switch_line_leaves_the_unit_in_doubt() -> None:
    switch = Switch(("1", "2"), {"0": (), "1": (("1", "2"),)})
    part = Part("B1", "switch", switch, {"1": "line", "2": EARTH})
    circuit = line_to_earth(part, ModuleInput(2200.0), ["0", "1"])
    crust = Fault("B1", "high_resistance:1-2", 2000.0)
    assert read(circuit, "1", crust)[1] == "neither open nor closed"
    assert read(circuit, "1", Fault("B1", "high_resistance:1-2", 20.0))[1] == "a closed switch"


def test_a_table_that_does_not_fall_is_objected_to() -> None:
    falling = Ntc(table=((20.0, 2500.0), (80.0, 320.0)))
    assert list(ntc.KIND.objections(falling, TWELVE)) == []
    for table in (((20.0, 320.0), (80.0, 2500.0)), ((80.0, 320.0), (20.0, 2500.0)), ((20.0, 9.0),)):
        found = list(ntc.KIND.objections(Ntc(table=table), TWELVE))
        assert found and all(what.endswith(".") and do.endswith(".") for _, what, do in found)


def test_a_unit_that_lost_its_supply_is_told_and_one_that_is_switched_off_is_not() -> None:
    rows = {"0": (), "1": (("1", "2"),)}
    switch = Part("S1", "switch", Switch(("1", "2"), rows), {"1": "30", "2": "15"})
    circuit = circuit_of([BATTERY, switch, unit(SENSOR_INPUT, **{"+": "15"})], {"S1": ["0", "1"]})
    broken = run(circuit, {"S1": "1"}, Fault("S1", "open:1-2"))
    assert any("has no supply" in t.sentence for t in troubles(broken))
    for position in ("0", "1"):
        assert troubles(run(circuit, {"S1": position})) == []
