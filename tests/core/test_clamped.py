"""A clamp around a wire: at which end it is put, which way its arrow points, and how a short's current is
followed with a lamp in place of the blown fuse (common practice, no source)."""

from __future__ import annotations

import pytest

from footwell.checks.catalogue import catalogue
from footwell.checks.check import CLAMP, FUSE_LAMP, SUBSTITUTE, VOLTS, Check
from footwell.checks.glance import Panel
from footwell.checks.hands import Tools
from footwell.checks.predict import Reading, expected, readings
from footwell.checks.safety import refusal
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import set_up
from footwell.diagnosis.choose import confirms
from footwell.electrics.turns import NOTHING
from footwell.job.replay import replay
from footwell.page.do_words import what_to_do
from footwell.practice.electrician import begin, work

from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from .sample_circuits import FOLDER, sample

MARKERS, STARTER, HEADLAMPS = "truck-side-markers", "hatchback-starter", "hatchback-headlamps"
PUMP, PULSED_FAN, LIGHTS = "estate-fuel-pump", "suv-cabin-fan", "tractor-work-lamps"
ALL_SHEETS = sorted(path.stem for path in FOLDER.glob("*.json"))

NOTHING_FLOWS, LAMP_LIT = 0.1, 0.5
"""A: far below the clamp's own limit of 0.2 A, and far above it."""


def short(wire: str) -> Fault:
    return Fault(wire, "short_to_earth")


def clamped(circuit: Circuit, tools: tuple[str, ...] = ALL_TOOLS) -> list[Check]:
    return [c for c in catalogue(circuit, Tools(tools)) if c.instrument == CLAMP]


def followed(circuit: Circuit) -> dict[str, Check]:
    """The first check of each wire with a lamp in place of a fuse."""
    return {c.red: c for c in reversed(clamped(circuit)) if c.setup.stand_in}


def amps(circuit: Circuit, check: Check, *faults: Fault) -> float:
    found = expected(circuit, check, faults)
    assert isinstance(found, Reading)
    return found.mean


def carrying(circuit: Circuit, fault: Fault) -> set[str]:
    """Wires in which a short's current is found."""
    return {w for w, c in followed(circuit).items() if amps(circuit, c, fault) > LAMP_LIT}


@pytest.mark.parametrize(
    ("wire", "on_its_way"),
    [
        ("W3", {"W2", "W3"}),
        ("W5", {"W2", "W3", "W4", "W5"}),
        ("W7", {"W2", "W3", "W4", "W6", "W7"}),
    ],
)
def test_the_current_of_a_short_is_found_as_far_as_the_chafed_wire_and_in_none_beyond(
    wire: str, on_its_way: set[str]
) -> None:
    circuit = sample(MARKERS)
    assert carrying(circuit, short(wire)) == on_its_way
    beyond = followed(circuit).keys() - on_its_way
    assert beyond
    for other in beyond:
        assert abs(amps(circuit, followed(circuit)[other], short(wire))) < NOTHING_FLOWS


@pytest.mark.parametrize("sheet", [MARKERS, HEADLAMPS, LIGHTS])
def test_every_wire_that_is_followed_shows_its_own_short(sheet: str) -> None:
    circuit = sample(sheet)
    assert followed(circuit)
    for wire, check in followed(circuit).items():
        assert amps(circuit, check, short(wire)) > LAMP_LIT, wire


@pytest.mark.parametrize("sheet", ALL_SHEETS)
def test_the_arrow_points_the_way_that_current_flows_when_all_is_well_or_away_from_the_lamp(
    sheet: str,
) -> None:
    circuit = sample(sheet)
    for check in clamped(circuit):
        every = readings(expected(circuit, check, ()))
        against = -NOTHING_FLOWS if check.setup.stand_in else -1e-3
        assert every and all(reading.mean > against for _, reading in every), check.id


def test_an_earth_wire_that_lies_on_earth_shows_it_at_the_end_where_less_comes_out() -> None:
    circuit = sample(STARTER)
    on = set_up(circuit, {"S1": "start", "S2": "down"})
    earth_wire, feed = (Check(CLAMP, wire, "", on) for wire in ("W4", "W6"))
    assert amps(circuit, earth_wire, short("W4")) < 0.5 * amps(circuit, earth_wire)
    assert amps(circuit, feed, short("W4")) > 0.9 * amps(circuit, feed)


@pytest.mark.parametrize("sheet", [MARKERS, STARTER])
def test_a_quick_look_and_the_exact_prediction_find_the_same_current(sheet: str) -> None:
    circuit = sample(sheet)
    faults = [short(w.id) for w in circuit.sheet.wires][:6]
    panel = Panel(circuit, [(circuit, (f,), NOTHING) for f in faults], supply_known=True)
    for check in clamped(circuit):
        for fault, rows in zip(faults, panel.numbers(check), strict=True):
            exact = expected(circuit, check, (fault,))
            if isinstance(exact, Reading) and len(rows) == 1:
                assert rows[0][1] == pytest.approx(exact.mean, abs=1e-6), (check.id, fault)


def test_it_takes_a_clamp_and_a_lamp() -> None:
    circuit = sample(MARKERS)
    assert followed(circuit)
    for without in ("clamp", "substitute lamp"):
        tools = tuple(tool for tool in ALL_TOOLS if tool != without)
        assert not [c for c in clamped(circuit, tools) if c.setup.stand_in]


def test_somebody_without_a_lamp_is_asked_for_none_across_a_plug() -> None:
    def lamps(tools: tuple[str, ...]) -> set[str]:
        rows = catalogue(sample(MARKERS), Tools(tools))
        return {c.instrument for c in rows if c.setup.stand_in}

    assert lamps(("meter",)) == set()
    assert lamps(("meter", "substitute lamp")) == {VOLTS, SUBSTITUTE}


def test_no_lamp_lies_in_where_fuel_vapour_may_be() -> None:
    for sheet, some in ((PUMP, False), (MARKERS, True)):
        rows = catalogue(sample(sheet), Tools(ALL_TOOLS))
        assert any(c.setup.stand_in for c in rows) == some
    circuit = sample(PUMP)
    across = Check(VOLTS, "X3.1.a", "X3.2.a", set_up(circuit, stand_in={"X3": 21.0}))
    assert "Fuel vapour" in refusal(circuit, across)
    assert refusal(circuit, Check(VOLTS, "X3.1.a", "X3.2.a", set_up(circuit))) == ""


def test_an_output_is_given_a_lamp_only_where_its_own_load_is_one() -> None:
    fan = sample(PULSED_FAN)
    lamped = Check(SUBSTITUTE, "X1", "", set_up(fan, stand_in={"X1": 21.0}))
    assert "own kind of load" in refusal(fan, lamped)
    sheet = sample("minibus-saloon-fan")
    by_switch = Check(SUBSTITUTE, "X4", "", set_up(sheet, stand_in={"X4": 21.0}))
    assert refusal(sheet, by_switch) == ""


def test_no_lamp_lies_in_place_of_a_fuse_that_feeds_electronics_for_a_clamp_either() -> None:
    circuit = sample(LIGHTS)
    for fuse, refused in (("F2", True), ("F1", False)):
        setup = set_up(circuit, {"A1": "on"}, stand_in={fuse: 21.0})
        assert bool(refusal(circuit, Check(CLAMP, "W9", "", setup))) == refused
        assert bool(refusal(circuit, Check(FUSE_LAMP, fuse, "", setup))) == refused


def test_what_a_lamp_lets_through_proves_no_load_bad() -> None:
    circuit = sample("minibus-saloon-fan")
    tight = Fault("M1", "seized")
    plain = [c for c in clamped(circuit) if not c.setup.stand_in]
    assert any(confirms(circuit, c, tight) for c in plain)
    assert not any(confirms(circuit, c, tight) for c in followed(circuit).values())


@pytest.mark.parametrize("wire", ["W5", "W7", "W8"])
def test_a_short_behind_a_splice_is_mended_and_no_sound_wire_beside_it(wire: str) -> None:
    vehicle = vehicle_of(Trial(MARKERS, (short(wire),)))
    run = begin(read(MARKERS).sheet, vehicle, ALL_TOOLS)
    work(run, vehicle)
    assert run.replaced == [wire, "F1"] and run.solved
    last = [step for step in run.steps if "clamp" in step and f"{wire} " in step]
    assert last  # the chafed wire itself was read


@pytest.mark.parametrize(
    ("sheet", "lamp"), [(MARKERS, "a 24 V 21 W lamp"), (STARTER, "a 21 W lamp")]
)
def test_the_lamp_is_told_by_its_volts_where_the_usual_one_would_burn_out(
    sheet: str, lamp: str
) -> None:
    case = replay(begin(read(sheet).sheet, vehicle_of(Trial(sheet, ())), ALL_TOOLS).events).case
    (first, *_) = followed(case.now).values()
    in_seat = Check(FUSE_LAMP, "F1", "", set_up(case.now, apart=("F1",)))
    for check in (first, in_seat):
        assert lamp in what_to_do(case, check)


@pytest.mark.parametrize(("lamp", "words"), [({}, "close to X5"), ({"F1": 21.0}, "close to F1")])
def test_it_is_said_where_the_clamp_goes_and_which_way_its_arrow_points(
    lamp: dict[str, float], words: str
) -> None:
    run = begin(read(MARKERS).sheet, vehicle_of(Trial(MARKERS, (short("W2"),))), ALL_TOOLS)
    case = replay(run.events).case
    step = what_to_do(case, Check(CLAMP, "W2", "", set_up(case.now, {"S1": "on"}, stand_in=lamp)))
    assert words in step
    assert ("in its place. Switch on." in step, "away from it" in step) == (bool(lamp), bool(lamp))
