"""What keeps a load without current is named; a position that switches it off is left in peace."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import pytest

from footwell.circuit.circuit import AS_DRAWN, Arrangement, Circuit, arranged, build, bundles
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState, set_up
from footwell.electrics.breaks import name_of
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.problems import troubles
from footwell.electrics.unfed import unfed
from footwell.parts.battery import Battery
from footwell.parts.diode import Diode
from footwell.parts.lamp import Lamp
from footwell.parts.relay import Relay

from .electrics_rig import EARTH, Part, circuit_of, run
from .sample_circuits import FOLDER, MINIBUS, TRACTOR, VAN, sample

TOP = {"S1": "3"}


def sentences(point: OperatingPoint) -> list[str]:
    return [t.sentence for t in troubles(point) if t.code == "no_current"]


def only(point: OperatingPoint) -> str:
    (sentence,) = sentences(point)
    return sentence


def wired(name: str, arrangement: Arrangement) -> Circuit:
    drawn = sample(name)
    return build(drawn.sheet, drawn.values, arrangement)


def without(name: str, connector: str, way: str) -> Circuit:
    """A sheet's circuit with the wires of one way of half a left out."""
    half = (connector, "a")
    drawn = bundles(sample(name).sheet, half)
    return wired(name, arranged(AS_DRAWN, half, {w: x for w, x in drawn.items() if w != way}))


def test_a_broken_wire_on_the_feed_is_named_with_its_colour() -> None:
    assert only(run(sample(MINIBUS), TOP, Fault("W8", "open"))) == (
        "No supply reaches fan motor M1 with the fan switch in “3”: wire W8 (GN/RD) is broken."
    )


def test_the_same_broken_wire_is_no_trouble_where_the_switch_is_off() -> None:
    assert sentences(run(sample(MINIBUS), {"S1": "0"}, Fault("W8", "open"))) == []


def test_the_same_broken_wire_is_no_trouble_in_a_position_that_goes_another_way() -> None:
    assert sentences(run(sample(MINIBUS), {"S1": "1"}, Fault("W8", "open"))) == []


def test_an_empty_way_on_the_earth_side_is_named_and_both_sides_stand_at_supply() -> None:
    circuit = without(MINIBUS, "X4", "2")
    assert only(run(circuit, TOP)) == (
        "The earth side of fan motor M1 reaches no earth with the fan switch in “3”: way 2 of motor"
        " plug X4 is empty. Both its sides stand at 25.0 V."
    )
    assert sentences(run(circuit, {"S1": "0"})) == []


def test_a_way_that_one_position_needs_is_missed_in_that_position_alone() -> None:
    circuit = without(MINIBUS, "X2", "3")
    assert "way 3 of switch plug X2 is empty" in only(run(circuit, {"S1": "2"}))
    assert sentences(run(circuit, {"S1": "1"})) == sentences(run(circuit, TOP)) == []


def test_wires_in_each_others_ways_are_told_by_their_colours() -> None:
    half = ("X2", "a")
    drawn = bundles(sample(MINIBUS).sheet, half)
    circuit = wired(MINIBUS, arranged(AS_DRAWN, half, drawn | {"1": drawn["2"], "2": drawn["1"]}))
    told = only(run(circuit, TOP))
    assert told.endswith("way 1 of switch plug X2 holds GN/WH where RD/BK belongs.")
    assert sentences(run(circuit, {"S1": "0"})) == []


def test_a_fuse_that_blows_is_the_reason_behind_it() -> None:
    point = run(sample(MINIBUS), TOP, Fault("M1", "short"))
    assert only(point).endswith(": fuse F1 has blown.")
    assert [t.code for t in troubles(point)] == ["fuse_blows", "no_current"]


def test_a_plug_that_is_off_keeps_both_sides_away() -> None:
    circuit = sample(MINIBUS)
    point = operate(circuit, set_up(circuit, TOP, ("X4",)))
    assert only(point).startswith("Neither supply nor earth reaches fan motor M1")
    assert only(point).endswith("motor plug X4 is unplugged.")


def test_a_load_with_a_lamp_in_its_place_is_not_missed() -> None:
    circuit = sample(MINIBUS)
    assert sentences(operate(circuit, set_up(circuit, TOP, (), {"X4": 21.0}))) == []


def test_a_fuse_that_is_pulled_out_is_named() -> None:
    circuit = sample(MINIBUS)
    assert "fuse F1 is pulled out" in only(operate(circuit, set_up(circuit, TOP, ("F1",))))


def test_a_load_that_is_open_itself_is_told_apart_from_what_leads_to_it() -> None:
    told = only(run(sample(TRACTOR), {"A1": "on"}, Fault("L1", "open")))
    assert told.startswith("Supply and earth reach left work lamp L1")
    assert told.endswith("but it is burnt out.")


def test_a_relay_that_rests_is_explained_by_what_its_coil_lacks() -> None:
    circuit, both = sample(VAN), {"S0": "on", "S1": "on"}
    feed = only(run(circuit, both, Fault("F2", "open")))
    earth = only(run(circuit, both, Fault("E2", "open")))
    assert "relay K1 stays at rest because no supply reaches its coil: fuse F2 is blown" in feed
    assert "relay K1 stays at rest because no earth reaches its coil: earth point E2" in earth


@pytest.mark.parametrize("faults", [("F2", "open"), ("E1", "open"), ("W5", "open")])
def test_a_relay_that_should_rest_is_no_trouble_whatever_else_is_wrong(
    faults: tuple[str, str],
) -> None:
    assert sentences(run(sample(VAN), {"S0": "on", "S1": "off"}, Fault(*faults))) == []


def test_a_relay_pulled_out_is_missed_only_where_it_would_be_asked() -> None:
    circuit = sample(VAN)
    on = operate(circuit, set_up(circuit, {"S0": "on", "S1": "on"}, ("K1",)))
    off = operate(circuit, set_up(circuit, {"S0": "on"}, ("K1",)))
    assert only(on).endswith("rear screen relay K1 is pulled out.")
    assert sentences(off) == []


def test_a_relay_coil_with_too_little_voltage_is_told_with_its_volts() -> None:
    circuit = sample(VAN)
    weak = Fault("W10", "high_resistance", 200.0)
    told = only(run(circuit, {"S0": "on", "S1": "on"}, weak))
    coil = run(circuit, {"S0": "on", "S1": "on"}, weak).felt("K1").across("coil")
    assert f"does not pull in with the {coil:.1f} V that its coil gets" in told


def test_a_relay_that_rightly_rests_is_no_way_past_the_one_that_does_not_pull_in() -> None:
    circuit, slow = sample("hatchback-radiator-fan"), {"S1": "warm", "S2": "on"}
    assert "fast relay" not in only(run(circuit, slow, Fault("K1", "open:coil")))
    assert "slow relay K1" in only(run(circuit, slow, Fault("K1", "open:coil")))
    assert sentences(run(circuit, {"S1": "cold", "S2": "on"}, Fault("K1", "open:coil"))) == []


@pytest.mark.parametrize("faults", [(), (Fault("E0", "open"),), (Fault("F5", "open"),)])
def test_a_second_battery_that_nothing_charges_is_not_missed_with_the_engine_off(
    faults: tuple[Fault, ...],
) -> None:
    circuit = sample("camper-split-charge")
    off = operate(circuit, set_up(circuit), faults)
    running = operate(circuit, set_up(circuit, engine="on"), (Fault("K1", "open:coil"),))
    assert not any("second battery" in sentence for sentence in sentences(off))
    assert any("second battery" in sentence for sentence in sentences(running))


def test_one_fault_for_many_loads_is_one_sentence() -> None:
    told = only(run(sample(TRACTOR), {"A1": "on", "S2": "on"}, Fault("W2", "open")))
    assert "left work lamp L1, right work lamp L2 and hitch lamp H1" in told


def test_the_break_nearest_to_the_load_is_named_first() -> None:
    point = run(sample(MINIBUS), TOP, Fault("W2", "open"), Fault("W8", "open"))
    assert "W8" in only(point)


def test_what_is_broken_behind_the_nearest_break_is_named_too() -> None:
    assert only(run(sample(MINIBUS), TOP, Fault("W2", "open"), Fault("W8", "open"))).endswith(
        "wire W8 (GN/RD) is broken, and wire W2 (RD/BK) is broken too."
    )


def test_a_cable_is_named_behind_the_fuse_that_the_pull_winding_blows_without_it() -> None:
    circuit, start = sample("hatchback-starter"), {"S1": "start", "S2": "down"}
    told, fuse = (only(run(circuit, start, Fault(e, "open"))) for e in ("W1", "F1"))
    assert "reaches its coil: start fuse F1 has blown, and wire W1 (RD) is broken too" in told
    assert "start fuse F1 is blown" in fuse and "W1" not in fuse


def test_the_way_to_earth_of_a_starter_does_not_lead_through_windings() -> None:
    circuit, start = sample("truck-starter"), {"S1": "start", "S2": "N"}
    told = sentences(run(circuit, start, Fault("E1", "open")))
    assert any("no earth reaches its coil: earth point E1" in sentence for sentence in told)
    assert any(sentence.startswith("The earth side of starter motor M1") for sentence in told)
    assert not any("E1" in s for s in sentences(run(circuit, start, Fault("W1", "open"))))


def test_a_motor_with_a_tap_works_over_all_its_turns() -> None:
    circuit, slow = sample("van-wiper"), {"S0": "on", "S1": "1", "S2": "parked"}
    assert "wire W6 (GN/YE)" in only(run(circuit, slow, Fault("W6", "open")))
    assert sentences(run(circuit, slow, Fault("W7", "open"))) == []


def test_a_battery_without_its_earth_is_named() -> None:
    assert "battery earth E0 is open" in only(run(sample(MINIBUS), TOP, Fault("E0", "open")))


BATTERY = Part("G1", "battery", Battery(12.5, 0.005), {"+": "plus", "-": EARTH})


@pytest.mark.parametrize(("ends", "blocked"), [(("+", "-"), False), (("-", "+"), True)])
def test_a_diode_the_wrong_way_round_is_named_and_the_right_way_is_not(
    ends: tuple[str, str], blocked: bool
) -> None:
    diode = Part("V1", "diode", Diode(), dict(zip(ends, ("plus", "lit"), strict=True)))
    lamp = Part("H1", "lamp", Lamp(21.0), {"1": "lit", "2": EARTH})
    told = sentences(run(circuit_of([lamp, diode, BATTERY])))
    assert told == (["No supply reaches part H1: part V1 blocks this way."] if blocked else [])


def test_a_relay_that_feeds_its_own_coil_alone_is_left_in_peace() -> None:
    nets = {"30": "plus", "87": "held", "86": "held", "85": EARTH}
    lamp = Part("H1", "lamp", Lamp(21.0), {"1": "held", "2": EARTH})
    relay = Part("K1", "relay", Relay(85.0), nets)
    assert sentences(run(circuit_of([lamp, relay, BATTERY]))) == []


def every_open(circuit: Circuit) -> Iterator[Fault]:
    for element in circuit.elements.values():
        yield from (Fault(element.id, m) for m in element.modes if m.split(":")[0] == "open")


def every_setup(circuit: Circuit) -> Iterator[SetupState]:
    controls = circuit.sheet.controls
    for row in product(*([p.id for p in c.positions] for c in controls)):
        yield set_up(circuit, {c.part: p for c, p in zip(controls, row, strict=True)})


NOTICED_SHARE = 0.04
"""Of the most that a load takes in any position; shared earths make some hundredths flow elsewhere."""


def taken(point: OperatingPoint, load: str) -> float:
    """Most current (A) in any branch of a load; of a battery that feeds others, none."""
    own = [point.slot_amps(s) for s in point.slots if s.element == load]
    if point.circuit.elements[load].kind.seen_as == "charge":
        return max([0.0, *own])
    return max(map(abs, own), default=0.0)


EVERY_SHEET = sorted(path.stem for path in FOLDER.glob("*.json"))


def takes_power(circuit: Circuit, load: str) -> bool:
    """An input of a control unit takes none: it tells what it takes its line for instead. Nor is the
    battery fed that feeds all else: people say how it holds."""
    element = circuit.elements[load]
    return not element.kind.line and element is not circuit.supply_element


@pytest.mark.parametrize("name", EVERY_SHEET)
def test_every_open_that_takes_a_loads_current_is_named_and_no_other_is(name: str) -> None:
    circuit = sample(name)
    named = silent = 0
    sounds = [operate(circuit, setup) for setup in every_setup(circuit)]
    noticed = {
        load: NOTICED_SHARE * max(taken(point, load) for point in sounds)
        for load in circuit.sheet.loads
        if takes_power(circuit, load)
    }
    for setup in every_setup(circuit):
        sound = operate(circuit, setup)
        for fault in every_open(circuit):
            point = operate(circuit, setup, (fault,))
            rows = {row.load: row for row in unfed(point)}
            for load in noticed:
                lost = taken(sound, load) >= noticed[load] > taken(point, load)
                assert (load in rows) == lost, (setup, fault)
                if lost:
                    own = ("it is",) * (fault.element == load)
                    names = (*own, name_of(circuit, fault.element))
                    assert any(name in rows[load].reason for name in names), (setup, fault)
                named, silent = named + lost, silent + (not lost)
    assert not noticed or (named > 10 and silent > 10)
