"""The voltage along the path: a sound circuit never leaves its band, a joint with a drop does so there."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from footwell.circuit.circuit import Circuit, build
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.drawing.path import trace, trace_in
from footwell.page.fall import Excess, Level, levels, readings_along, worst_excess
from footwell.page.fall_view import at_work
from footwell.parts.battery import Battery

from .job_rig import Data, Job
from .sample_circuits import FOLDER, MINIBUS, NAMES, sample

LIBRARY = sorted(path.stem for path in FOLDER.glob("*.json"))
ALONG = [
    (name, load)
    for name in LIBRARY
    for load in sample(name).sheet.loads
    if trace(sample(name), load).places
]


def along(circuit: Circuit, load: str) -> tuple[str, ...]:
    return trace_in(circuit, load, dict(setting(circuit, load).controls)).places


def setting(circuit: Circuit, load: str) -> SetupState:
    return at_work(circuit, load, "off")


def read(circuit: Circuit, load: str, *faults: Fault) -> dict[str, float]:
    """What a meter shows at every place of a path."""
    way = along(circuit, load)
    found = readings_along(circuit, way, setting(circuit, load), faults)
    return {place: one.mean for place, one in zip(way, found, strict=True)}


def judged(
    circuit: Circuit, load: str, shown: Mapping[str, float]
) -> tuple[list[Level], Excess | None]:
    way = along(circuit, load)
    sound = readings_along(circuit, way, setting(circuit, load))
    return levels(circuit, way, sound, shown), worst_excess(circuit, way, sound, shown)


def with_battery(name: str, share: float) -> Circuit:
    """The circuit on a battery whose voltage is a share of the sheet's."""
    circuit = sample(name)
    volts = share * circuit.context.system_volts * FULL
    battery = {circuit.supply_element.id: Battery(volts=volts)}
    return build(circuit.sheet, {**circuit.values, **battery})


FULL = 12.6 / 12.0
"""A full battery at rest against its nominal voltage (common practice, no source)."""


@pytest.mark.parametrize(("name", "load"), ALONG)
def test_a_sound_circuit_never_leaves_its_band(name: str, load: str) -> None:
    circuit = sample(name)
    rows, worst = judged(circuit, load, read(circuit, load))
    assert not any(row.outside for row in rows)
    assert worst is None


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("share", [0.98, 1.02])
def test_a_low_or_full_battery_alone_is_no_drop(name: str, share: float) -> None:
    """The first reading sets the band of all others, though it may lie above its own."""
    circuit = sample(name)
    load = circuit.sheet.loads[0]
    rows, worst = judged(circuit, load, read(with_battery(name, share), load))
    assert worst is None
    assert not any(row.outside for row in rows[1:])


def joints(name: str) -> list[tuple[str, int]]:
    """Wires and contacts of the first load's path, with the place in front of each. Those between the
    same two places as the load cannot be told from it by these places."""
    circuit = sample(name)
    load = circuit.sheet.loads[0]
    between = trace_in(circuit, load, dict(setting(circuit, load).controls)).between
    return [
        (element, n)
        for n, row in enumerate(between)
        for element in row
        if circuit.elements[element].kind.name in ("wire", "contact") and load not in row
    ]


@pytest.mark.parametrize(
    ("name", "element", "place"), [(name, *joint) for name in NAMES for joint in joints(name)]
)
def test_a_joint_with_a_drop_is_where_too_much_falls(name: str, element: str, place: int) -> None:
    circuit = sample(name)
    load = circuit.sheet.loads[0]
    shown = read(circuit, load, Fault(element, "high_resistance", 1.0))
    rows, worst = judged(circuit, load, shown)
    assert worst is not None
    assert (worst.start, worst.end) == (place, place + 1)
    assert worst.volts > 0.5
    assert any(row.outside for row in rows)


def load_at(name: str) -> int:
    """The place in front of the load."""
    circuit = sample(name)
    load = circuit.sheet.loads[0]
    between = trace_in(circuit, load, dict(setting(circuit, load).controls)).between
    return next(n for n, row in enumerate(between) if load in row)


@pytest.mark.parametrize(
    ("name", "element", "place"), [(name, *joint) for name in NAMES for joint in joints(name)[::3]]
)
def test_the_drop_is_held_between_the_places_that_were_measured(
    name: str, element: str, place: int
) -> None:
    circuit = sample(name)
    load = circuit.sheet.loads[0]
    way = along(circuit, load)
    every = read(circuit, load, Fault(element, "high_resistance", 1.0))
    some = {p: every[p] for n, p in enumerate(way) if n % 3 == 0}
    _, worst = judged(circuit, load, some)
    if place // 3 == load_at(name) // 3:
        assert worst is None or worst.volts < 1.0, "in series with the load between the same places"
        return
    assert worst is not None
    assert worst.start <= place < worst.end
    assert {way[n] for n in (worst.start, worst.end) if n < len(way)} <= set(some)


def test_a_low_first_reading_tells_that_the_drop_lies_in_front_of_it() -> None:
    circuit = sample(MINIBUS)
    rows, worst = judged(circuit, "M1", {"X2.4.a": 20.0})
    assert worst is not None and worst.start == -1
    assert rows[worst.end].place == "X2.4.a"


def test_the_band_of_all_places_narrows_once_the_battery_is_known() -> None:
    circuit = sample(MINIBUS)
    free, _ = judged(circuit, "M1", {})
    bound, _ = judged(circuit, "M1", {"G1.+": 25.3})
    wide = [row.high - row.low for row in free if row.place.startswith("X1")]
    narrow = [row.high - row.low for row in bound if row.place.startswith("X1")]
    assert all(b < a for a, b in zip(wide, narrow, strict=True))


def fall(job: Job, **asked: object) -> Data:
    return job.ask("fall", **asked)


def test_the_view_says_between_which_places_too_much_falls() -> None:
    job = Job().dead().tools("meter").volts("G1.+", 25.3, "3").volts("F1.2", 25.2, "3")
    bad = fall(job.volts("X2.4.a", 20.0, "3"))
    assert "between terminal 2 of fuse F1 and way 4" in bad["verdict"]
    ends = [bad["points"][n]["place"] for n in (bad["fall_from"], bad["fall_to"])]
    assert ends == ["F1.2", "X2.4.a"]
    good = fall(Job().dead().tools("meter").volts("F1.2", 25.2, "3").volts("X2.4.a", 25.0, "3"))
    assert "lies in its band" in good["verdict"]
    assert (good["fall_from"], good["fall_to"]) == (-1, -1)


def test_readings_of_other_positions_stand_in_their_own_picture() -> None:
    job = Job().dead().tools("meter").volts("X2.2.a", 20.0, "1").volts("F1.2", 25.2, "3")
    last, other = fall(job), fall(job, controls={"S1": "1"})
    assert last["controls"] == {"S1": "3"}
    assert {p["place"] for p in last["points"] if p["measured"] is not None} == {"F1.2"}
    assert {p["place"] for p in other["points"] if p["measured"] is not None} == {"X2.2.a"}


def test_places_run_from_the_supplys_plus_to_its_minus_and_the_line_falls() -> None:
    view = fall(Job().dead().tools("meter"))
    places = [p["place"] for p in view["points"]]
    assert (places[0], places[-1]) == ("G1.+", "G1.-")
    volts = [p["expected"] for p in view["points"]]
    assert volts == sorted(volts, reverse=True)
    assert view["verdict"].startswith("Nothing measured")


def test_a_likely_suspect_has_a_line_of_its_own_and_its_words() -> None:
    job = Job().dead().tools("meter").volts("X4.1.a", 24.9, "3").volts("X4.2.a", 24.8, "3")
    view = fall(job)
    assert view["suspect"]
    assert all(p["suspect"] is not None for p in view["points"])
    assert Job().ask("fall")["suspect"] == "", "nothing is suspected before anything is told"


def test_what_is_no_load_of_the_sheet_is_told() -> None:
    assert "no load" in Job().refused("fall", load="F1")
    assert "no position" in Job().refused("fall", controls={"S1": "9"})
