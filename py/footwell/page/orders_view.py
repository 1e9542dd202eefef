"""Which orders of a connector's wires fit the readings so far, in words."""

from __future__ import annotations

from collections.abc import Mapping

from footwell.circuit.circuit import Circuit, HalfId
from footwell.circuit.places import wires_named
from footwell.diagnosis.belief import believe
from footwell.diagnosis.case import Case
from footwell.diagnosis.order_check import telling
from footwell.diagnosis.which_order import Fitting, Order, at_connector, fitting
from footwell.faults.miswiring import as_drawn
from footwell.faults.orders import MOST_WIRES
from footwell.messages import OrderRow, OrdersView
from footwell.page import words as say
from footwell.page.check_view import check_view
from footwell.sheet.points import number

MOST_ROWS = 8


def orders_view(case: Case, half: HalfId, seen: Mapping[str, str | None]) -> OrdersView:
    """The orders that fit, with the check that tells most of them apart."""
    circuit = case.drawn
    found = fitting(case, half, seen)
    best = telling(case, half, found.fit)
    return OrdersView(
        total=found.total,
        fit=len(found.fit),
        sentence=_sentence(case, circuit, half, found),
        rows=[_row(circuit, half, order) for order in found.fit[:MOST_ROWS]],
        more=max(0, len(found.fit) - MOST_ROWS),
        check=check_view(case, believe(case), best[0], "asked") if best else None,
        check_words=_check_words(found, best[1] if best else None),
    )


def _sentence(case: Case, circuit: Circuit, half: HalfId, found: Fitting) -> str:
    wires = sum(1 for held in as_drawn(circuit, half).values() if held)
    if found.total == 0 and not 2 <= wires <= MOST_WIRES:
        return (
            f"With {wires} wires the orders are not worked through one by one: that is "
            f"done for 2 to {MOST_WIRES} wires. Say what you can see."
        )
    if found.total == 0:
        return "No order of these wires has what you have seen: a wire is missing, or another one is in."
    if not case.evidence:
        return f"{found.total} orders are possible. Nothing is known yet to choose between them."
    if not found.fit:
        return (
            f"None of the {found.total} orders of these wires explains it by itself: something else is wrong "
            "as well, or something told or measured is not right."
        )
    fit = "fits" if len(found.fit) == 1 else "fit"
    told = f"{len(found.fit)} of {found.total} orders {fit} what was told and measured."
    passed = sum(at_connector(item, half[0]) for item in case.evidence)
    if not passed:
        return told
    return f"{told} Passed over: {passed} taken at this plug, where number and colour may not go together."


def _check_words(found: Fitting, left: list[int] | None) -> str:
    if len(found.fit) < 2:
        return ""
    if left is None:
        return "No check with your tools tells these apart: for the circuit they are the same, or nearly."
    counts = list(dict.fromkeys(left))
    if len(counts) == 1:
        return f"Whatever this check shows, {counts[0]} of these {'is' if counts[0] == 1 else 'are'} left."
    told = say.joined([str(n) for n in counts], most=6)
    return f"Depending on what this check shows, {told} of these are left."


def _row(circuit: Circuit, half: HalfId, order: Order) -> OrderRow:
    name = order.slip.title if order.slip else "as the sheet has it"
    return OrderRow(
        words=say.capital(name),
        ways=[
            f"{number(circuit.connectors[half[0]], way)}{_meets(circuit, half, way)}: "
            f"{wires_named(circuit, wires)}"
            for way, wires in order.wiring.items()
            if wires
        ],
        as_drawn=order.slip is None,
        wiring=order.wiring,
    )


def _meets(circuit: Circuit, half: HalfId, way: str) -> str:
    """What a way meets on the other half, for hands that see colours and no numbers: the part's terminal, or
    the colour there."""
    terminal = circuit.connectors[half[0]].part_ways.get(way)
    if terminal:
        return f" (to {terminal})"
    wires = as_drawn(circuit, (half[0], "b" if half[1] == "a" else "a")).get(way)
    return f" (meets {wires_named(circuit, wires)})" if wires else ""
