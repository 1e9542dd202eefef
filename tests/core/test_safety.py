"""What must not be done is never proposed, and refused with a sentence where somebody asks for it.

The rules are the trade's (common practice, no source).
"""

from __future__ import annotations

from typing import Any

import pytest

from footwell.checks.catalogue import catalogue
from footwell.checks.check import (
    CLAMP,
    FEED,
    FUSE_LAMP,
    LAMP,
    LOOK,
    OHMS,
    SUBSTITUTE,
    VOLTS,
    Check,
)
from footwell.checks.hands import Tools
from footwell.checks.safety import PROTECTED, TEXTS, cautions, hazards_at, refusal
from footwell.circuit.circuit import Circuit, build
from footwell.circuit.setup import set_up
from footwell.sheet.reading import read_data

from .job_rig import Job, compact, sheet
from .sample_circuits import MINIBUS, NAMES, TRACTOR, VAN, sample

EVERYTHING = Tools(("clamp", "fused jumper", "meter", "substitute lamp", "test lamp"), helper=True)
OWN_LOAD_OR_SUPPLY = (LAMP, SUBSTITUTE, FEED, FUSE_LAMP)
DRAWN_BY = {
    LAMP: {"red": "X4.1.a", "controls": {"S1": "3"}},
    SUBSTITUTE: {"red": "X4", "controls": {"S1": "3"}, "apart": ["X4"], "stand_in": {"X4": "21 W"}},
    FEED: {"red": "M1"},
    FUSE_LAMP: {"red": "F1", "controls": {"S1": "3"}, "apart": ["F1"]},
}
"""A check on the minibus with each instrument that brings a load or a supply of its own."""


def with_hazard(hazard: str, *owners: str, name: str = MINIBUS) -> dict[str, Any]:
    """A sample sheet whose parts or connectors bear one more hazard."""
    data = sheet(name)
    for item in [*data["parts"], *data["connectors"]]:
        if item["id"] in owners:
            item["hazards"] = [*item.get("hazards", []), hazard]
    return data


def circuit_of(data: dict[str, Any]) -> Circuit:
    read = read_data(data)
    return build(read.sheet, read.values)


def job_on(data: dict[str, Any]) -> Job:
    """A job on a sheet of our own making."""
    job = Job()
    job.events[0]["body"] = compact({"title": data["title"], "sheet": data})
    return job.tools("meter", "clamp", "test lamp", "substitute lamp", "fused jumper")


def asked(data: dict[str, Any], instrument: str, **check: Any) -> str:
    """The sentence with which a check is refused; "" where it is allowed."""
    answer = job_on(data).answer("check_at", instrument=instrument, **check)
    return str(answer["error"]["sentence"]) if "error" in answer else ""


@pytest.mark.parametrize("name", NAMES)
def test_no_check_that_is_proposed_would_be_refused(name: str) -> None:
    circuit = sample(name)
    assert [c.id for c in catalogue(circuit, EVERYTHING) if refusal(circuit, c)] == []


@pytest.mark.parametrize("name", NAMES)
def test_ohms_are_proposed_only_with_the_part_out_of_the_circuit(name: str) -> None:
    checks = [c for c in catalogue(sample(name), EVERYTHING) if c.instrument == OHMS]
    assert checks and all(c.setup.apart for c in checks)


@pytest.mark.parametrize("name", NAMES)
def test_only_loads_are_fed_directly(name: str) -> None:
    circuit = sample(name)
    fed = {c.red for c in catalogue(circuit, EVERYTHING) if c.instrument == FEED}
    assert fed and fed <= set(circuit.sheet.loads)


def test_ohms_without_unplugging_are_refused() -> None:
    sentence = asked(sheet(MINIBUS), OHMS, red="X4.1.b", black="X4.2.b")
    assert "out of the circuit" in sentence and sentence.endswith(".")


def test_ohms_with_the_plug_off_are_allowed() -> None:
    assert asked(sheet(MINIBUS), OHMS, red="X4.1.b", black="X4.2.b", apart=["X4"]) == ""


def test_ohms_with_another_plug_off_are_refused() -> None:
    assert "X4" in asked(sheet(MINIBUS), OHMS, red="X4.1.b", black="X4.2.b", apart=["X2"])


@pytest.mark.parametrize("instrument", [VOLTS, LAMP, OHMS])
def test_restraint_system_is_not_probed_at_all(instrument: str) -> None:
    data = with_hazard("restraint system", "X4")
    checks = catalogue(circuit_of(data), EVERYTHING)
    assert not any("X4" in {c.red.split(".")[0], c.black.split(".")[0]} for c in checks)
    sentence = asked(data, instrument, red="X4.1.a", black="X4.2.a", apart=["X4"])
    assert "restraint system" in sentence and "do not probe" in sentence


def test_plug_of_a_restraint_system_is_never_pulled() -> None:
    checks = catalogue(circuit_of(with_hazard("restraint system", "X4")), EVERYTHING)
    assert checks and not any("X4" in c.setup.apart for c in checks)


@pytest.mark.parametrize("instrument", OWN_LOAD_OR_SUPPLY)
def test_nothing_of_ones_own_on_a_circuit_with_a_restraint_system(instrument: str) -> None:
    data = with_hazard("restraint system", "R1")
    assert not any(c.instrument == instrument for c in catalogue(circuit_of(data), EVERYTHING))
    assert "restraint system" in asked(data, instrument, **DRAWN_BY[instrument])


@pytest.mark.parametrize("instrument", [VOLTS, CLAMP, LOOK, *OWN_LOAD_OR_SUPPLY])
def test_high_voltage_stops_every_check(instrument: str) -> None:
    data = with_hazard("high voltage", "G1")
    assert catalogue(circuit_of(data), EVERYTHING) == []
    plain = {VOLTS: {"red": "X4.1.a"}, CLAMP: {"red": "W10"}, LOOK: {"red": "F1"}} | DRAWN_BY
    sentence = asked(data, instrument, **plain[instrument])
    assert sentence.startswith("High voltage") and "stop" in sentence


@pytest.mark.parametrize("instrument", OWN_LOAD_OR_SUPPLY)
def test_fuel_vapour_forbids_lamps_and_leads_that_spark(instrument: str) -> None:
    data = with_hazard("fuel vapour", "M1")
    assert not any(c.instrument == instrument for c in catalogue(circuit_of(data), EVERYTHING))
    assert "Fuel vapour" in asked(data, instrument, **DRAWN_BY[instrument])


def test_fuel_vapour_leaves_the_meter() -> None:
    data = with_hazard("fuel vapour", "M1")
    assert any(c.instrument == VOLTS for c in catalogue(circuit_of(data), EVERYTHING))
    assert asked(data, VOLTS, red="X4.1.a", controls={"S1": "3"}) == ""


@pytest.mark.parametrize("hazard", PROTECTED)
def test_lines_of_electronics_bear_no_lamp_no_jumper_and_no_ohms(hazard: str) -> None:
    data = with_hazard(hazard, "X4")
    circuit = circuit_of(data)
    at_line = [c for c in catalogue(circuit, EVERYTHING) if "X4" in {c.red.split(".")[0], c.red}]
    assert at_line and {c.instrument for c in at_line} <= {VOLTS, LOOK}
    for instrument, check in ((LAMP, DRAWN_BY[LAMP]), (SUBSTITUTE, DRAWN_BY[SUBSTITUTE])):
        assert "sensor, data or control unit line" in asked(data, instrument, **check)
    ohms = asked(data, OHMS, red="X4.1.b", black="X4.2.b", apart=["X4"])
    assert ohms.startswith("No ohms on a sensor, data or control unit line")


def test_no_test_lamp_where_an_output_feeds() -> None:
    for place in ("F2.1", "F2.2", "X5.86.a"):
        assert "electronic output" in asked(sheet(TRACTOR), LAMP, red=place, controls={"A1": "on"})
    lamps = [c.red for c in catalogue(sample(TRACTOR), EVERYTHING) if c.instrument == LAMP]
    assert lamps and not {"F2.1", "F2.2", "X5.86.a", "X1.3.a", "X1.1.a"} & set(lamps)


def test_no_lamp_in_place_of_a_fuse_that_feeds_electronics() -> None:
    for fuse in ("F2", "F3"):
        sentence = asked(sheet(TRACTOR), FUSE_LAMP, red=fuse, controls={"A1": "on"}, apart=[fuse])
        assert "feeds electronics" in sentence
    allowed = {c.red for c in catalogue(sample(TRACTOR), EVERYTHING) if c.instrument == FUSE_LAMP}
    assert allowed == {"F1"}


def test_relay_coil_is_not_fed_directly() -> None:
    assert "load" in asked(sheet(VAN), FEED, red="K1")


def test_every_refusal_is_one_plain_sentence_or_two() -> None:
    circuit = circuit_of(with_hazard("restraint system", "X4"))
    setup = catalogue(circuit, EVERYTHING)[0].setup
    sentence = refusal(circuit, Check(VOLTS, "X4.1.a", "earth", setup))
    assert sentence[0].isupper() and sentence.endswith(".") and len(sentence) < 120


@pytest.mark.parametrize("name", NAMES)
def test_every_hazard_of_a_place_has_its_caution_before_the_step(name: str) -> None:
    circuit = sample(name)
    for check in catalogue(circuit, EVERYTHING):
        told = {c.hazard for c in cautions(circuit, check)}
        assert hazards_at(circuit, check) & TEXTS.keys() <= told
        if check.instrument == FEED:
            assert "fused lead" in told
        if check.instrument == OHMS:
            assert "live circuit" in told
        lamped = check.instrument in (SUBSTITUTE, FUSE_LAMP) or bool(check.setup.stand_in)
        assert ("hot lamp" in told) == lamped


def test_fan_that_may_start_is_cautioned_before_it_is_switched_on_or_fed() -> None:
    circuit = sample(MINIBUS)
    near = [
        c
        for c in catalogue(circuit, EVERYTHING)
        if c.instrument == FEED or (c.red.startswith("X4") and dict(c.setup.controls)["S1"] != "0")
    ]
    assert near
    for check in near:
        assert "moving fan" in {c.hazard for c in cautions(circuit, check)}, check.id


@pytest.mark.parametrize(("wire", "near"), [("W8", True), ("W3", False)])
def test_hands_at_a_clamp_beside_the_fan_are_cautioned_and_at_one_far_from_it_not(
    wire: str, near: bool
) -> None:
    """W8 ends in the fan's plug, W3 in the loom's."""
    circuit = sample(MINIBUS)
    clamp = Check(CLAMP, wire, "", set_up(circuit, {"S1": "3"}))
    assert ("moving fan" in {c.hazard for c in cautions(circuit, clamp)}) == near


@pytest.mark.parametrize("name", NAMES)
def test_cautions_come_gravest_first(name: str) -> None:
    levels = ["DANGER", "WARNING", "CAUTION", "NOTICE"]
    circuit = sample(name)
    for check in catalogue(circuit, EVERYTHING):
        ranks = [levels.index(c.level) for c in cautions(circuit, check)]
        assert ranks == sorted(ranks)
