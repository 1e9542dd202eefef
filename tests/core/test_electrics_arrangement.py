"""Circuits of connectors that are wired otherwise than drawn."""

from __future__ import annotations

from collections.abc import Mapping

from footwell.circuit.circuit import AS_DRAWN, Circuit, HalfId, arranged, build, bundles
from footwell.parts.battery import Battery
from footwell.parts.lamp import Lamp
from footwell.parts.resistor import Resistor
from footwell.sheet.models import Sheet

from .electrics_rig import run
from .sample_circuits import MINIBUS, TRACTOR, VAN, sample

X2A, X1A = ("X2", "a"), ("X1", "a")


def rewired(drawn: Circuit, *found: tuple[HalfId, Mapping[str, str | None]]) -> Circuit:
    arrangement = AS_DRAWN
    for half, ways in found:
        arrangement = arranged(arrangement, half, ways)
    return build(drawn.sheet, drawn.values, arrangement)


def test_wires_found_as_drawn_make_the_circuit_as_drawn() -> None:
    for name in (MINIBUS, TRACTOR, VAN):
        drawn = sample(name)
        for connector in drawn.sheet.connectors:
            for side in ("a", "b"):
                half = (connector.id, side)
                same = rewired(drawn, (half, bundles(drawn.sheet, half)))
                assert dict(same.wires_in) == dict(drawn.wires_in)
                volts = {p: round(run(drawn).at(p), 9) for p in drawn.points}
                assert {p: round(run(same).at(p), 9) for p in drawn.points} == volts


def test_wire_left_out_at_one_plug_and_moved_at_the_next_hangs_at_its_seat_alone() -> None:
    drawn = sample(MINIBUS)
    left_out = {"1": "W2", "2": None, "3": "W4", "4": "W5"}
    moved = {"1": "W4", "2": "W3", "3": "W5"}
    circuit = rewired(drawn, (X2A, left_out), (X1A, moved))
    ends = circuit.elements["W3"].nodes
    assert ends["2"] == circuit.node_of["X1.2.a"] and ends["1"] != ends["2"]
    assert abs(run(circuit, {"S1": "1"}).amps("M1")) < 1e-6


def test_wire_left_out_at_both_its_ends_joins_nothing() -> None:
    drawn = sample(MINIBUS)
    circuit = rewired(
        drawn,
        (X2A, {"1": "W2", "3": "W4", "4": "W5"}),
        (X1A, {"2": "W4", "3": "W5"}),
    )
    ends = circuit.elements["W3"].nodes
    others = {n for e in circuit.elements.values() if e.id != "W3" for n in e.nodes.values()}
    assert ends["1"] != ends["2"] and not {ends["1"], ends["2"]} & others


def bridged_plug() -> Circuit:
    """A plug whose ways 1 and 3 a short wire joins; the lamp is fed through it."""
    sheet = {
        "format": 1,
        "id": "bridge",
        "title": "bridge",
        "vehicle": "test",
        "system_volts": 12,
        "summary": "test",
        "working_amps": 2.0,
        "loads": ["L1"],
        "controls": [],
        "parts": [
            {"id": "G1", "kind": "battery", "name": "battery"},
            {"id": "L1", "kind": "lamp", "name": "lamp"},
            {"id": "R1", "kind": "resistor", "name": "resistor"},
        ],
        "connectors": [
            {
                "id": "X1",
                "name": "plug",
                "half_a": "wires",
                "half_b": "parts",
                "rows": [["1", "2", "3"]],
                "part_ways": {"1": "G1.+", "2": "R1.1", "3": "L1.1"},
            }
        ],
        "wires": [
            {"id": "W1", "start": "X1.1.a", "end": "X1.3.a", "mm2": 1.0, "metres": 0.1},
            {"id": "W2", "start": "G1.-", "end": "earth", "mm2": 10.0, "metres": 0.1},
            {"id": "W3", "start": "L1.2", "end": "earth", "mm2": 1.0, "metres": 0.1},
            {"id": "W4", "start": "R1.2", "end": "earth", "mm2": 1.0, "metres": 0.1},
        ],
    }
    values = {"G1": Battery(12.5), "L1": Lamp(21.0, 12.0), "R1": Resistor(100.0)}
    return build(Sheet.model_validate(sheet), values)


def test_bridge_within_one_plug_keeps_both_ends_when_found_elsewhere() -> None:
    drawn = bridged_plug()
    assert run(drawn).amps("L1") > 1.7
    moved = rewired(drawn, (X1A, {"1": "W1", "2": "W1"}))
    assert abs(run(moved).amps("L1")) < 1e-6 and run(moved).amps("R1") > 0.12
    same = rewired(drawn, (X1A, {"3": "W1", "1": "W1"}))
    assert run(same).amps("L1") > 1.7
