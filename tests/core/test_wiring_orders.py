"""Every order of the wires in a plug: told in words, put right in the fewest moves, and held against the
readings where nobody can see which way is which."""

from __future__ import annotations

from itertools import permutations

import pytest

from footwell.circuit.circuit import arranged
from footwell.circuit.setup import set_up
from footwell.diagnosis.hypotheses import suspected_slips
from footwell.diagnosis.which_order import fitting
from footwell.faults.miswiring import SLIP_ODDS, Wiring, as_drawn, slips
from footwell.faults.moves import moves
from footwell.faults.orders import as_suspects, order_words, orders
from footwell.job.replay import circuits_of, replay
from footwell.page.wiring_view import finding
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import read_data

from .job_rig import MINIBUS, MIRRORED, Job, asked
from .loop_rig import read
from .sample_circuits import sample
from .wiring_rig import HALF, distances, plug, put_right, sheet_of, wired

SEATINGS = [*((wires, 0) for wires in range(2, 7)), *((wires, 1) for wires in range(2, 6))]


@pytest.mark.parametrize(("wires", "empty"), SEATINGS)
def test_moves_are_right_and_the_fewest_for_every_seating_with_wires_left_out_too(
    wires: int, empty: int
) -> None:
    drawn = as_drawn(plug(wires, empty), HALF)
    for state, fewest in distances(wires, empty).items():
        found: Wiring = dict.fromkeys(drawn) | dict(state)
        steps = moves(drawn, found)
        assert put_right(found, steps) == drawn
        assert len(steps) == fewest


def test_two_wires_found_in_one_way_are_parted_by_one_move() -> None:
    drawn = as_drawn(plug(4), HALF)
    found = drawn | {"2": f"{drawn['2']}+{drawn['3']}", "3": None}
    assert moves(drawn, found) == [(drawn["3"], "2", "3")]


def test_a_spare_wire_is_taken_out_and_the_one_left_out_is_put_in() -> None:
    drawn = as_drawn(plug(4), HALF)
    found = drawn | {"3": "spare GY"}
    assert moves(drawn, found) == [("spare GY", "3", None), (drawn["3"], None, "3")]


@pytest.mark.parametrize("wires", [2, 3, 4, 5, 6])
def test_every_order_is_told_in_words_that_no_other_order_has(wires: int) -> None:
    circuit = plug(wires)
    drawn = as_drawn(circuit, HALF)
    every = orders(circuit, HALF)
    told = [order_words(drawn, order) for order in every]
    assert told[0] == "" and all(told[1:])
    assert len(set(told)) == len(every)


@pytest.mark.parametrize("wires", [3, 5, 6])
def test_every_order_is_a_suspect_once_and_all_odds_make_those_of_a_slip(wires: int) -> None:
    circuit = plug(wires)
    rare = [s for s in as_suspects(circuit, HALF) if s.kind == "other order"]
    named = slips(circuit, HALF)
    wirings = {s.wiring for s in (*rare, *named)}
    assert len(wirings) == len(rare) + len(named)
    assert wirings >= {tuple(order.items()) for order in orders(circuit, HALF)[1:]}
    assert sum(s.odds for s in (*rare, *named)) <= SLIP_ODDS + 1e-9


def lamps_under(wires: int, order: Wiring) -> Job:
    """A job on the plug of so many wires, with what each lamp does told as it is under an order."""
    data = sheet_of(wires)
    job = Job()
    job.events.clear()
    job.add("job opened", title="plug", sheet=data)
    vehicle = Vehicle(circuits_of(read_data(data)), (), arranged((), HALF, order))
    setup = set_up(plug(wires), {"S1": "on"})
    seen = [
        {"controls": {"S1": "on"}, "load": load, "state": vehicle.does(setup, load)}
        for load in data["loads"]
    ]
    return job.add("positions tried", seen_by="me", states=seen)


def fan_under(order: Wiring) -> tuple[Job, tuple[str, ...]]:
    """A job on the minibus's fan, with what it does in positions 1, 2 and 3 under an order at its switch."""
    vehicle = Vehicle(circuits_of(read(MINIBUS)), (), arranged((), ("X2", "a"), order))
    does = tuple(vehicle.does(set_up(sample(MINIBUS), {"S1": p}), "M1") for p in "123")
    return Job().positions(p1=does[0], p2=does[1], p3=does[2]), does


def test_the_true_order_always_fits_and_so_do_those_that_do_the_same() -> None:
    every = orders(sample(MINIBUS), ("X2", "a"))
    counts = []
    does = {str(order): fan_under(order)[1] for order in every}
    for order in every:
        fit = fitting(replay(fan_under(order)[0].stored()).case, ("X2", "a"))
        fits = [str(o.wiring) for o in fit.fit]
        assert fit.total == 24 and str(order) in fits
        assert abs(sum(o.share for o in fit.fit) - 1.0) < 1e-9
        assert {name for name, seen in does.items() if seen == does[str(order)]} <= set(fits)
        counts.append(len(fits))
    assert max(counts) < 24


def test_where_every_order_does_the_same_all_of_them_fit() -> None:
    drawn = as_drawn(plug(4), HALF)
    assert len(fitting(replay(lamps_under(4, drawn).stored()).case, HALF).fit) == 24


def test_what_was_seen_of_a_way_leaves_the_orders_that_have_it() -> None:
    view = asked(
        "orders",
        {"events": Job().events, "connector": "X2", "half": "a", "found": {"3": "W5"}},
    )
    assert view["total"] == 6 and all(row["wiring"]["3"] == "W5" for row in view["rows"])


def test_no_order_fits_where_something_else_is_wrong_and_that_is_said() -> None:
    job = Job().positions(p1="still", p2="still", p3="still")
    job.volts("F1.2", 0.0, "1")
    view = job.ask("orders", connector="X2", half="a")
    assert view["fit"] == 0 and "something else is wrong" in view["sentence"]


def test_the_check_proposed_is_not_at_the_plug_whose_numbers_are_unseen() -> None:
    job = Job().tools("meter", "test lamp").positions(p1="still", p2="still", p3="runs")
    view = job.ask("orders", connector="X2", half="a")
    assert 1 < view["fit"] < view["total"] and view["check"]
    assert not view["check"]["record"]["red"].startswith("X2.")


def test_each_way_is_told_by_what_it_meets_and_the_check_by_how_many_orders_it_leaves() -> None:
    job = Job(MINIBUS).tools("meter").positions(p1="still", p2="still", p3="runs")
    view = job.ask("orders", connector="X2", half="a")
    assert view["rows"][0]["ways"][0].startswith("1 (to S1.B): ")
    assert view["check_words"] == "Whatever this check shows, 2 of these are left."
    through = Job(MINIBUS).ask("orders", connector="X1", half="b")
    assert through["rows"][0]["ways"][0].startswith("1 (meets GN/")


def test_a_look_that_is_not_possible_is_not_asked_for_again_and_other_orders_become_suspects() -> (
    None
):
    job = Job().tools("meter").add("story told", rewired=["X2"])
    job.positions(p1="still", p2="still", p3="runs")
    assert job.look()["step"]["kind"] == "wiring"
    job.add("check skipped", check="look into X2.a", reason="other", asked="Look at plug X2")
    assert job.look()["step"]["kind"] != "wiring"
    with_look = replay(job.stored()).case
    assert any(s.kind == "other order" for s in suspected_slips(with_look))


def test_mirrored_numbering_is_named_and_wired_as_drawn_is_not() -> None:
    case = replay(Job(MINIBUS).stored()).case
    assert "mirror" in finding(case, ("X2", "a"), MIRRORED).slip
    assert finding(case, ("X2", "a"), as_drawn(sample(MINIBUS), ("X2", "a"))).slip == ""


def test_a_spare_wire_in_the_place_of_another_is_named_with_what_to_do_with_it() -> None:
    case = replay(Job(MINIBUS).stored()).case
    drawn = as_drawn(sample(MINIBUS), ("X2", "a"))
    told = finding(case, ("X2", "a"), drawn | {"3": "spare GY"})
    assert told.slip == "The wire of way 3 left out and a spare one fitted in its place"
    assert any("insulate" in note and "tie it back" in note for note in told.notes)
    twin = finding(case, ("X2", "a"), drawn | {"3": None})
    assert twin.slip == "The wire of way 3 left out" and not twin.notes


def test_a_spare_wire_does_the_same_as_an_empty_way() -> None:
    drawn = as_drawn(plug(4), HALF)
    case = replay(lamps_under(4, drawn).stored()).case
    spare = finding(case, HALF, drawn | {"3": "spare GY"})
    assert spare.effects == finding(case, HALF, drawn | {"3": None}).effects
    assert wired(4, 0, drawn | {"3": None}).elements.keys() == plug(4).elements.keys()


def test_every_order_of_a_plug_differs_from_every_other() -> None:
    found = [tuple(o.items()) for o in orders(plug(6), HALF)]
    assert len(set(found)) == 720 == len(list(permutations(range(6))))
