"""Healthy readings of the whole library, held to general rules of the trade.

Limits are of `reference.drops`, `reference.supplies` and `reference.sensors`, where their sources stand;
common practice, no source, where no other is named. No rule knows a sheet by its name.
"""

from __future__ import annotations

from functools import cache

import pytest

from footwell.checks.catalogue import working_setups
from footwell.checks.outlook import outlook
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState, set_up
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.lamp import Lamp
from footwell.reference.drops import CRANKING_VOLTS_PER_100_AMPS, drop_limit_volts
from footwell.reference.supplies import QUIESCENT_AMPS, supply

from .sample_circuits import FOLDER, sample

NAMES = tuple(sorted(file.stem for file in FOLDER.glob("*.json")))
FED = ("lamp", "motor", "reversing_motor", "heater", "horn", "led_lamp")
"""Loads that work by the supply's whole voltage where nothing is meant to take some of it."""
SUPPLY_5 = (4.75, 5.25)
SIGNAL = (0.2, 4.8)
"""What a sound sensor leaves of 5 V; beyond, a unit takes it for a fault (makers' practice, memory)."""


def setups(circuit: Circuit, engine: str) -> list[SetupState]:
    return [set_up(circuit, engine=engine), *working_setups(circuit, engine)]


@cache
def points(name: str, engine: str = "on") -> tuple[OperatingPoint, ...]:
    circuit = sample(name)
    return tuple(operate(circuit, setup) for setup in setups(circuit, engine))


def across(point: OperatingPoint, load: str) -> float:
    """Voltage over the first and the last terminal of a part."""
    element = point.circuit.elements[load]
    ends = element.kind.terminals(element.values)
    return abs(point.volts[element.nodes[ends[0]]] - point.volts[element.nodes[ends[-1]]])


def post(point: OperatingPoint) -> float:
    battery = point.circuit.supply_element.id
    return point.at(f"{battery}.+") - point.at(f"{battery}.-")


def lost(points: tuple[OperatingPoint, ...], load: str) -> float:
    """What is missing of the supply at a load in the position that feeds it best (V)."""
    return min(post(point) - across(point, load) for point in points)


FED_LOADS = [
    (name, load)
    for name in NAMES
    for load in sample(name).sheet.loads
    if sample(name).elements[load].kind.name in FED
]


@pytest.mark.parametrize(("name", "load"), FED_LOADS)
def test_a_load_gets_the_supply_less_what_a_sound_circuit_may_lose(name: str, load: str) -> None:
    limit = drop_limit_volts("whole circuit, repair", sample(name).sheet.system_volts)
    assert 0.0 <= min(lost(points(name, engine), load) for engine in ("off", "on")) <= limit


def test_a_poor_joint_before_a_load_breaks_the_rule_of_the_supply() -> None:
    broken = 0
    for name, load in FED_LOADS:
        circuit = sample(name)
        limit = drop_limit_volts("whole circuit, repair", circuit.sheet.system_volts)
        poor = (Fault("W1", "high_resistance", 50.0),)
        found = tuple(operate(circuit, s, poor) for s in setups(circuit, "off"))
        broken += lost(found, load) > limit
    assert broken > len(FED_LOADS) // 3


@pytest.mark.parametrize("name", NAMES)
def test_no_sound_wire_loses_more_than_the_trade_allows_one_length(name: str) -> None:
    circuit = sample(name)
    # The limit is of 12 V; as much of 24 V is twice as much (derived).
    limit = drop_limit_volts("one length of wire", 12) * circuit.sheet.system_volts / 12
    for point in points(name):
        for wire in circuit.sheet.wires:
            assert across(point, wire.id) <= limit, wire.id


@pytest.mark.parametrize("name", NAMES)
def test_sound_wires_and_joints_waste_less_than_a_twentieth_of_what_the_battery_gives(
    name: str,
) -> None:
    # A twentieth of the voltage, and with one current of the power as well.
    circuit = sample(name)
    for point in points(name, "off"):
        given = sum(
            s.branch.law.at(point.across(s))[0] * point.across(s)
            for s in point.slots
            if "battery" in circuit.elements[s.element].kind.name
        )
        wasted = sum(
            s.branch.law.at(point.across(s))[0] * point.across(s)
            for s in point.slots
            if circuit.elements[s.element].kind.name in ("wire", "contact", "splice", "earth_point")
        )
        assert wasted <= 0.05 * abs(given) + 0.01


LAMPS = [(n, e) for n, e in FED_LOADS if isinstance(sample(n).elements[e].values, Lamp)]


@pytest.mark.parametrize(("name", "load"), LAMPS)
def test_a_lit_lamp_draws_its_watts_over_its_volts(name: str, load: str) -> None:
    values = sample(name).elements[load].values
    nominal = values.volts or sample(name).sheet.system_volts
    found = [
        (across(p, load), abs(p.amps(load)))
        for p in points(name, "off")
        if across(p, load) > 0.85 * nominal
    ]
    assert found
    for volts, amps in found:
        # A filament's current follows about the root of the voltage (memory).
        assert amps == pytest.approx(values.watts / nominal * (volts / nominal) ** 0.55, rel=0.06)


@pytest.mark.parametrize("name", NAMES)
def test_earth_points_stand_at_the_body_in_every_position(name: str) -> None:
    circuit = sample(name)
    limit = drop_limit_volts("earth, motors", circuit.sheet.system_volts)
    for point in points(name):
        for part in circuit.sheet.parts:
            if part.kind == "earth_point":
                carried = abs(point.amps(part.id))
                allowed = max(limit, CRANKING_VOLTS_PER_100_AMPS.volts * carried / 100.0)
                assert abs(point.at(f"{part.id}.1")) <= allowed, part.id


INPUTS = [
    (name, part.id)
    for name in NAMES
    for part in sample(name).sheet.parts
    if part.kind == "module_input" and sample(name).elements[part.id].values.reads == "sensor"
]


@pytest.mark.parametrize(("name", "unit"), INPUTS)
def test_a_sound_sensor_leaves_its_line_between_the_limits_wherever_the_unit_is_awake(
    name: str, unit: str
) -> None:
    awake = [p for p in points(name, "off") if p.states[unit] == "awake"]
    assert awake
    for point in awake:
        assert SIGNAL[0] < point.at(f"{unit}.in") - point.at(f"{unit}.-") < SIGNAL[1]
    asleep = [p for p in points(name, "off") if p.states[unit] != "awake"]
    assert all(abs(p.at(f"{unit}.in")) < 0.1 for p in asleep)


@pytest.mark.parametrize(("name", "unit"), INPUTS)
def test_an_open_line_or_one_on_earth_leaves_the_limits_in_some_position(
    name: str, unit: str
) -> None:
    circuit = sample(name)
    line = circuit.elements[unit].nodes["in"]
    wire = next(
        w.id for w in circuit.sheet.wires if circuit.node_of[w.start] in near(circuit, line)
    )
    for mode in ("open", "short_to_earth"):
        found = [operate(circuit, s, (Fault(wire, mode),)) for s in setups(circuit, "off")]
        volts = [p.at(f"{unit}.in") for p in found if p.states[unit] == "awake"]
        assert any(not SIGNAL[0] < v < SIGNAL[1] for v in volts), mode


def near(circuit: Circuit, node: int) -> set[int]:
    """A node and those on the other side of a plug's contact from it."""
    contacts = [e.nodes for e in circuit.elements.values() if e.kind.name == "contact"]
    pairs = [{nodes["1"], nodes["2"]} for nodes in contacts]
    return {node}.union(*(pair for pair in pairs if node in pair))


REGULATORS = [(n, p.id) for n in NAMES for p in sample(n).sheet.parts if p.kind == "regulator"]


@pytest.mark.parametrize(("name", "unit"), REGULATORS)
def test_a_sensor_supply_that_is_on_holds_five_volts(name: str, unit: str) -> None:
    found = [p.at(f"{unit}.out") for p in points(name, "off") if p.states[unit] == "on"]
    assert found
    assert all(SUPPLY_5[0] <= v <= SUPPLY_5[1] for v in found)


def rests(name: str, load: str) -> bool:
    """Whether a load rests in some position; one without a switch never does."""
    circuit = sample(name)
    shares = [abs(outlook(circuit, s, ()).activity[load]) for s in setups(circuit, "off")]
    assert max(shares) > 0.05, load
    return min(shares) < 0.5 * max(shares)


def test_nearly_every_load_works_in_some_position_and_rests_in_another() -> None:
    every = [(name, load) for name in NAMES for load in sample(name).sheet.loads]
    never = [pair for pair in every if not rests(*pair)]
    assert len(never) <= len(every) // 20


@pytest.mark.parametrize("name", NAMES)
def test_the_vehicle_can_be_left_so_that_it_hardly_draws(name: str) -> None:
    # QUIESCENT_AMPS: a passenger car after its modules sleep.
    circuit = sample(name)
    drawn = [-p.amps(circuit.supply_element.id) for p in points(name, "off")]
    assert max(drawn) > QUIESCENT_AMPS.value
    if all(rests(name, load) for load in circuit.sheet.loads):
        assert min(drawn) <= QUIESCENT_AMPS.value


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("engine", ["off", "on"])
def test_the_battery_stands_at_its_usual_voltage_less_what_it_gives(name: str, engine: str) -> None:
    usual = supply(sample(name).sheet.system_volts)
    rest, ohms = (
        (usual.engine_off.mean, usual.off_ohms.mean)
        if engine == "off"
        else (usual.engine_running.mean, usual.running_ohms.mean)
    )
    for point in points(name, engine):
        given = max(0.0, -point.amps(point.circuit.supply_element.id))
        assert post(point) == pytest.approx(rest - given * ohms, abs=0.25)


def test_the_written_table_is_that_of_the_sheets() -> None:
    text = (FOLDER / "HEALTHY.md").read_text("utf-8")
    for name in NAMES:
        assert f"({name})" in text
