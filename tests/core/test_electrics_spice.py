"""The netlist as text; that a simulator agrees with it is tested in tests/parity."""

from __future__ import annotations

import re

from hypothesis import given

from footwell.circuit.circuit import build
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate
from footwell.electrics.spice import netlist, node_names
from footwell.parts.battery import Battery
from footwell.parts.resistor import Resistor

from .electrics_random import CALMLY, networks, outputs_on
from .electrics_rig import EARTH, Part, circuit_of, run
from .sample_circuits import MINIBUS, NAMES, TRACTOR, sample

DEVICE = re.compile(r"^[RVB]\w+ (\w+) (\w+) ")


def devices(text: str) -> list[str]:
    return [line for line in text.splitlines() if line[:1] in "RVB"]


def test_every_node_has_a_name_of_its_own_where_capitals_do_not_count() -> None:
    for name in NAMES:
        names = node_names(sample(name))
        assert len({n.lower() for n in names}) == len(names)
        assert names[-1] == "0" and all(re.fullmatch(r"\w+", n) for n in names)


def test_points_whose_names_differ_only_in_signs_or_capitals_stay_apart() -> None:
    parts = [
        Part("G1", "battery", Battery(12.0, 0.01), {"+": "a", "-": EARTH}),
        Part("g1_plus", "resistor", Resistor(10.0), {"1": "a", "2": "b"}),
        Part("G1-PLUS", "resistor", Resistor(10.0), {"1": "b", "2": EARTH}),
    ]
    point = run(circuit_of(parts))
    lines = devices(netlist(point))
    heads = [line.split()[0].lower() for line in lines]
    assert len(set(heads)) == len(heads)
    assert len({n.lower() for n in node_names(point.circuit)}) == point.mesh.n + 1


@CALMLY
@given(networks())
def test_every_device_lies_between_known_nodes_and_every_node_leaks(parts: list[Part]) -> None:
    point = run(circuit_of(parts, outputs_on(parts)))
    text = netlist(point)
    inside = {f"{p.id}_emf" for p in parts}
    known = {*node_names(point.circuit), *inside}
    ends = [DEVICE.match(line) for line in devices(text)]
    assert all(found and set(found.groups()) <= known for found in ends)
    assert len(re.findall(r"^Rleak\d+ \w+ 0 10000000000$", text, re.MULTILINE)) == point.mesh.n
    assert text.rstrip().endswith(".end")


def test_head_tells_set_up_and_faults_on_lines_of_comment() -> None:
    circuit = sample(MINIBUS)
    setup = set_up(circuit, {"S1": "2"}, ("X3",), {"X4": 21.0}, "on")
    text = netlist(operate(circuit, setup, (Fault("W9", "high_resistance", 2.0),)))
    head = text.splitlines()[:6]
    assert head[0] == "* Saloon heater fan, Minibus, 24 V"
    assert head[1:] == [
        "* controls: S1 in 2",
        "* engine: on",
        "* unplugged or pulled out: X3, X4",
        "* lamp in place of a load or fuse: 21 W at X4",
        "* faults: W9 high_resistance 2.0",
    ]
    assert "* X3.1: apart" in text and "* S1 B-1: open" in text


def test_blown_fuse_and_pulled_relay_are_told() -> None:
    blown = netlist(run(sample(MINIBUS), {"S1": "3"}, Fault("W8", "short_to_earth")))
    assert "* fuses blown: F1" in blown and "* F1: blown" in blown and "\nRF1 " not in blown
    lit = netlist(run(sample(TRACTOR), {"A1": "on", "S2": "off"}))
    assert "* K1: pulled" in lit and "\nRK1_contact " in lit


def test_title_of_several_lines_cannot_become_a_line_of_the_netlist() -> None:
    circuit = sample(MINIBUS)
    sheet = circuit.sheet.model_copy(update={"title": "fan\n.control\nshell rm\n.endc"})
    text = netlist(run(build(sheet, circuit.values), {"S1": "1"}))
    assert all(not line.startswith((".control", "shell")) for line in text.splitlines())
