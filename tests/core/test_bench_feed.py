"""A relay by itself: out of its socket it tells whether it or its socket is to blame (common practice, no
source)."""

from __future__ import annotations

import pytest

from footwell.checks.bench import ALWAYS, BENCH_WORDS, NEVER, POORLY, WELL
from footwell.checks.catalogue import catalogue
from footwell.checks.check import BENCH, Check
from footwell.checks.hands import Tools
from footwell.checks.predict import expected
from footwell.checks.safety import cautions, refusal
from footwell.circuit.circuit import AS_DRAWN
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import believe, by_repair
from footwell.diagnosis.choose import confirms
from footwell.job.replay import circuits_of, replay
from footwell.page.check_view import check_view
from footwell.practice.electrician import begin, take
from footwell.sheet.reading import read_data

from .loop_rig import ALL_TOOLS, Trial, read, vehicle_of
from .sample_circuits import sample

FAN, LAMPS, PUMP = "hatchback-radiator-fan", "tractor-work-lamps", "estate-fuel-pump"


def bench(sheet: str, relay: str = "K1") -> Check:
    rows = catalogue(sample(sheet), Tools(ALL_TOOLS), "off")
    return next(c for c in rows if (c.instrument, c.red) == (BENCH, relay))


@pytest.mark.parametrize(
    ("faults", "word"),
    [
        ((), WELL),
        ((Fault("K1", "open:coil"),), NEVER),
        ((Fault("K1", "stuck_open"),), NEVER),
        ((Fault("K1", "stuck_closed"),), ALWAYS),
        ((Fault("K1", "high_resistance:contact", 20.0),), POORLY),
        ((Fault("K1", "high_resistance:contact", 0.02),), WELL),
        ((Fault("K1", "short:diode"),), NEVER),
        ((Fault("K1", "open:diode"),), WELL),
        ((Fault("F1", "open"),), WELL),
    ],
)
def test_a_relay_by_itself_tells_of_its_own_faults_and_of_no_others(
    faults: tuple[Fault, ...], word: str
) -> None:
    words = expected(sample(LAMPS), bench(LAMPS), faults)
    assert isinstance(words, dict) and tuple(words) == BENCH_WORDS
    assert max(words, key=lambda w: words[w]) == word
    assert sum(words.values()) == pytest.approx(1.0)


def test_it_proves_the_relay_and_not_the_contacts_of_its_socket() -> None:
    circuit, check = sample(FAN), bench(FAN)
    assert confirms(circuit, check, Fault("K1", "stuck_open"))
    assert not confirms(circuit, check, Fault("X1.87", "open"))


@pytest.mark.parametrize(
    ("fault", "blamed"), [(Fault("X1.87", "open"), "X1.87"), (Fault("K1", "stuck_open"), "K1")]
)
def test_after_it_the_socket_is_to_blame_or_the_relay(fault: Fault, blamed: str) -> None:
    """Voltage before the relay, none behind it though it is fed, and the eye finds the socket clean."""
    vehicle = vehicle_of(Trial(FAN, (fault,)))
    run = begin(read(FAN).sheet, vehicle, ALL_TOOLS)
    before = _share(run.events, blamed)
    take(run, vehicle, bench(FAN), 1.0, "asked")
    assert _share(run.events, blamed) > before
    other = {"K1": "X1.87", "X1.87": "K1"}[blamed]
    assert _share(run.events, blamed) > _share(run.events, other)


def _share(events: list, element: str) -> float:  # type: ignore[type-arg]
    belief = believe(replay(events).case)
    return sum(
        share
        for repairs, share in by_repair(belief.suspects).items()
        if any(owner == element for owner, _ in repairs)
    )


@pytest.mark.parametrize(
    ("tools", "may"),
    [(("fused jumper", "meter"), True), (("fused jumper",), False), (("meter",), False)],
)
def test_it_takes_a_fused_lead_and_a_meter(tools: tuple[str, ...], may: bool) -> None:
    rows = catalogue(sample(FAN), Tools(tools), "off")
    assert any(c.instrument == BENCH for c in rows) == may


def test_nothing_is_fed_near_fuel_vapour_or_on_a_restraint_circuit_and_elsewhere_it_may_be() -> (
    None
):
    near_fuel = Check(BENCH, "K1", "", bench(FAN).setup)
    assert "Fuel vapour" in refusal(sample(PUMP), near_fuel)
    data = read(FAN).sheet.model_dump(mode="json", exclude_unset=True)
    data["connectors"][0]["hazards"] = ["restraint system"]
    assert "restraint" in refusal(circuits_of(read_data(data))(AS_DRAWN), bench(FAN))
    assert refusal(sample(FAN), bench(FAN)) == ""


def test_its_step_names_the_fuse_the_polarity_and_the_way_back_of_the_lead() -> None:
    case = replay(
        begin(
            read(FAN).sheet, vehicle_of(Trial(FAN, (Fault("K1", "open:coil"),))), ALL_TOOLS
        ).events
    ).case
    view = check_view(case, believe(case), bench(FAN))
    assert view.goal.endswith("close its contact by itself?")
    assert "fuse of at most 3 A" in view.do and view.do.endswith("Then lead back to V.")
    assert "86 from battery +" in view.do and "out." in view.do
    assert view.choices == list(BENCH_WORDS) and view.healthy_choice == WELL
    assert "fused lead" in {text.hazard for text in cautions(case.now, bench(FAN))}
