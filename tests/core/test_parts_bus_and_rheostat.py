"""The bus at rest, its termination, and a sliding resistor before its load."""

from __future__ import annotations

import pytest

from footwell.checks.catalogue import catalogue
from footwell.checks.check import LAMP, OHMS, VOLTS, Check
from footwell.checks.hands import Tools
from footwell.checks.safety import refusal
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.laying import Clip
from footwell.electrics.operating_point import operate
from footwell.parts.bus_termination import BusTermination
from footwell.parts.bus_unit import BusUnit
from footwell.parts.lamp import Lamp
from footwell.parts.laws import Source
from footwell.parts.rheostat import Rheostat
from footwell.reference import sensors
from footwell.reference.lamps import light_share

from .electrics_rig import EARTH, Part, circuit_of, run
from .sensor_rig import BATTERY, plugged_sheet
from .sensor_sheets import BUS, BUS_WIRES


def bus(*ends: Part, fed: bool = True) -> Circuit:
    """Units on one pair of lines, with supply or without."""
    plus = "30" if fed else "cut"
    units = [
        Part(
            e.id,
            e.kind,
            e.values,
            {"H": "H", "L": "L"} | ({"+": plus, "-": EARTH} if e.nets else {}),
        )
        for e in ends
    ]
    return circuit_of([BATTERY, *units])


def unit(name: str, terminated: bool) -> Part:
    return Part(name, "bus_unit", BusUnit(terminated), {"+": "", "-": ""})


def resistor(name: str) -> Part:
    return Part(name, "bus_termination", BusTermination(), {})


def ohms_between_lines(circuit: Circuit, *faults: Fault) -> float:
    """As an ohmmeter on the two lines reads it with the supply off."""
    first = next(e for e in circuit.elements.values() if "H" in e.nodes)
    a, b = first.nodes["H"], first.nodes["L"]
    point = operate(circuit, set_up(circuit), faults, (Clip(a, b, Source(1.0, 1000.0)),))
    volts = point.volts[a] - point.volts[b]
    return 1000.0 * volts / (1.0 - volts)


ENDS = (unit("A1", True), unit("A2", False), resistor("R2"))


# ISO 11898-2: 120 ohm at each end, 60 ohm between the lines with the supply off (seen).
@pytest.mark.parametrize(
    ("ends", "faults", "ohms"),
    [
        (ENDS, (), 60.0),
        (ENDS, (Fault("A1", "open:termination"),), 120.0),
        (ENDS, (Fault("R2", "open"),), 120.0),
        ((*ENDS, resistor("R3")), (), 40.0),
        (ENDS, (Fault("A2", "across"),), 0.1),
        (ENDS, (Fault("R2", "short"),), 0.0),
    ],
)
def test_ohms_between_the_lines_with_the_supply_off(
    ends: tuple[Part, ...], faults: tuple[Fault, ...], ohms: float
) -> None:
    assert ohms_between_lines(bus(*ends, fed=False), *faults) == pytest.approx(
        ohms, rel=0.01, abs=0.05
    )


def lines(*faults: Fault, fed: bool = True) -> tuple[float, float]:
    point = run(bus(*ENDS, fed=fed), None, *faults)
    return point.at("A1.H"), point.at("A1.L")


def test_both_lines_rest_at_two_and_a_half_volts_with_supply_and_at_nought_without() -> None:
    low, high = sensors.BUS_RECESSIVE_LIMITS
    for volts in lines():
        assert low <= volts <= high and volts == pytest.approx(2.5, abs=0.01)
    assert lines(fed=False) == pytest.approx((0.0, 0.0), abs=1e-6)


TALKING = (Part("A1", "bus_unit", BusUnit(True, True), {"+": "", "-": ""}), *ENDS[1:])


# What is heard over how many terminations: common practice, no source.
@pytest.mark.parametrize(
    ("faults", "heard"),
    [
        ((), 1.0),
        ((Fault("R2", "open"),), 0.5),
        ((Fault("R2", "open"), Fault("A1", "open:termination")), 0.0),
        ((Fault("R2", "short"),), 0.0),
        ((Fault("A1", "earthed:H"),), 0.0),
    ],
)
def test_units_hear_each_other_well_over_two_terminations_alone(
    faults: tuple[Fault, ...], heard: float
) -> None:
    point = run(bus(*TALKING), None, *faults)
    unit = point.circuit.elements["A2"]
    assert unit.kind.shows is not None
    assert unit.kind.shows(unit.values, point.felt("A2"), point.circuit.context) == heard
    quiet = run(bus(*ENDS), None)
    assert unit.kind.shows(unit.values, quiet.felt("A2"), point.circuit.context) == 0.0


@pytest.mark.parametrize("mode", ["earthed:H", "earthed:L"])
def test_one_line_on_earth_pulls_both_down_through_the_terminations(mode: str) -> None:
    high, low = lines(Fault("A2", mode))
    assert max(high, low) < 0.02
    assert min(lines()) > 2.4


def test_a_unit_without_supply_leaves_the_bus_to_the_others() -> None:
    units = [
        Part("A1", "bus_unit", BusUnit(True), {"H": "H", "L": "L", "+": "cut", "-": EARTH}),
        Part("A2", "bus_unit", BusUnit(True), {"H": "H", "L": "L", "+": "30", "-": EARTH}),
    ]
    point = run(circuit_of([BATTERY, *units]))
    assert (point.states["A1"], point.states["A2"]) == ("without supply", "awake")
    assert point.at("A1.H") == pytest.approx(1.25, abs=0.01)


def test_no_lamp_and_no_ohms_on_a_bus_but_volts() -> None:
    circuit = plugged_sheet(BUS, BUS_WIRES)
    for place in ("XA1.1.a", "XA1.2.a", "XR1.1.a", "XR1.2.a"):
        for instrument in (LAMP, OHMS):
            assert "data" in refusal(circuit, Check(instrument, place, "earth", set_up(circuit)))
        assert refusal(circuit, Check(VOLTS, place, "earth", set_up(circuit))) == ""
    for place in ("XE1.1.a", "XR2.1.a", "F1.2", "XA1.3.a"):
        assert refusal(circuit, Check(LAMP, place, "earth", set_up(circuit))) == ""


DIMMER = {"off": None, "dim": 20.0, "bright": 0.2}


def dash(position: str, *faults: Fault) -> tuple[float, float]:
    """Voltage at the dash lamps, and their light as a share of nominal."""
    parts = [
        BATTERY,
        Part("R1", "rheostat", Rheostat(DIMMER), {"1": "30", "2": "58d"}),
        Part("E1", "lamp", Lamp(5.0), {"1": "58d", "2": EARTH}),
    ]
    circuit = circuit_of(parts, {"R1": list(DIMMER)})
    volts = run(circuit, {"R1": position}, *faults).at("E1.1")
    return volts, light_share(volts, 13.5)


def test_a_dimmer_leaves_its_lamps_dark_dim_or_bright() -> None:
    (off, dark), (low, dim), (high, bright) = (dash(position) for position in DIMMER)
    assert off == pytest.approx(0.0, abs=1e-3) and 6.0 < low < 10.0 and high > 12.4
    assert dark < 0.001 < dim < 0.5 < bright


def test_a_poor_slider_dims_in_every_position_and_an_open_one_darkens_all() -> None:
    poor = Fault("R1", "high_resistance", 20.0)
    assert dash("bright", poor)[1] < 0.5 * dash("bright")[1]
    assert dash("dim", poor)[0] < dash("dim")[0]
    assert dash("bright", Fault("R1", "open"))[0] == pytest.approx(0.0, abs=1e-3)
    assert dash("dim", Fault("R1", "short"))[1] > 0.7


def test_a_slider_is_measured_by_itself_in_every_position_that_joins_its_ends() -> None:
    parts = [
        {"id": "G1", "kind": "battery", "values": {}, "probe": ["+", "-"]},
        {"id": "E9", "kind": "earth_point", "values": {}, "probe": ["1"]},
        {
            "id": "R1",
            "kind": "rheostat",
            "values": {"ohms_at": DIMMER},
            "plug": ["1", "2"],
            "positions": list(DIMMER),
        },
        {"id": "E1", "kind": "lamp", "values": {"watts": 5}, "plug": ["1", "2"]},
    ]
    wires = [("G1.+", "XR1.1.a"), ("XR1.2.a", "XE1.1.a"), ("XE1.2.a", "E9.1"), ("G1.-", "E9.1")]
    checks = catalogue(plugged_sheet(parts, wires), Tools())
    measured = {
        dict(c.setup.controls)["R1"] for c in checks if c.instrument == OHMS and c.red == "XR1.1.b"
    }
    assert measured >= {"dim", "bright"}
