"""The check that tells most orders of a connector's wires apart, for its minutes."""

from __future__ import annotations

from footwell.checks.catalogue import catalogue
from footwell.checks.check import Check
from footwell.checks.minutes import minutes
from footwell.circuit.circuit import HalfId
from footwell.diagnosis.belief import Weighed, entropy
from footwell.diagnosis.case import Case
from footwell.diagnosis.choose import (
    DECISIVE,
    Cell,
    behind_fuse,
    bits_left,
    cells,
    owners,
    panel_of,
)
from footwell.diagnosis.which_order import Order

MOST_ORDERS = 60
"""The likeliest orders that a check is chosen by."""


def telling(case: Case, half: HalfId, fit: tuple[Order, ...]) -> tuple[Check, list[int]] | None:
    """The best check and how many of the orders each of its outcomes would leave, most first; None where no
    check away from the connector itself tells them apart."""
    live = [_weighed(order, half) for order in fit[:MOST_ORDERS]]
    if len(live) < 2:
        return None
    panel = panel_of(case, live)
    before = entropy([w.share for w in live])
    best: tuple[float, Check, list[Cell]] | None = None
    for check in catalogue(case.now, case.tools, case.engine):
        barred = check.id in case.skipped | case.taken or owners(check) & case.unreachable
        if barred or behind_fuse(check) or half[0] in owners(check):
            continue
        parts = cells(panel, check, live)
        bits = before - bits_left(parts)
        worth = round(bits / max(minutes(case.now, check, case.last_check), 0.1), 6)
        if bits > DECISIVE and (best is None or (worth, best[1].id) > (best[0], check.id)):
            best = (worth, check, parts)
    if best is None:
        return None
    return best[1], sorted((len(_likely(cell)) for cell in best[2] if _likely(cell)), reverse=True)


MAY_BE = 0.15
"""Chance of an outcome under an order from which the order is counted as left by it."""


def _likely(cell: Cell) -> list[Weighed]:
    return [w for w, chance in cell if chance >= MAY_BE]


def _weighed(order: Order, half: HalfId) -> Weighed:
    h = order.hypothesis(half)
    return Weighed(h, order.share, (), h.repairs, (), h.repairs)
